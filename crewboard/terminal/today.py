"""The moments of a work day: what ends, comes round or must have ended, and when."""

from __future__ import annotations

from datetime import datetime
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.hold_words import hold_title
from crewboard.order.safety.checks import coming_round
from crewboard.order.safety.clocks import must_end_by, still_running


class Moment(NamedTuple):
    """Something at a time of today. `row` is the id of the row that tells more."""

    at: datetime
    says: str
    tone: str
    row: str = ""


def moments(board: Board) -> list[Moment]:
    """What happens on the day of the board, in order of time."""
    found = [*_holds(board), *_checks(board), *_clocks(board), *_must_end(board)]
    today = board.at.date()
    return sorted({m.says + str(m.at): m for m in found if m.at.date() == today}.values())


def _holds(board: Board) -> list[Moment]:
    return [
        Moment(
            hold.until,
            f"{'look at' if hold.asks else 'over:'} {hold_title(board.plan, hold)}",
            "must" if hold.asks else "caution",
            f"hold:{hold.id}",
        )
        for hold in board.stopping()
        if hold.until is not None and hold.until >= board.at
    ]


def _checks(board: Board) -> list[Moment]:
    return [
        Moment(each.due, f"check {each.check.id}", "must", each.task)
        for each in coming_round(board)
        if each.due is not None
    ]


def _clocks(board: Board) -> list[Moment]:
    return [
        Moment(each.until, f"{each.clock.kind} over", "warning", each.task)
        for each in still_running(board)
        if each.until is not None
    ]


def _must_end(board: Board) -> list[Moment]:
    """Work that is under way or could be begun, and has to end in time for its clock."""
    found = []
    for standing in board.in_state("under way", "ready"):
        for hazard_id in standing.task.hazards:
            hazard = board.plan.hazards.get(hazard_id)
            latest = must_end_by(board, hazard) if hazard is not None else None
            if hazard is not None and latest is not None:
                says = f"{hazard.short} must end"
                found.append(Moment(latest[0], says, "warning", ""))
    return found
