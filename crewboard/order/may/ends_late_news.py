"""The word that is said at once where work under way no longer ends in time for its watch."""

from collections.abc import Iterator
from datetime import timedelta

from crewboard.order.board import Board
from crewboard.order.may.moment import dangers_going_on
from crewboard.order.may.party import parties
from crewboard.order.safety.clocks import must_end_by, must_end_in_words
from crewboard.order.said import quoted_title, when


def ends_late_in_words(board: Board) -> Iterator[str]:
    """A sentence for each work under way with a closing clock that by its hours to go ends too late
    for it: the shop closes earlier than was said, or the work takes longer."""
    for task_id, hazard in dangers_going_on(board):
        latest = must_end_by(board, hazard)
        if latest is None or task_id not in board.plan.tasks:
            continue
        party = parties(board).get(task_id)
        people = len(party.crew) if party is not None else 0
        hours = (board[task_id].left or 0) / max(1, people)
        end = board.at + timedelta(hours=hours)
        if end > latest[0]:
            yield (
                f"{quoted_title(board.plan, task_id)}: "
                f"{must_end_in_words(board, hazard, latest[1], latest[0])}, and by its hours to go "
                f"it ends at {when(end, board.at)}. End it in time, or keep the shop open longer"
            )
