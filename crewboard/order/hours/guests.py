"""Guests by name, and whose hours a guest's are who has joined the crew since.

A name is the same however it is written: "Ines Bratt" and "ines  bratt".
"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import NamedTuple

from crewboard.logbook.acts import GuestCame, GuestHours, HoursWorked
from crewboard.logbook.day import Day
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.visits import Visit, guest_visits, same_name
from crewboard.plan.plan import Plan


class Worker(NamedTuple):
    """Who worked: the id of somebody of the crew, or a guest's name."""

    who: str = ""
    guest: str = ""

    def is_same(self, other: "Worker") -> bool:
        return self.who == other.who and same_name(self.guest) == same_name(other.guest)


def claims(plan: Plan) -> dict[str, list[str]]:
    """Each name that somebody of the crew bore as a guest -> who says so."""
    claimed: dict[str, list[str]] = {}
    for volunteer in plan.crew.values():
        for name in dict.fromkeys(map(same_name, volunteer.was_guest)):
            claimed.setdefault(name, []).append(volunteer.id)
    return claimed


def joined_since(plan: Plan) -> Mapping[str, str]:
    """Each guest's name -> who of the crew that is. A name that two claim stays a guest's."""
    if not any(volunteer.was_guest for volunteer in plan.crew.values()):
        return {}
    return {name: people[0] for name, people in claims(plan).items() if len(people) == 1}


def worker(joined: Mapping[str, str], act: HoursWorked | GuestHours) -> Worker:
    """Who worked; a guest who joined since is the person of the crew."""
    if isinstance(act, HoursWorked):
        return Worker(act.who)
    who = joined.get(same_name(act.name), "")
    return Worker(who) if who else Worker(guest=" ".join(act.name.split()))


def visits_as_a_guest(plan: Plan, day: Day | None, at: datetime = datetime.max) -> Iterator[Visit]:
    """The visits of a day that somebody of the crew made while still a guest."""
    joined = joined_since(plan)
    if joined and day is not None:
        for visit in guest_visits(day, at):
            if who := joined.get(same_name(visit.name)):
                yield Visit(who, visit.since, visit.until)


def guest_names(logbook: Logbook) -> dict[str, str]:
    """Everybody who ever was a guest: the name as it is compared -> as it was first written."""
    names: dict[str, str] = {}
    for day in logbook.days.values():
        for entry in day.counting:
            if isinstance(entry.act, GuestCame | GuestHours):
                names.setdefault(same_name(entry.act.name), " ".join(entry.act.name.split()))
    return names
