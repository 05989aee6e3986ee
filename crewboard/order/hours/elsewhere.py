"""The same people's hours on another vehicle: whether a day has room for both.

People are the same by name: each folder has short names of its own.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, timedelta
from typing import NamedTuple

from crewboard.logbook.acts import HOURS
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.visits import guest_visits, same_name
from crewboard.order.board import openings_of
from crewboard.order.hours.guests import Worker, joined_since, worker
from crewboard.order.presence import ROUNDING, closing_time, visits_of
from crewboard.order.said import day_in_words, person
from crewboard.plan.plan import Plan

WHOLE_DAY = 24.0
Span = tuple[datetime, datetime]


class DayElsewhere(NamedTuple):
    """One day on another vehicle: hours and presence of people by name (`same_name`)."""

    vehicle: str
    hours: Mapping[str, float] = {}
    there: Mapping[str, tuple[Span, ...]] = {}


def day_of_another(plan: Plan, logbook: Logbook, day: date) -> DayElsewhere:
    """What this plan and logbook tell of a day to another vehicle's."""
    hours: dict[str, float] = {}
    for who, of_person in _hours(plan, logbook, day).items():
        name = _name(plan, who)
        hours[name] = hours.get(name, 0.0) + of_person
    there: dict[str, tuple[Span, ...]] = {}
    for who, spans in _presence(plan, logbook, day).items():
        there[_name(plan, who)] = (*there.get(_name(plan, who), ()), *spans)
    return DayElsewhere(plan.vehicle.name, hours, there)


def doubt_of_both(
    plan: Plan,
    logbook: Logbook,
    day: date,
    who: Worker,
    hours: float,
    elsewhere: Iterable[DayElsewhere],
) -> str:
    """Why the hours of somebody on this day can hardly be so beside those on other vehicles; empty
    where they can."""
    name = _name(plan, who)
    others = [o for o in elsewhere if o.hours.get(name) or o.there.get(name)]
    if not others or not hours:
        return ""
    usual = _open(plan, logbook, day)
    here = _presence(plan, logbook, day).get(who) or usual
    there = [span for other in others for span in other.there.get(name, ())]
    worked_there = sum(other.hours.get(name, 0.0) for other in others)
    told = f"{person(plan, who.who) if who.who else who.guest} {_told(others, name)} too"
    in_all = hours + worked_there
    if in_all > WHOLE_DAY:
        return f"{told}: with {hours:.10g} h here that is {in_all:.10g} h, more than a day has"
    room = _length([*here, *(there or usual)])
    if worked_there and in_all > room + ROUNDING:
        return (
            f"{told}: with {hours:.10g} h here that is {in_all:.10g} h in {room:.3g} h of that day"
        )
    free = room - _length(there) if there else room
    if not worked_there and hours > free + ROUNDING:
        return f"{told}, and has {hours:.10g} h here on {day_in_words(day)}"
    return ""


def told_elsewhere(plan: Plan, who: Worker, elsewhere: Iterable[DayElsewhere]) -> str:
    """ "has 4 h on The Plank Wagon"; empty for who was on no other vehicle."""
    name = _name(plan, who)
    return _told([o for o in elsewhere if o.hours.get(name) or o.there.get(name)], name)


def _told(others: Sequence[DayElsewhere], name: str) -> str:
    worked = [f"{o.hours[name]:.10g} h on {o.vehicle}" for o in others if o.hours.get(name)]
    if worked:
        return f"has {' and '.join(worked)}"
    spans = [
        f"from {since:%H:%M} to {until:%H:%M} at {other.vehicle}"
        for other in others
        for since, until in other.there[name]
    ]
    return f"was signed in {' and '.join(spans)}" if spans else ""


def _name(plan: Plan, who: Worker) -> str:
    return same_name(person(plan, who.who) if who.who else who.guest)


def _hours(plan: Plan, logbook: Logbook, day: date) -> dict[Worker, float]:
    of_day, joined = logbook.days.get(day), joined_since(plan)
    hours: dict[Worker, float] = {}
    for entry in of_day.counting if of_day else ():
        if isinstance(entry.act, HOURS):
            who = worker(joined, entry.act)
            hours[who] = hours.get(who, 0.0) + entry.act.hours
    return hours


def _presence(plan: Plan, logbook: Logbook, day: date) -> dict[Worker, list[Span]]:
    """When each was in the shop; who was never signed out till the shop closed."""
    closes = closing_time(plan, logbook, day)
    there: dict[Worker, list[Span]] = {}
    for visit in visits_of(plan, logbook, day):
        until = visit.until or max(visit.since, closes)
        there.setdefault(Worker(visit.who), []).append((visit.since, until))
    joined = joined_since(plan)
    for guest in guest_visits(logbook.days.get(day)):
        if same_name(guest.name) not in joined:
            until = guest.until or max(guest.since, closes)
            there.setdefault(Worker(guest=guest.name), []).append((guest.since, until))
    return there


def _open(plan: Plan, logbook: Logbook, day: date) -> list[Span]:
    openings = openings_of(plan, logbook, day) or (plan.vehicle.work_days.usual,)
    return [(datetime.combine(day, o.opens), datetime.combine(day, o.closes)) for o in openings]


def _length(spans: Iterable[Span]) -> float:
    """Hours that the spans cover, what two of them cover counted once."""
    covered, reached = timedelta(), datetime.min
    for since, until in sorted(spans):
        covered += max(timedelta(), until - max(since, reached))
        reached = max(reached, until)
    return covered / timedelta(hours=1)
