"""What stands against saying that a piece failed, or that a spare takes its place."""

from crewboard.logbook.acts import PieceFailed, TookPlace
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.said import piece_name


def piece_refusals(board: Board, act: PieceFailed | TookPlace) -> list[Refusal]:
    """What stands against the act; its pieces are known."""
    return _fail(board, act) if isinstance(act, PieceFailed) else _take_place(board, act)


def _fail(board: Board, act: PieceFailed) -> list[Refusal]:
    name = piece_name(board.plan, act.piece)
    if not act.why.strip():
        return [Refusal("why", f"say how {name} failed", "add the reason")]
    if act.piece in board.history.failed and not act.again:
        return [
            Refusal("failed", f"{name} failed before", "say that it is made anew, or use a spare")
        ]
    return []


def _take_place(board: Board, act: TookPlace) -> list[Refusal]:
    plan, stands_for = board.plan, board.history.stands_for
    spare, instead = plan.pieces[act.piece], plan.pieces[act.instead]
    if not spare.spare:
        sentence = f"{spare.name} is no spare: the vehicle has it already"
        return [Refusal("no-spare", sentence, "name one of the spares")]
    if spare.several != instead.several:
        sentence = f"{spare.name} is a spare for others than {instead.name}"
        return [Refusal("no-spare", sentence, "name a spare of the same kind")]
    if act.piece in board.history.failed:
        return [Refusal("failed", f"{spare.name} failed itself", "name another spare")]
    if act.piece in stands_for:
        taken = piece_name(plan, stands_for[act.piece])
        return [Refusal("taken", f"{spare.name} has taken the place of {taken} already")]
    if act.instead in stands_for.values():
        return [Refusal("taken", f"a spare has taken the place of {instead.name} already")]
    return []
