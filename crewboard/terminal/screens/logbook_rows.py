"""The logbook as rows: days, people or tasks on one side, their lines on the other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import Literal, NamedTuple

from crewboard.logbook.acts import (
    HOURS,
    Begun,
    Expected,
    Finished,
    GuestCame,
    GuestHours,
    HoursWorked,
    SignIn,
    TakenBack,
)
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by, people_of
from crewboard.order.board import Board
from crewboard.order.said import SHORT_MONTHS, day_in_words, how_many, person
from crewboard.telling.entry_words import put_down_in_words
from crewboard.telling.logbook import about
from crewboard.telling.row import Row, heading
from crewboard.terminal.cells import wrapped
from crewboard.terminal.entry_lines import entry_text, fate_in_words
from crewboard.terminal.widgets.rows import Column

By = Literal["day", "person", "task"]
OUTER = (Column(15), Column(), Column(7, right=True))
_TIME, _DAY_AND_TIME = 5, 12  # cells of "09:00"; of "30 Apr 09:00"
_WRITER = 20  # cells of who wrote it
WIDE_FROM = 76  # cells from which the writer has a column
_BEING_THERE = (SignIn, HoursWorked, Begun, Finished)  # what only somebody who is there is in
Lines = dict[str, list[tuple[Day, Entry]]]


def inner_columns(lines: Sequence[tuple[Day, Entry]]) -> tuple[Column, ...]:
    """The columns of these lines: the time wide enough for a date where one has it."""
    time = Column(_time_cells(lines))
    return (time, Column(), Column(_WRITER, wide_only=True, tone="faint", spare=True))


def _time_cells(lines: Sequence[tuple[Day, Entry]]) -> int:
    on_their_day = all(entry.at.date() == day.date for day, entry in lines)
    return _TIME if on_their_day else _DAY_AND_TIME


class Key(NamedTuple):
    """Which line a row stands for: ids are unique within their day's file."""

    day: date
    entry: str

    def __str__(self) -> str:
        return f"{self.day.isoformat()}/{self.entry}"


def key_of(row_id: str) -> Key | None:
    """The line of a row, None for a row that stands for none."""
    day, slash, entry = row_id.partition("/")
    return Key(date.fromisoformat(day), entry) if slash else None


class Fates:
    """What became of the lines of each day, worked out once a day and only where it must be."""

    def __init__(self) -> None:
        self._known: dict[date, Mapping[str, str]] = {}

    def of(self, day: Day) -> Mapping[str, str]:
        fates = self._known.get(day.date)
        if fates is None:
            touched = any(e.replaces or isinstance(e.act, TakenBack) for e in day.entries)
            fates = self._known[day.date] = day.fate() if touched else {}
        return fates


def day_rows(board: Board) -> list[Row]:
    """The days, newest first, with hours and people."""
    fates = Fates()
    days = reversed(list(board.logbook.days.values()))
    return [heading("By day, newest first"), *(_day_row(day, fates) for day in days)]


def _day_row(day: Day, fates: Fates) -> Row:
    worked = [e.act for e in day.counting if isinstance(e.act, HOURS)]
    hours = sum(act.hours for act in worked)
    dead = len(fates.of(day))
    facts = list(_who_was_there(day))
    facts += [f"{dead} struck out"] if dead else []
    cells = (day_in_words(day.date), ", ".join(facts), f"{hours:.10g} h" if hours else "")
    return Row(day.date.isoformat(), cells, "strong", body_tone="faint")


def _who_was_there(day: Day) -> Iterator[str]:
    """ "8 people", "1 guest"; of a day to which nobody came yet how many said that they will."""
    acts = [entry.act for entry in day.counting]
    people = {who for act in acts if isinstance(act, _BEING_THERE) for who in people_of(act)}
    guests = {act.name for act in acts if isinstance(act, GuestCame | GuestHours)}
    answers = {act.who: act.coming for act in acts if isinstance(act, Expected)}
    if people:
        yield how_many(len(people), "person")
    if guests:
        yield how_many(len(guests), "guest")
    if answers and not (people or guests):
        yield f"{sum(answers.values())} expected"


def lines_by(board: Board, by: By) -> Lines:
    """Every line of the logbook under the ids it is about, newest first."""
    lines: Lines = {}
    for day in reversed(list(board.logbook.days.values())):
        for entry in reversed(day.entries):
            for key in _under(entry, by):
                lines.setdefault(key, []).append((day, entry))
    return lines


def _under(entry: Entry, by: By) -> Iterable[str]:
    return {named.id for named in named_by(entry.act) if named.thing == by}


def outer_rows(board: Board, by: By, lines: Lines) -> list[Row]:
    """The people or the tasks that the logbook names."""
    if by == "day":
        return day_rows(board)
    if by == "person":
        order = [*board.plan.crew, *sorted(set(lines) - board.plan.crew.keys())]
    else:
        order = [*board.plan.tasks, *sorted(set(lines) - board.plan.tasks.keys())]
    fates = Fates()
    rows = [_outer_row(board, by, key, lines[key], fates) for key in order if key in lines]
    return [heading(f"By {by}, with the last day and the hours"), *rows]


def _outer_row(board: Board, by: By, key: str, lines: list[tuple[Day, Entry]], fates: Fates) -> Row:
    hours = _hours(lines, key if by == "person" else "", fates)
    last = day_in_words(lines[0][0].date)
    if by == "person":
        name = person(board.plan, key)
    else:
        task = board.plan.tasks.get(key)
        name = task.title if task else key
    return Row(key, (last, name, f"{hours:.10g} h" if hours else ""), "faint", find=key)


def _hours(lines: list[tuple[Day, Entry]], who: str, fates: Fates) -> float:
    return sum(
        entry.act.hours
        for day, entry in lines
        if isinstance(entry.act, HOURS)
        and (not who or (isinstance(entry.act, HoursWorked) and entry.act.who == who))
        and entry.id not in fates.of(day)
    )


def inner_rows(board: Board, lines: list[tuple[Day, Entry]], width: int, headed: bool) -> list[Row]:
    """The lines themselves; with `headed` under their days."""
    rows: list[Row] = []
    fates, last = Fates(), None
    wide = width >= WIDE_FROM
    room = width - _time_cells(lines) - 5
    for day, entry in lines:
        if headed and day.date != last:
            rows.append(heading(day_in_words(day.date)))
            last = day.date
        rows.append(_line_row(board, day, entry, fates.of(day).get(entry.id, ""), room, wide=wide))
    return rows


def _line_row(board: Board, day: Day, entry: Entry, fate: str, room: int, *, wide: bool) -> Row:
    text = entry_text(board, entry, day)
    by = person(board.plan, entry.by) if entry.by else ""
    # Of who wrote of nobody but themselves the line says it already.
    writer = "" if people_of(entry.act) == {entry.by} else by
    first, *rest = wrapped(text, max(20, room - (_WRITER + 1 if wide and writer else 0)))
    below = [f"  {line}" for line in rest]
    below += [f"  {line}" for line in _after(board, day, entry, fate, "" if wide else by)]
    when = f"{entry.at:%H:%M}"
    if entry.at.date() != day.date:
        when = f"{entry.at.day} {SHORT_MONTHS[entry.at.month - 1]} {when}"
    row_id = str(Key(day.date, entry.id))
    find = f"{by} {entry.kind} {entry.id} {' '.join(about(entry))}"
    tone = "faint" if fate else "plain"
    return Row(
        row_id,
        (when, first, writer),
        tone,
        tuple(below),
        find=find,
        body_tone=tone,
        struck=1 + len(rest) if fate else 0,
    )


def _after(board: Board, day: Day, entry: Entry, fate: str, by: str) -> list[str]:
    """What became of the line, what it corrects, and when it was written where that was later."""
    facts = []
    if fate:
        facts.append(fate_in_words(board, day, fate))
    if entry.replaces:
        old = next(
            (f"the entry of {e.at:%H:%M}" for e in day.entries if e.id == entry.replaces), ""
        )
        facts.append(f"corrects {old or 'an entry that is gone'}")
    if put_down := put_down_in_words(entry):
        facts.append(f"{put_down}{f' by {by}' if by else ''}")
    elif by and by not in entry_text(board, entry, day):
        facts.append(f"written by {by}")
    return facts
