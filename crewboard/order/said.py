"""Dates, spans, counts and names as the crew says them.

The logbook may name what the plan does not hold any more. Such a thing is called by its id as it
was written; no name here raises anything.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime, timedelta
from itertools import groupby

from crewboard.logbook.acts import WorkedOn
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.units import how_many as how_many
from crewboard.plan.workdays import MONTHS, WEEKDAYS

_DAYS = tuple(day[:3].title() for day in WEEKDAYS)
SHORT_MONTHS = tuple(month[:3] for month in MONTHS)


def day_in_words(day: date) -> str:
    """ "Sat 2 May 2026", whatever the machine's language."""
    return f"{_day_and_month(day)} {day.year}"


def _day_and_month(day: date) -> str:
    return f"{_DAYS[day.weekday()]} {day.day} {SHORT_MONTHS[day.month - 1]}"


def day_and_time(moment: datetime) -> str:
    """ "Sat 2 May 2026 16:00"."""
    return f"{day_in_words(moment)} {moment:%H:%M}"


def when(moment: datetime, now: datetime) -> str:
    """ "13:47" for today, "Tue 21 Apr 13:47" within some months, else with the year."""
    if moment.date() == now.date():
        return f"{moment:%H:%M}"
    day = _day_and_month(moment) if abs((moment - now).days) < 300 else day_in_words(moment)
    return f"{day} {moment:%H:%M}"


def shortly(moment: datetime, now: datetime) -> str:
    """The same in fewer words: "13:48" today, "Tue" within six days, "11 May", with the year where
    that is far."""
    if moment.date() == now.date():
        return f"{moment:%H:%M}"
    if timedelta() < moment.date() - now.date() < timedelta(days=7):
        return _DAYS[moment.weekday()]
    day = f"{moment.day} {SHORT_MONTHS[moment.month - 1]}"
    return day if abs((moment - now).days) < 300 else f"{day} {moment.year}"


def day_shortly(day: date, today: date) -> str:
    """ "Sat 9 May" within some months, else "7 Jun 2025"."""
    if abs((day - today).days) < 300:
        return _day_and_month(day)
    return f"{day.day} {SHORT_MONTHS[day.month - 1]} {day.year}"


def how_long_shortly(span: timedelta) -> str:
    """A span for a narrow column: "5 h", "3 d", "6 wk", "4 mon", "40 min"."""
    number, _, unit = how_long(span).partition(" ")
    return f"{number} {_NARROW.get(unit.rstrip('s'), unit)}"


_NARROW = {"month": "mon", "week": "wk", "day": "d"}


def how_long(span: timedelta) -> str:
    """A span in its two largest fitting words: "3 weeks", "2 days", "5 h", "40 min"."""
    minutes = int(span.total_seconds() // 60)
    if minutes >= 56 * 1440:
        return f"{round(minutes / 1440 / 30.44)} months"
    if minutes >= 14 * 1440:
        return f"{round(minutes / 1440 / 7)} weeks"
    if minutes >= 2 * 1440:
        return f"{round(minutes / 1440)} days"
    if minutes >= 120:
        return f"{round(minutes / 60)} h"
    return f"{max(0, minutes)} min"


def listed(words: Iterable[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    items = list(words)
    return " and ".join([", ".join(items[:-1]), items[-1]] if len(items) > 1 else items)


def person(plan: Plan, who: str) -> str:
    """A volunteer's name, or the id as written where the crew list does not know it."""
    known = plan.crew.get(who)
    return known.name if known else who


def short_names(plan: Plan, people: Iterable[str]) -> list[str]:
    """What they are called in the shop: the first name, where nobody else of the crew has it."""
    first = [volunteer.name.partition(" ")[0] for volunteer in plan.crew.values()]
    names = [person(plan, who) for who in people]
    return [short if first.count(short := name.partition(" ")[0]) == 1 else name for name in names]


def signed_by(plan: Plan, who: str, writer: str) -> str:
    """Who signed, and who wrote it down where that is somebody else."""
    if writer in ("", who):
        return person(plan, who)
    return f"{person(plan, who)}, written by {person(plan, writer)}"


def task_title(plan: Plan, task_id: str) -> str:
    """A task's title, or the id as written where the plan does not know it."""
    known = plan.tasks.get(task_id)
    return known.title if known else task_id


def quoted_title(plan: Plan, task_id: str) -> str:
    """The title of a task or series in quotes, or the id as written where the plan does not know
    it."""
    known = plan.written(task_id) if task_id in plan.series else plan.tasks.get(task_id)
    return f'"{known.title}"' if known else task_id


def component_name(plan: Plan, component_id: str) -> str:
    """A component's name, or the id as written where the plan does not know it."""
    known = plan.components.get(component_id)
    return known.name if known else component_id


def supply_name(plan: Plan, supply_id: str) -> str:
    """A supply's name, or the id as written where the plan does not know it."""
    known = plan.supplies.get(supply_id)
    return known.name if known else supply_id


def piece_name(plan: Plan, piece_id: str) -> str:
    """A piece's name, or the id as written where the plan does not know it."""
    known = plan.pieces.get(piece_id)
    return known.name if known else piece_id


def pieces_in_words(plan: Plan, pieces: Iterable[str]) -> str:
    """ "Arch 3", "Arches 1-4 and 6", "Panes 2 and 5, Driver's pane": several of a kind by the name
    of their table with their numbers, the others by their own names."""
    kinds: dict[str, list[int]] = {}
    for piece_id in pieces:
        known = plan.pieces.get(piece_id)
        numbered = known is not None and known.several and known.name.endswith(f" {known.number}")
        if known is not None and numbered:
            kinds.setdefault(known.several, []).append(known.number)
        else:
            kinds.setdefault(piece_id, [])
    return ", ".join(_of_a_kind(plan, kind, sorted(set(kinds[kind]))) for kind in kinds)


def piece_first(plan: Plan, task: Task, pieces: Iterable[str] = ()) -> str:
    """ "Arch 3: Steam and bend": of a task in a series its piece first, or those named, by which
    it differs from the others where the end of a line is cut; of any other task the title."""
    if not task.series or task.series not in plan.series:
        return task.title
    named = pieces_in_words(plan, pieces or task.pieces)
    return f"{named}: {plan.series[task.series].task.title}" if named else task.title


def _of_a_kind(plan: Plan, kind: str, numbers: list[int]) -> str:
    if len(numbers) < 2:
        return piece_name(plan, f"{kind}/{numbers[0]}" if numbers else kind)
    return f"{table_name(kind)} {listed(_runs(numbers))}"


def table_name(several: str) -> str:
    """What several pieces are called by their table: "Front ribs" for "roof/front-ribs"."""
    name = several.rpartition("/")[2].replace("-", " ").replace("_", " ")
    return f"{name[:1].upper()}{name[1:]}"


def _runs(numbers: list[int]) -> Iterator[str]:
    """ "1-4" for each unbroken run of three and more, else the numbers."""
    for _, run in groupby(enumerate(numbers), key=lambda pair: pair[1] - pair[0]):
        row = [number for _, number in run]
        yield from (f"{row[0]}-{row[-1]}",) if len(row) > 2 else map(str, row)


def together(plan: Plan, tasks: Iterable[str]) -> list[list[str]]:
    """The tasks, those of one series together."""
    groups: dict[str, list[str]] = {}
    for task_id in tasks:
        known = plan.tasks.get(task_id)
        groups.setdefault((known.series if known else "") or task_id, []).append(task_id)
    return list(groups.values())


def titled(plan: Plan, tasks: Iterable[str]) -> str:
    """ ""Prime: Rails 1-3"": the titles in quotes, of a series with its pieces."""
    return listed(title_of_all(plan, some) for some in together(plan, tasks))


def title_of_all(plan: Plan, tasks: Sequence[str]) -> str:
    """The same of one task, or of some of one series."""
    if len(tasks) == 1:
        return quoted_title(plan, tasks[0])
    pieces = [piece for task in tasks for piece in plan.tasks[task].pieces]
    series = plan.series[plan.tasks[tasks[0]].series]
    return f'"{series.task.title}: {pieces_in_words(plan, pieces)}"'


def on_in_words(plan: Plan, on: WorkedOn) -> str:
    """What hours are on: "Lay the boards", "Deck", "Rib 3", "driving"; "other work" where only
    the note tells it."""
    if on.task:
        return task_title(plan, on.task)
    if on.component:
        return component_name(plan, on.component)
    return piece_name(plan, on.piece) or on.other or "other work"


def name_of(plan: Plan, *ids: str) -> str:
    """The title of a task or the name of a component: of the first of these ids that the plan
    knows, else the first that says anything. So `name_of(plan, hold.task, hold.component)`."""
    for some_id in ids:
        if some_id in plan.tasks:
            return plan.tasks[some_id].title
        if some_id in plan.components:
            return plan.components[some_id].name
        if some_id in plan.pieces:
            return plan.pieces[some_id].name
        if some_id in plan.series:
            return plan.series[some_id].task.title
    return next(filter(None, ids), "")


def quoted_name(plan: Plan, *ids: str) -> str:
    """The same in a sentence: the title of a task or series in quotes, any other name without."""
    name = name_of(plan, *ids)
    titles = (quoted_title(plan, i) for i in ids if i in plan.tasks or i in plan.series)
    return next((title for title in titles if title == f'"{name}"'), name)


def by_whom(plan: Plan, people: Iterable[str]) -> str:
    """ ", by Ada and Tom", or nothing where nobody was named."""
    names = listed(person(plan, who) for who in people)
    return f", by {names}" if names else ""
