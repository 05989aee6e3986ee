"""Lists of tasks and of people to choose from; which task is meant, and who writes."""

from __future__ import annotations

import os
from collections.abc import Iterable

from crewboard.logbook.state import STATES, State
from crewboard.on_this_computer import remember, remembered
from crewboard.order.board import Board
from crewboard.order.may.on_it import state_word
from crewboard.order.said import component_name, person
from crewboard.telling.row import STATE_TONE
from crewboard.telling.series import fold, titled
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice, PickOne

_NOBODY = "(nobody)"
_WRITER = "writer"


def task_choices(board: Board, states: Iterable[State] = STATES) -> list[Choice]:
    """The tasks in these states, in the order of the states."""
    return [
        Choice(
            s.task.id,
            s.task.title,
            f"{state_word(board, s.task.id)}, {component_name(board.plan, s.task.component)}",
            STATE_TONE[state],
            s.task.id,
        )
        for state in states
        for s in board.in_state(state)
    ]


def folded_choices(
    board: Board, states: Iterable[State]
) -> tuple[list[Choice], dict[str, tuple[str, ...]]]:
    """The same with the pieces of a series in one state as one choice; the tasks of each choice."""
    choices: list[Choice] = []
    meant: dict[str, tuple[str, ...]] = {}
    for state in states:
        in_it = [standing.task.id for standing in board.in_state(state)]
        for item in fold(board, in_it, section=state):
            some_id, tasks = (item, (item,)) if isinstance(item, str) else (item.id, item.tasks)
            meant[some_id] = tasks
            where = component_name(board.plan, board.plan.tasks[tasks[0]].component)
            note = f"{state_word(board, tasks[0])}, {where}"
            tone = STATE_TONE[state]
            choices.append(Choice(some_id, titled(board, item), note, tone, " ".join(tasks)))
    return choices, meant


async def choose_tasks(
    app: BoardApp, title: str, states: Iterable[State] = STATES
) -> tuple[str, ...] | None:
    """Ask for a task, or for a series by its pieces in one of the states; None when left."""
    choices, meant = folded_choices(app.board, states)
    picked = await app.push_screen_wait(PickOne(title, choices, empty="no such task now"))
    return None if picked is None else meant[picked]


def crew_choices(board: Board, *, only: Iterable[str] | None = None) -> list[Choice]:
    """Everybody with the crew that day: who is here first, with when they came."""
    here = {visit.who: visit for visit in board.present}
    day = board.at.date()
    known = board.plan.crew
    wanted = [p for p in known if known[p].with_us_on(day)] if only is None else list(only)
    order = sorted(wanted, key=lambda p: (p not in here, list(known).index(p)))
    return [
        Choice(
            p,
            known[p].name,
            f"here since {here[p].since:%H:%M}" if p in here else "",
            "strong" if p in here else "plain",
            p,
        )
        for p in order
        if p in known
    ]


def last_writer(app: BoardApp) -> str:
    """Who wrote last in this folder on this computer today; empty where nobody did."""
    sitting, _, who = remembered(_WRITER).rpartition(" ")
    return who if sitting == _sitting(app) and who in app.board.plan.crew else ""


def _sitting(app: BoardApp) -> str:
    return f"{app.now().date()} {os.path.abspath(app.workbench.folder.root)}"


async def your_name(app: BoardApp) -> None:
    """Ask who writes; the name goes beside every entry until another is said."""
    choices = [*crew_choices(app.board), Choice(_NOBODY, "no name")]
    picked = await app.push_screen_wait(PickOne("Your name", choices, at=app.by))
    if picked is None:
        return
    app.by = "" if picked == _NOBODY else picked
    remember(_WRITER, f"{_sitting(app)} {app.by}")
    app.tell(f"your name: {person(app.board.plan, app.by)}" if app.by else "no name is written")
