"""What the plan has to say to an answer: whether it has the order of faces that coats want."""

from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.reckoning.asked import For
from crewboard.order.reckoning.known import next_of
from crewboard.order.review.faces import faces_of, in_order
from crewboard.order.said import listed
from crewboard.trade.kind import KindOfReckoning


class PlanSays(NamedTuple):
    """A sentence, and whether it asks for the plan to be looked at."""

    says: str
    asks: bool


def hazards_of_task(board: Board, of: For) -> tuple[str, ...]:
    """The sheets of hazards that the task of an answer names."""
    task = board.plan.written(of.task) if of.task else None
    return task.hazards if task is not None else ()


def plan_says(board: Board, kind: KindOfReckoning, of: For) -> list[PlanSays]:
    """Of coats for a task: each question of a review on the order of faces that it has a part in,
    else what is rightly in order."""
    if kind.name != "coats" or not of.task:
        return []
    asked = [PlanSays(f"{q.says}; {q.do}", True) for q in faces_of(board, of.task)]
    right = [f'"{title}"' for title in in_order(board, next_of(board, of.task))]
    if asked or not right:
        return asked
    return [PlanSays(f"hidden faces come first: in order with {listed(right)}", False)]
