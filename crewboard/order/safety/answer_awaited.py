"""Work finished without having begun, until a lead has answered for it."""

from datetime import datetime
from functools import lru_cache

from crewboard.logbook.acts import Begun, Finished
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.plan.task import Task

_Where = tuple[str, str]  # a component or a place, and its name


def unanswered(board: Board, task: Task) -> list[Entry]:
    """The lines that finished work never begun in the task's place, or on its component, and for
    which no lead has answered since by beginning something there with a reason."""
    waiting = _waiting(board)
    here = {n: line for at in _around(task) for n, line in waiting.get(at, {}).items()}
    return [here[number] for number in sorted(here)]


@lru_cache(maxsize=4)
def _waiting(board: Board) -> dict[_Where, dict[int, Entry]]:
    """The lines that nobody has answered, numbered in order, by where they have to do with."""
    answers = _last_answers(board)
    waiting: dict[_Where, dict[int, Entry]] = {}
    for number, line in enumerate(board.history.never_begun):
        places = _concerned(board, line)
        if not any(at in answers and line.at <= answers[at] for at in places):
            for at in places:
                waiting.setdefault(at, {})[number] = line
    return waiting


def _last_answers(board: Board) -> dict[_Where, datetime]:
    """When a lead last gave a reason for beginning something there."""
    last: dict[_Where, datetime] = {}
    for day in board.logbook.days.values():
        for entry in day.events:
            if entry.at <= board.at and _is_an_answer(board, entry):
                task = board.plan.tasks.get(getattr(entry.act, "task", ""))
                for at in _around(task) if task is not None else ():
                    last[at] = max(entry.at, last.get(at, entry.at))
    return last


def _is_an_answer(board: Board, entry: Entry) -> bool:
    act, lead = entry.act, board.plan.crew.get(entry.by)
    if not isinstance(act, Begun) or lead is None or not (act.despite or entry.despite):
        return False
    return lead.leads_on(entry.at.date())


def _concerned(board: Board, line: Entry) -> list[_Where]:
    act = line.act
    assert isinstance(act, Finished)
    done = board.plan.tasks.get(act.task)
    if done is not None:
        return _around(done)
    return _named(act.task.partition("/")[0], act.place)


def _around(task: Task) -> list[_Where]:
    return _named(task.component, task.place)


def _named(component: str, place: str) -> list[_Where]:
    return [("component", component), *([("place", place)] if place else [])]
