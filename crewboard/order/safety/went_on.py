"""Under which dangers work went on: what the logbook says of it, whatever the plan says by now.

Whoever begins dangerous work has its dangers, its clocks and its place written down with it. So a
hazard taken out of the plan, a task taken out, or a sheet that was changed, ends nothing that runs.
Of lines without that, the checks signed for the work tell its dangers.
"""

import re
from datetime import date
from typing import NamedTuple, cast, get_args

from crewboard.logbook.acts import Act, Begun, Finished
from crewboard.order.board import Board
from crewboard.order.may.needs import hazards_for
from crewboard.order.safety.signatures import Signatures, signatures
from crewboard.plan.duration import NotADuration, parse_duration
from crewboard.plan.hazard import Clock, Guards, Hazard, Number, minutes_of

_SPELLED = re.compile(r"([^/\s]+)/([^/\s:]+): ([^,]+), before ([a-z]+)(?:, from (\S+))?")


class ClockBegun(NamedTuple):
    """A protective clock as it stood when work was begun; `lasts` as it is written: "60 min"."""

    hazard: str
    clock: str
    lasts: str
    guards: Guards
    starts: str

    @property
    def number(self) -> Number:
        """How long it lasts, as a number of its sheet."""
        value, _, unit = self.lasts.partition(" ")
        says = "as it was when the work was begun"
        name = f"{self.clock}-as-begun"
        return Number(name, float(value), unit, says, "the logbook", "", "", None, "crew's rule")


def spelled_clock(hazard: Hazard, clock: Clock) -> str:
    """The clock as it is written down with the begin of work: "hot-work/fire-watch: 60 min, before
    closing, from ended". Empty where no rule says how long it lasts."""
    rule = hazard.ruling(clock)
    if rule is None or rule.span is None:
        return ""
    start = f", from {clock.starts}" if clock.starts else ""
    return f"{hazard.id}/{clock.id}: {rule.amount}, before {clock.guards}{start}"


def clock_read(spelled: str) -> ClockBegun | None:
    """What `spelled_clock` wrote; None for any other words."""
    match = _SPELLED.fullmatch(spelled)
    if match is None or match[4] not in get_args(Guards):
        return None
    read = ClockBegun(match[1], match[2], match[3], cast("Guards", match[4]), match[5] or "")
    try:
        parse_duration(read.lasts)
        return read if read.number.value else None
    except (NotADuration, ValueError):
        return None


def with_its_dangers(board: Board, act: Act, corrects: Act | None = None) -> Act:
    """The act, with the dangers of the work written into it where it begins work, or finishes work
    that nobody wrote to have begun. `corrects` is what stood there before, of which nothing is lost
    unless it was about another task."""
    if not isinstance(act, Begun | Finished) or act.task not in board.plan.tasks:
        return act
    if isinstance(act, Finished) and board[act.task].begun is not None:
        return act
    if corrects is not None and getattr(corrects, "task", "") != act.task:
        act = act._replace(dangers=(), clocks=(), place="")
    task = board.plan.tasks[act.task]
    people = (*board[act.task].crew, *(act.people if isinstance(act, Begun) else act.crew))
    sheets = hazards_for(board.plan, task, people, board.at.date())
    clocks = [spelled_clock(sheet, clock) for sheet in sheets for clock in sheet.clocks]
    dangers = tuple(dict.fromkeys((*act.dangers, *(sheet.id for sheet in sheets))))
    return act._replace(
        dangers=dangers,
        clocks=tuple(dict.fromkeys((*act.clocks, *filter(None, clocks)))),
        place=(task.place or act.place) if dangers else "",
    )


def sheets_of_work(board: Board, task_id: str, day: date) -> list[Hazard]:
    """The sheets under which a task was worked on that day: those that it names, and those under
    which it was begun, with their clocks as long as they were then. The task may be gone."""
    signed, plan = signatures(board), board.plan
    ids = dict.fromkeys(signed.signed_under(day, task_id))
    if task_id in plan.tasks:
        course = board.history.courses.get(task_id)
        people = tuple(course.crew) if course else ()
        named = hazards_for(plan, plan.tasks[task_id], people, day)
        ids = dict.fromkeys(sheet.id for sheet in named) | ids
    for act in signed.begun_under(day, task_id):
        ids |= dict.fromkeys(act.dangers)
    sheets = (sheet_of_work(board, name, task_id, day) for name in ids)
    return [sheet for sheet in sheets if sheet.concerns != "day"]


def sheet_of_work(board: Board, hazard_id: str, task_id: str, day: date | None = None) -> Hazard:
    """The sheet with its clocks as long as they were when the task was begun, that day or last; of
    a sheet that is gone, what was written down of it."""
    acts = signatures(board).begun_under(day or board.at.date(), task_id)
    clocks = [clock for act in acts for clock in map(clock_read, act.clocks) if clock is not None]
    return _as_begun(board.plan.hazards.get(hazard_id), hazard_id, clocks)


def _as_begun(sheet: Hazard | None, name: str, clocks: list[ClockBegun]) -> Hazard:
    sheet = sheet or Hazard(name, name.replace("-", " ").capitalize(), ())
    for clock in clocks:
        if clock.hazard == name:
            sheet = _with_clock(sheet, clock)
    return sheet


def _with_clock(sheet: Hazard, begun: ClockBegun) -> Hazard:
    """The sheet with its clock no shorter than it was when the work was begun."""
    now = next((clock for clock in sheet.clocks if clock.id == begun.clock), None)
    rule = sheet.ruling(now) if now is not None else None
    if now is not None and rule is not None and minutes_of(rule) >= minutes_of(begun.number):
        return sheet
    kind = now.kind if now is not None else begun.clock.replace("-", " ")
    then = Clock(begun.clock, kind, (begun.number.id,), begun.guards, applies=begun.number.id)
    then = then._replace(starts=begun.starts, ends=now.ends if now is not None else "")
    others = tuple(clock for clock in sheet.clocks if clock.id != begun.clock)
    numbers = tuple(number for number in sheet.numbers if number.id != begun.number.id)
    return sheet._replace(clocks=(*others, then), numbers=(*numbers, begun.number))


def place_of_work(board: Board, task_id: str) -> str:
    """Where the task is worked on: as the plan says, else as it was when it was begun."""
    if task_id in board.plan.tasks:
        return board.plan.tasks[task_id].place
    return signatures(board).place_begun(task_id)


def longest_begun(signed: Signatures) -> int:
    """Minutes that the longest clock of any work begun lasts, as it was then."""
    clocks = map(clock_read, signed.clocks_begun)
    return max((minutes_of(clock.number) for clock in clocks if clock is not None), default=0)
