"""Who is at which work now, by what was begun today."""

from functools import lru_cache

from crewboard.logbook.acts import Begun
from crewboard.order.board import Board
from crewboard.order.may.party import Party, parties
from crewboard.order.safety.checks import going_on
from crewboard.order.safety.signatures import signatures


def on_it(board: Board, task_id: str) -> tuple[str, ...]:
    """Who began the task today, watchers too, is still here, and began nothing else since."""
    return parties(board).get(task_id, Party()).everybody


def people_at(board: Board, task_id: str) -> bool:
    """Whether people are at this work now: begun or taken up again today, neither finished nor
    stopped since, and one of them here and on nothing else since. Work of nobody named goes on
    until it is finished or stopped."""
    course = board.history.courses.get(task_id)
    if course is None or course.begun is None or course.finished is not None:
        return False
    if not any(act.task == task_id for act in begun_today(board)):
        return False
    return not course.crew or bool(on_it(board, task_id))


@lru_cache(maxsize=4)
def under_way_now(board: Board) -> tuple[str, ...]:
    """The tasks under way at which people are, or of which a danger goes on; in the order in which
    they were first worked on today. Whatever else was begun, nobody is on: it can be taken up.
    On a day on which nobody signed in, what was begun today goes on."""
    on_now = {task for task, _ in going_on(board)}
    if not board.history.visits:
        on_now.update(act.task for act in begun_today(board))
    return tuple(
        task
        for task in signatures(board).worked
        if task in board.standings
        and board[task].begun is not None
        and not board[task].work_done
        and (task in on_now or people_at(board, task))
    )


def state_word(board: Board, task_id: str) -> str:
    """The word of the task's state; "begun" for what is under way and nobody is on now."""
    state = board[task_id].state
    return "begun" if state == "under way" and task_id not in under_way_now(board) else state


def begun_today(board: Board) -> list[Begun]:
    """What was begun today up to now and not stopped since, in order."""
    today = board.logbook.days.get(board.at.date())
    entries = today.events if today else ()
    begun = [e.act for e in entries if isinstance(e.act, Begun) and e.at <= board.at]
    return [act for act in begun if board.history.courses[act.task].stopped is None]
