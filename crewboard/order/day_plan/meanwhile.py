"""What goes on by the running plan until the first block that is still to come."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime

from crewboard.logbook.acts import Act, CheckSigned, Finished
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import Placed
from crewboard.order.may.on_it import on_it
from crewboard.order.safety.checks import checks_of
from crewboard.order.safety.signing import signers


def until_then(board: Board, running: Sequence[Placed], first: datetime) -> tuple[Placed, ...]:
    """What people are on and ends by the plan before the block that begins at `first`."""
    return tuple(p for p in running if board.at < p.end <= first and on_it(board, p.task))


def as_of_then(board: Board, until: Sequence[Placed]) -> Board:
    """The board as it is once what is to be finished till then is: its hold has begun, and what
    comes after such work is signed."""
    finishes = [placed for placed in until if placed.finishes]
    if not finishes:
        return board
    at = max(placed.end for placed in finishes)
    then = _with(board, at, [(placed.end, Finished(placed.task)) for placed in finishes])
    signed = [(at, act) for placed in finishes for act in _signed(then, placed.task)]
    return _with(then, at, signed) if signed else then


def _signed(board: Board, task: str) -> Iterator[CheckSigned]:
    """The checks after the work, but for those that wait until a clock has run out."""
    for asked in checks_of(board, task, when="after"):
        waits = any(clock.ends == asked.check.id for clock in asked.hazard.clocks)
        able = signers(board, asked.hazard, asked.check, asked.who)
        if asked.open and able and asked.task and not waits:
            hazard, check = asked.hazard.id, asked.check.id
            yield CheckSigned(hazard, check, able[0], asked.task, concerns=asked.who)


def _with(board: Board, at: datetime, acts: Sequence[tuple[datetime, Act]]) -> Board:
    day = board.at.date()
    days = dict(board.logbook.days)
    before = days[day].entries
    entries = (
        Entry(f"till-then-{len(before) + number}", when, act)
        for number, (when, act) in enumerate(acts)
    )
    days[day] = Day(day, [*before, *entries])
    logbook = board.logbook._replace(days=days)
    return assess(board.plan, logbook, at, board.order, board.unreadable)
