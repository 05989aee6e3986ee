"""Work that must not be left half done: whether it fits before the shop closes, and whom it would
be left by."""

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta

from crewboard.order.ahead.effort import most_hands
from crewboard.order.board import Board
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.may.on_it import begun_today, people_at
from crewboard.order.may.party import parties
from crewboard.plan.task import Task


def not_in_one_go(
    board: Board, task: Task, people: int, with_it: Sequence[str] = ()
) -> Iterator[Obstacle]:
    """Its hours to go, and those of what they do `with_it`, do not fit before closing with so many
    people. Without an estimate, or where
    nobody knows when the shop closes, nothing is asked; nor of work that goes on."""
    opening, hours = board.opening, sum(board[one].left or 0 for one in (task.id, *with_it))
    if not task.in_one_go or opening is None or not hours or not people:
        return
    if people_at(board, task.id):
        return
    day, hands = board.at.date(), min(people, task.most_people or people)
    begins = max(board.at, datetime.combine(day, opening.opens))
    ends = board.plan.clock.elapse(begins, timedelta(hours=hours / hands))
    closes = datetime.combine(day, opening.closes)
    if ends > closes:
        yield Obstacle("in-one-go", until=closes, ends=ends, there=hands)


def hands_of(task: Task, people: int) -> int:
    """How many of so many people could be on the task."""
    return max(1, min(people, most_hands(task)))


def left_half_done(board: Board, people: Sequence[str], besides: str = "") -> Iterator[Obstacle]:
    """Work in one go, other than `besides`, that nobody is on any more once these people leave."""
    for task_id, party in parties(board).items():
        task = board.plan.tasks.get(task_id)
        if task is None or not task.in_one_go or task_id == besides:
            continue
        if party.crew and set(party.crew) <= set(people) and not board[task_id].work_done:
            yield Obstacle("half-done", party.crew, task=task_id)


def half_done(board: Board) -> list[str]:
    """The tasks in one go that were begun today and are not finished."""
    return [
        task_id
        for task_id in dict.fromkeys(act.task for act in begun_today(board))
        if task_id in board.plan.tasks
        and board.plan.tasks[task_id].in_one_go
        and board[task_id].state == "under way"
    ]
