"""Hours that the day's entries speak of: from when somebody began a task until they left it."""

from datetime import datetime, timedelta

from crewboard.logbook.acts import Act, Begun, ClosedDay, Finished, SignOut, Stopped
from crewboard.logbook.day import Day
from crewboard.plan.clock import ShopClock

_STEP = 0.25  # hours are proposed in quarters, as people write them


def proposed_hours(
    day: Day | None, until: datetime, clock: ShopClock
) -> dict[tuple[str, str], float]:
    """(person, task) -> hours up to the moment `until`, in real time, to the quarter of an hour.

    Who is on a task is on it until they begin another, it is finished or stopped, they leave or the
    day is closed. A break that nobody wrote down is in it: the hours are looked over by a person.
    """
    spans: dict[tuple[str, str], timedelta] = {}
    on: dict[str, tuple[str, datetime]] = {}  # person -> the task they are on, since when

    def leave(who: str, at: datetime) -> None:
        if who in on:
            task, since = on.pop(who)
            spans[who, task] = spans.get((who, task), timedelta()) + clock.between(since, at)

    for entry in day.counting if day else ():
        if entry.at > until:
            break
        for who in _leaving(entry.act, on):
            leave(who, entry.at)
        if isinstance(entry.act, Begun):
            on |= dict.fromkeys(entry.act.people, (entry.act.task, entry.at))
    for who in tuple(on):
        leave(who, until)
    hours = {key: _quarters(span) for key, span in spans.items()}
    return {key: number for key, number in hours.items() if number > 0}


def _leaving(act: Act, on: dict[str, tuple[str, datetime]]) -> list[str]:
    """Who of those on a task leaves it by this."""
    match act:
        case Begun():
            return list(act.people)
        case Finished() | Stopped():
            return [who for who, (task, _) in on.items() if task == act.task]
        case SignOut():
            return [act.who]
        case ClosedDay():
            return list(on)
    return []


def _quarters(span: timedelta) -> float:
    return round(span.total_seconds() / 3600 / _STEP) * _STEP
