"""The hours of one work day as a table: people down, what was worked on across, and what a change
writes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime, time
from typing import NamedTuple

from crewboard.logbook.acts import (
    HOURS,
    Begun,
    Finished,
    GuestCame,
    GuestHours,
    HoursWorked,
    SignIn,
    TakenBack,
    WorkedOn,
    worked_on,
)
from crewboard.logbook.entry import Entry
from crewboard.logbook.visits import guest_visits, same_name
from crewboard.order.board import Board
from crewboard.order.hours.guests import Worker
from crewboard.order.hours.proposed import proposed_hours
from crewboard.order.presence import ROUNDING, closing_time, time_there
from crewboard.order.said import person
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.plan.plan import Plan
from crewboard.workbench import Said

# The column for what the note tells: sweeping up, a talk, fetching timber.
OTHER = WorkedOn()
_MOST = 24.0


class Cell(NamedTuple):
    """A row and a column: whose hours, and on what."""

    worker: Worker
    on: WorkedOn


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


def worked_on_that_day(board: Board, day: date) -> list[WorkedOn]:
    """What was worked on, begun or finished that day, and today what is under way: in the order of
    the plan, so that no column moves when hours are saved."""
    of_day = board.logbook.days.get(day)
    columns: dict[WorkedOn, None] = {}
    for entry in of_day.counting if of_day else ():
        if isinstance(entry.act, Begun | Finished):
            columns[WorkedOn(entry.act.task)] = None
        elif isinstance(entry.act, HOURS):
            columns[worked_on(entry.act)] = None
    if day == board.at.date():
        columns |= dict.fromkeys(WorkedOn(s.task.id) for s in board.in_state("under way"))
    return in_order(board.plan, columns)


def in_order(plan: Plan, columns: Iterable[WorkedOn]) -> list[WorkedOn]:
    """Tasks, components and pieces in the order of the plan, then kinds of other work, then what
    only notes tell. What the plan does not know any more stands behind what it knows."""
    known = (plan.tasks, plan.components, plan.pieces, plan.vehicle.other_work)
    places = [{name: place for place, name in enumerate(names)} for names in known]

    def place(on: WorkedOn) -> tuple[int, int, str]:
        for kind, (name, of_kind) in enumerate(zip(on, places, strict=True)):
            if name:
                return kind, of_kind.get(name, len(of_kind)), name
        return len(places), 0, ""

    return sorted(set(columns), key=place)


def people_of_day(board: Board, day: date) -> tuple[list[Worker], list[Worker]]:
    """Who was in the shop or has hours that day, guests too, by arrival; and the rest of the
    crew."""
    came: dict[Worker, None] = {}
    guests: dict[str, Worker] = {}
    of_day = board.logbook.days.get(day)
    for entry in of_day.counting if of_day else ():
        if isinstance(entry.act, SignIn | HoursWorked):
            came[Worker(entry.act.who)] = None
        elif isinstance(entry.act, GuestCame | GuestHours):
            name = " ".join(entry.act.name.split())
            came[guests.setdefault(same_name(name), Worker(guest=name))] = None
    crew = board.plan.crew
    rest = [Worker(who) for who in crew if crew[who].with_us_on(day)]
    return list(came), [worker for worker in rest if worker not in came]


def worker_name(plan: Plan, worker: Worker) -> str:
    """ "Ada Marsh", "Ines Bratt (guest)"."""
    return person(plan, worker.who) if worker.who else f"{worker.guest} (guest)"


class HoursOfDay:
    """What stands in the logbook for each cell, and the lines that make it what was typed."""

    def __init__(self, board: Board, day: date) -> None:
        self.board, self.day = board, day
        self._lines: dict[Cell, list[Entry]] = {}
        guests: dict[str, Worker] = {w.guest: w for w in people_of_day(board, day)[0] if w.guest}
        self._guests = {same_name(name): worker for name, worker in guests.items()}
        of_day = board.logbook.days.get(day)
        if of_day is not None:
            fates = of_day.fate()
            for entry in of_day.entries:  # the lines themselves: a correction names the last one
                if isinstance(entry.act, HOURS) and entry.id not in fates:
                    self._lines.setdefault(self._cell_of(entry.act), []).append(entry)

    def _cell_of(self, act: HoursWorked | GuestHours) -> Cell:
        if isinstance(act, HoursWorked):
            return Cell(Worker(act.who), worked_on(act))
        guest = self._guests.get(same_name(act.name), Worker(guest=act.name))
        return Cell(guest, worked_on(act))

    def logged(self, cell: Cell) -> float:
        """Hours that stand in the logbook."""
        return sum(e.act.hours for e in self._lines.get(cell, ()) if isinstance(e.act, HOURS))

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
        if not lines:
            yield Said(_new(cell, hours), at, "", self.day)
            return
        last = lines[-1]
        assert isinstance(last.act, HOURS)
        rest = round(last.act.hours + hours - self.logged(cell), 4)
        if rest > 0:
            yield Said(last.act._replace(hours=rest), last.at, last.id, self.day)
            return
        for line in lines if hours else reversed(lines):
            if hours and line is lines[0]:
                assert isinstance(line.act, HOURS)
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

    def proposed(self) -> dict[Cell, float]:
        """What the day's entries speak of, for each cell of which nothing is written yet."""
        closes = closing_time(self.board.plan, self.board.logbook, self.day)
        until = self.board.at if self.board.at.date() == self.day else closes
        of_day = self.board.logbook.days.get(self.day)
        hours = proposed_hours(of_day, until, self.board.plan.clock)
        cells = {Cell(Worker(who), WorkedOn(task)): time for (who, task), time in hours.items()}
        return {cell: time for cell, time in cells.items() if cell not in self._lines}

    def questions(self, totals: Mapping[Worker, float]) -> dict[Worker, str]:
        """What does not fit: more hours than the person was here. Never a refusal."""
        here = self._time_there()
        questions: dict[Worker, str] = {}
        for worker, total in totals.items():
            if not total:
                continue
            if worker not in here:
                questions[worker] = f"{in_words(total)} h, and did not sign in"
            elif total > here[worker] + ROUNDING:
                hours_here = in_words(round(here[worker], 1)) or "0"
                questions[worker] = f"{in_words(total)} h, but here for {hours_here} h"
        return questions

    def _time_there(self) -> dict[Worker, float]:
        plan, logbook, at = self.board.plan, self.board.logbook, self.board.at
        there = {
            Worker(who): hours for who, hours in time_there(plan, logbook, self.day, at).items()
        }
        closes = at if at.date() == self.day else closing_time(plan, logbook, self.day)
        for visit in guest_visits(logbook.days.get(self.day), at):
            guest = self._guests.get(same_name(visit.name), Worker(guest=visit.name))
            span = plan.clock.between(visit.since, visit.until or max(visit.since, closes))
            there[guest] = there.get(guest, 0.0) + max(0.0, span.total_seconds() / 3600)
        return there


def _new(cell: Cell, hours: float) -> HoursWorked | GuestHours:
    (who, guest), on = cell
    note = "other work" if on == OTHER else ""
    if guest:
        return GuestHours(guest, hours, on.task, note, on.component, on.piece, on.other)
    return HoursWorked(who, hours, on.task, note, on.component, on.piece, on.other)


def totals(
    cells: Iterable[tuple[Cell, float | None]],
) -> tuple[dict[Worker, float], dict[WorkedOn, float]]:
    """Hours by person and by what was worked on."""
    by_person: dict[Worker, float] = {}
    by_thing: dict[WorkedOn, float] = {}
    for (worker, on), hours in cells:
        by_person[worker] = by_person.get(worker, 0.0) + (hours or 0.0)
        by_thing[on] = by_thing.get(on, 0.0) + (hours or 0.0)
    return by_person, by_thing
