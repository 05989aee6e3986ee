"""What is refused of temporary things."""

from crewboard.logbook.acts import Temporary, Undone
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board


def temporary_refusals(board: Board, act: Temporary | Undone) -> list[Refusal]:
    """What stands against saying that something is temporary, or undone."""
    if isinstance(act, Temporary):
        if act.what.strip():
            return []
        return [Refusal("empty", "it is not said what is temporary", "write what must not stay")]
    if act.entry in board.history.temporary:
        return []
    sentence = "there is nothing temporary of that entry, or it is undone already"
    return [Refusal("not-temporary", sentence, "crewboard log --kind temporary lists them")]
