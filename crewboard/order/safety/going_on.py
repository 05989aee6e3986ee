"""What is being done in the shop right now, as far as dangers go.

A task under way may rest for weeks. Its danger is going on from the moment that it is begun, or
taken up again, on this day, until the sheet's after-checks are signed, the work is finished, or
everyone on it has left.
"""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.order.board import Board
from crewboard.order.safety.signatures import signatures
from crewboard.plan.hazard import Hazard


def going_on(board: Board) -> Iterator[tuple[str, Hazard]]:
    """Each task being worked on today, with each of its dangers that has not ended yet."""
    from crewboard.order.safety.checks import hazards_of

    for task_id in signatures(board).worked:
        if task_id in board.plan.tasks:
            for hazard in hazards_of(board, task_id, board[task_id].crew):
                if is_going_on(board, task_id, hazard):
                    yield task_id, hazard


def is_going_on(board: Board, task_id: str, hazard: Hazard) -> bool:
    """Whether the task is worked on now and this danger of it has not ended."""
    standing, said = board[task_id], signatures(board)
    if standing.work_done or task_id not in said.worked:
        return False
    here = {visit.who for visit in board.present}
    if board.history.visits and standing.crew and not here & set(standing.crew):
        return False
    after = [check for check in hazard.checks if check.when == "after"]
    # Whoever signs the after-check that starts a clock has said that the work is over.
    starts = {clock.starts for clock in hazard.clocks if clock.starts}
    ending = [check for check in after if check.id in starts] or after
    return not any(said.of(hazard, check, task_id, "") for check in ending)
