"""Who came and went on one day: sign-ins and sign-outs put together."""

from datetime import datetime
from typing import NamedTuple

from crewboard.logbook.acts import GuestCame, GuestLeft, SignIn, SignOut
from crewboard.logbook.day import Day


class Visit(NamedTuple):
    """Somebody in the shop, from sign-in to sign-out (None while still here)."""

    who: str
    since: datetime
    until: datetime | None = None


def visits(day: Day | None, at: datetime = datetime.max) -> list[Visit]:
    """The visits of the day up to the moment `at`, in order of arrival.

    A second sign-in of somebody who is here already, and a sign-out of somebody who is not, change
    nothing. A visit ends with its day: who was never signed out is not taken to sleep in the shop.
    """
    all_visits: list[Visit] = []
    open_at: dict[str, int] = {}  # person -> the place of the visit that has not ended
    for entry in day.counting if day else ():
        if entry.at > at:
            break
        act = entry.act
        if isinstance(act, SignIn) and act.who not in open_at:
            open_at[act.who] = len(all_visits)
            all_visits.append(Visit(act.who, entry.at))
        elif isinstance(act, SignOut) and act.who in open_at:
            place = open_at.pop(act.who)
            all_visits[place] = all_visits[place]._replace(until=entry.at)
    return all_visits


def same_name(name: str) -> str:
    """A guest's name as it is compared: capitals and blanks make no other person of it."""
    return " ".join(name.casefold().split())


class GuestVisit(NamedTuple):
    """A guest in the shop, by name, until they left (None while still here)."""

    name: str
    since: datetime
    host: str = ""
    until: datetime | None = None

    def is_called(self, name: str) -> bool:
        return same_name(self.name) == same_name(name)


def guest_visits(day: Day | None, at: datetime = datetime.max) -> list[GuestVisit]:
    """The visits of guests up to the moment `at`, in order of arrival."""
    all_visits: list[GuestVisit] = []
    for entry in day.counting if day else ():
        if entry.at > at:
            break
        act = entry.act
        if not isinstance(act, GuestCame | GuestLeft):
            continue
        here = [
            place
            for place, visit in enumerate(all_visits)
            if visit.until is None and visit.is_called(act.name)
        ]
        if isinstance(act, GuestCame) and not here:
            all_visits.append(GuestVisit(act.name.strip(), entry.at, act.host))
        elif isinstance(act, GuestLeft) and here:
            all_visits[here[0]] = all_visits[here[0]]._replace(until=entry.at)
    return all_visits
