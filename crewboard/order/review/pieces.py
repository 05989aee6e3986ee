"""Questions about pieces: what is to be kept for ever is worked on."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.order.board import Board
from crewboard.order.review.question import Question
from crewboard.order.said import pieces_in_words


def about_pieces(board: Board) -> Iterator[Question]:
    """Work that is still to be done to pieces that are kept for ever."""
    plan = board.plan
    kept = {piece.id for piece in plan.pieces.values() if piece.keep}
    if not kept:
        return
    ahead: dict[str, list[str]] = {}
    for standing in board.standings.values():
        if not standing.work_done and standing.state != "set aside":
            task = standing.task
            ahead.setdefault(task.series or task.id, []).extend(kept.intersection(task.pieces))
    for task_id, pieces in ahead.items():
        if pieces:
            title = plan.all_written()[task_id].title
            names = pieces_in_words(plan, [name for name in plan.pieces if name in pieces])
            says = f'"{title}" is done to what is kept for ever: {names}'
            do = "say in its method what must stay untouched, or leave these pieces out"
            key = "each" if task_id in plan.series else "pieces"
            yield Question("kept for ever", "task", task_id, says, do, key)
