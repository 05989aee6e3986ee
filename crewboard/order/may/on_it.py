"""Who is at which work now, by what was begun today."""

from crewboard.logbook.acts import Begun
from crewboard.order.board import Board
from crewboard.order.may.party import Party, parties


def on_it(board: Board, task_id: str) -> tuple[str, ...]:
    """Who began the task today, watchers too, is still here, and began nothing else since."""
    return parties(board).get(task_id, Party()).everybody


def people_at(board: Board, task_id: str) -> bool:
    """Whether people are at this work now: begun or taken up again today, not finished, and one of
    them here and on nothing else since. Work of nobody named goes on until it is finished."""
    course = board.history.courses.get(task_id)
    if course is None or course.begun is None or course.finished is not None:
        return False
    if not any(act.task == task_id for act in begun_today(board)):
        return False
    return not course.crew or bool(on_it(board, task_id))


def begun_today(board: Board) -> list[Begun]:
    """What was begun today up to now, in order."""
    today = board.logbook.days.get(board.at.date())
    entries = today.events if today else ()
    return [e.act for e in entries if isinstance(e.act, Begun) and e.at <= board.at]
