"""Work that only waits for a hold which falls due in the day: look at ten, then go on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold


class AfterHold(NamedTuple):
    """A task that can go on in the day: from when, and the holds that somebody looks at first."""

    task: str
    since: datetime
    looks: tuple[str, ...]


def after_holds(board: Board, closes: datetime) -> Iterator[AfterHold]:
    """The tasks that nothing but such holds keeps, in the order of the files."""
    for standing in board.standings.values():
        if not standing.holds or standing.work_done or standing.aside or standing.unreadable:
            continue
        if standing.state == "under way":
            continue
        task = standing.task
        stops = board.readiness.stops(task, standing.short_of)
        if stops.waits or stops.short_of or stops.early or stops.jigs:
            continue
        holds = (*stops.own, *stops.around, *stops.before, *stops.on_piece)
        ends = [_falls_due(board, hold) for hold in holds]
        known = [end for end in ends if end is not None and end < closes]
        if len(known) == len(holds):
            yield AfterHold(task.id, max(known), _asking(holds))


def looks_before(board: Board, task_id: str) -> tuple[str, ...]:
    """The ids of the holds that somebody still has to look at before the task can go on."""
    standing = board[task_id]
    stops = board.readiness.stops(standing.task, standing.short_of)
    return _asking((*stops.own, *stops.around, *stops.before, *stops.on_piece))


def _asking(holds: Sequence[StandingHold]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(hold.id for hold in holds if hold.asks))


def _falls_due(board: Board, hold: StandingHold) -> datetime | None:
    """When it can be looked at; None where nobody knows."""
    if hold.stage == "due":
        return board.at
    if hold.outside is not None or hold.unread:
        return None
    return hold.until
