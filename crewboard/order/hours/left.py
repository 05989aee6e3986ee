"""How many person-hours are still to do on a task: by the last word on it, else by its estimate.

Hours are written down when the day ends, so their moment says little about when they were worked.
What was worked on the day of the word counts as worked before it, as far as it can have been: for
each person at most the time from when they came, or from when the task was begun that day, to the
word. Only the rest of those hours, and the hours of later days, are taken from what was said.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime, timedelta
from typing import NamedTuple

from crewboard.logbook.acts import HOURS, Begun, GuestHours, HoursLeft, SignIn
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook

# Of the estimate: what work that took longer than any before it is taken to need still (common
# sense, no source).
STILL = 0.25


class HoursToGo(NamedTuple):
    """Person-hours still to do, None where nobody has said anything.

    `ask`: more was worked than was said to be needed, so only somebody who looks can say; then
    `hours` is what the crew's own overruns suggest.
    """

    hours: float | None
    ask: bool = False


def hours_to_go(said: float | None, worked: float, overruns: Sequence[float]) -> HoursToGo:
    """Of `said` person-hours (None: nobody has said), `worked` are done.

    `overruns`: for each finished task that took longer than its estimate, how many times as long.
    """
    if said is None:
        return HoursToGo(None)
    if worked < said or not worked:
        return HoursToGo(said - worked)
    further = sorted(ratio - worked / said for ratio in overruns if said and ratio > worked / said)
    share = further[len(further) // 2] if further else STILL
    return HoursToGo(share * (said or worked), ask=True)


def worked_since(
    logbook: Logbook, words: Mapping[str, Entry], at: datetime
) -> Iterator[tuple[str, float]]:
    """For each task with a last word on it, person-hours worked since; a task may come several
    times. Each day is looked at once."""
    own: dict[datetime, list[str]] = {}
    for task, word in words.items():
        own.setdefault(_midnight(word.at), []).append(task)
    first = min(own, default=at)
    for day in logbook.days.values() if words else ():
        midnight = datetime.combine(day.date, datetime.min.time())
        if midnight < first or midnight > at:
            continue
        for task in own.get(midnight, ()):
            yield task, _rest_of_the_day(day, task, words[task].at, at)
        for task, hours in _hours_by(day, at):
            if task in words and midnight > words[task].at:
                yield task, hours


def _midnight(moment: datetime) -> datetime:
    return moment.replace(hour=0, minute=0, second=0, microsecond=0)


def _hours_by(day: Day, at: datetime) -> Iterator[tuple[str, float]]:
    if day.date < at.date():
        yield from day.hours_by_task.items()
    else:
        for entry in day.counting:
            if isinstance(entry.act, HOURS) and entry.at <= at:
                yield entry.act.task, entry.act.hours


def _rest_of_the_day(day: Day, task: str, word: datetime, at: datetime) -> float:
    """Of the hours on the task that were written after the word, those that cannot have been
    worked before it."""
    came: dict[str, datetime] = {}
    begun = datetime.min
    rest = 0.0
    for entry in day.counting:
        act = entry.act
        if isinstance(act, SignIn):
            came.setdefault(act.who, entry.at)
        elif isinstance(act, Begun) and act.task == task and begun == datetime.min:
            begun = entry.at
        elif isinstance(act, HOURS) and act.task == task and word < entry.at <= at:
            arrival = datetime.min
            if not isinstance(act, GuestHours):
                arrival = came.get(act.who, arrival)
            start = max(arrival, begun)
            room = max(timedelta(), word - start) / timedelta(hours=1)
            rest += max(0.0, act.hours - room)
    return rest


def said_of(entry: Entry) -> float:
    """The person-hours that a word on them says."""
    assert isinstance(entry.act, HoursLeft)
    return entry.act.hours
