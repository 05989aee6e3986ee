"""Work finished without having begun, until a lead has answered for it."""

from functools import lru_cache

from crewboard.logbook.acts import Begun, Finished
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.plan.task import Task


def unanswered(board: Board, task: Task) -> list[Entry]:
    """The lines that finished work never begun in the task's place, or on its component, and for
    which no lead has answered since by beginning something there with a reason."""
    return [line for line in _waiting(board) if _concerns(board, line, task)]


@lru_cache(maxsize=4)
def _waiting(board: Board) -> tuple[Entry, ...]:
    return tuple(line for line in board.history.never_begun if not _answered(board, line))


def _answered(board: Board, line: Entry) -> bool:
    return any(
        _answers(board, entry, line)
        for day in board.logbook.days.values()
        for entry in day.events
        if line.at <= entry.at <= board.at
    )


def _answers(board: Board, entry: Entry, line: Entry) -> bool:
    """Whether a lead gave a reason here for beginning something where the line has to do with."""
    act, lead = entry.act, board.plan.crew.get(entry.by)
    if not isinstance(act, Begun) or lead is None or not (act.despite or entry.despite):
        return False
    task = board.plan.tasks.get(act.task)
    return lead.leads_on(entry.at.date()) and task is not None and _concerns(board, line, task)


def _concerns(board: Board, line: Entry, task: Task) -> bool:
    act = line.act
    assert isinstance(act, Finished)
    done = board.plan.tasks.get(act.task)
    place = done.place if done is not None else act.place
    component = done.component if done is not None else act.task.partition("/")[0]
    return task.component == component or (bool(place) and task.place == place)
