"""Whether a place takes one more job, where the shop says how many it has room for."""

from collections.abc import Iterator, Sequence

from crewboard.order.board import Board
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.may.on_it import begun_today, on_it, people_at
from crewboard.order.safety.went_on import place_of_work
from crewboard.plan.task import Task


def full(board: Board, task: Task, leaving: Sequence[str] = ()) -> Iterator[Obstacle]:
    """Its place is taken by as many other jobs as it has room for. Of these people it is known that
    they leave what they are on."""
    room = board.plan.vehicle.shop.room.get(task.place)
    if room is None or people_at(board, task.id):
        return
    jobs = jobs_in(board, task.place, leaving)
    if len(jobs) >= room:
        yield Obstacle("room", task=jobs[0], tasks=tuple(jobs), needed=room, there=len(jobs))


def jobs_in(board: Board, place: str, leaving: Sequence[str] = ()) -> list[str]:
    """The tasks that people are at in a place, but for those whom all of them leave."""
    return [
        task_id
        for task_id in dict.fromkeys(act.task for act in begun_today(board))
        if place_of_work(board, task_id) == place
        and people_at(board, task_id)
        and not (leaving and _all_leave(board, task_id, leaving))
    ]


def _all_leave(board: Board, task_id: str, leaving: Sequence[str]) -> bool:
    on_now = on_it(board, task_id)
    return bool(on_now) and set(on_now) <= set(leaving)
