"""The hours of one work day as a table: people down, tasks across, and what a change writes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime, time

from crewboard.logbook.acts import Begun, Finished, HoursWorked, SignIn, TakenBack
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.presence import ROUNDING, closing_time, time_there
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.workbench import Said

# The column for what is no task: sweeping up, a talk, fetching timber.
OTHER = ""
_MOST = 24.0

Cell = tuple[str, str]  # person, task


class NotHours(ValueError):
    """The text is no number of hours; the message says what is."""


def parse_hours(text: str) -> float | None:
    """Hours as `as_typed.hours` reads them; None for an empty text or nought. Raises NotHours."""
    if not text.strip():
        return None
    try:
        value = as_typed.hours(text)
    except Unread as error:
        raise NotHours(str(error)) from None
    if value < 0:
        raise NotHours("hours cannot be less than nought")
    if value > _MOST:
        raise NotHours(f"{text.strip()} hours cannot be one person's day")
    return value or None


def in_words(hours: float | None) -> str:
    """ "2.5", empty for none."""
    return f"{round(hours, 2):g}" if hours else ""


def tasks_of_day(board: Board, day: date) -> list[str]:
    """The tasks worked on, begun or finished that day, then those under way; `OTHER` where hours
    were logged on no task."""
    worked_on: dict[str, None] = {}
    of_day = board.logbook.days.get(day)
    for entry in of_day.counting if of_day else ():
        if isinstance(entry.act, Begun | Finished | HoursWorked):
            worked_on[entry.act.task] = None
    if day == board.at.date():
        worked_on |= dict.fromkeys(s.task.id for s in board.in_state("under way"))
    known = [task for task in worked_on if task in board.plan.tasks]
    return [*known, *([OTHER] if OTHER in worked_on else [])]


def people_of_day(board: Board, day: date) -> tuple[list[str], list[str]]:
    """Who was in the shop or has hours that day, by arrival; and the rest of the crew."""
    came: dict[str, None] = {}
    of_day = board.logbook.days.get(day)
    for entry in of_day.counting if of_day else ():
        if isinstance(entry.act, SignIn | HoursWorked):
            came[entry.act.who] = None
    crew = board.plan.crew
    rest = [who for who in crew if who not in came and crew[who].with_us_on(day)]
    return list(came), rest


class HoursOfDay:
    """What stands in the logbook for each cell, and the lines that make it what was typed."""

    def __init__(self, board: Board, day: date) -> None:
        self.board, self.day = board, day
        self._lines: dict[Cell, list[Entry]] = {}
        of_day = board.logbook.days.get(day)
        if of_day is not None:
            fates = of_day.fate()
            for entry in of_day.entries:  # the lines themselves: a correction names the last one
                if isinstance(entry.act, HoursWorked) and entry.id not in fates:
                    self._lines.setdefault((entry.act.who, entry.act.task), []).append(entry)

    def logged(self, cell: Cell) -> float:
        """Hours that stand in the logbook."""
        return sum(e.act.hours for e in self._lines.get(cell, ()) if isinstance(e.act, HoursWorked))

    def changed(self, typed: Mapping[Cell, float | None]) -> dict[Cell, float]:
        """The cells that differ from the logbook, with the hours they should hold."""
        return {
            cell: hours or 0.0
            for cell, hours in typed.items()
            if abs((hours or 0.0) - self.logged(cell)) > 1e-6
        }

    def to_write(self, typed: Mapping[Cell, float | None], now: datetime) -> list[Said]:
        """What is to be written so that the logbook says what was typed.

        A cell that stood is corrected by a line that names the old one; one that was emptied is
        taken back. Several lines of one cell: the last takes up the difference, where it can.
        """
        closes = closing_time(self.board.plan, self.board.logbook, self.day)
        at = now if now.date() == self.day else closes
        entries: list[Said] = []
        for cell, hours in self.changed(typed).items():
            entries += self._cell(cell, hours, at)
        return entries

    def _cell(self, cell: Cell, hours: float, at: datetime) -> Iterator[Said]:
        lines = self._lines.get(cell, [])
        who, task = cell
        if not lines:
            note = "other work" if task == OTHER else ""
            yield Said(HoursWorked(who, hours, task, note), at, "", self.day)
            return
        last = lines[-1]
        assert isinstance(last.act, HoursWorked)
        rest = round(last.act.hours + hours - self.logged(cell), 4)
        if rest > 0:
            yield Said(last.act._replace(hours=rest), last.at, last.id, self.day)
            return
        for line in lines if hours else reversed(lines):
            if hours and line is lines[0]:
                assert isinstance(line.act, HoursWorked)
                yield Said(line.act._replace(hours=hours), line.at, line.id, self.day)
            else:
                taken = max(line.at, datetime.combine(self.day, time.min), at)
                gone = TakenBack(self._first_line(line).id, "hours corrected")
                yield Said(gone, taken, "", self.day)

    def _first_line(self, line: Entry) -> Entry:
        """The line that a chain of corrections began with: who takes it back means them all."""
        of_day = self.board.logbook.days[self.day]
        lines = {entry.id: entry for entry in of_day.entries}
        while line.replaces in lines:
            line = lines[line.replaces]
        return line

    def questions(self, totals: Mapping[str, float]) -> dict[str, str]:
        """Person -> what does not fit: more hours than the person was here. Never a refusal."""
        here = time_there(self.board.plan, self.board.logbook, self.day, self.board.at)
        questions: dict[str, str] = {}
        for who, total in totals.items():
            if not total:
                continue
            if who not in here:
                questions[who] = f"{in_words(total)} h, and did not sign in"
            elif total > here[who] + ROUNDING:
                hours_here = in_words(round(here[who], 1)) or "0"
                questions[who] = f"{in_words(total)} h, but here for {hours_here} h"
        return questions


def totals(cells: Iterable[tuple[Cell, float | None]]) -> tuple[dict[str, float], dict[str, float]]:
    """Hours by person and by task."""
    by_person: dict[str, float] = {}
    by_task: dict[str, float] = {}
    for (who, task), hours in cells:
        by_person[who] = by_person.get(who, 0.0) + (hours or 0.0)
        by_task[task] = by_task.get(task, 0.0) + (hours or 0.0)
    return by_person, by_task
