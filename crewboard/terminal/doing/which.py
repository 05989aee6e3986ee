"""Which tasks an act is for: those marked, that of the row, the pieces picked of a series."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crewboard.logbook.state import NOT_YET, State
from crewboard.order.board import Board
from crewboard.order.said import how_many, quoted_title
from crewboard.telling.row import STATE_TONE
from crewboard.telling.series import member_name, none_is, pieces_of, series_title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.choose import choose_tasks
from crewboard.terminal.dialogs.pick import Choice, PickSeveral
from crewboard.terminal.meant import Meant

TO_DO: tuple[State, ...] = ("under way", "ready", *NOT_YET)


async def which(
    app: BoardApp,
    meant: Meant,
    ask: str,
    *first: Sequence[State],
) -> tuple[str, ...]:
    """The tasks that are meant; empty where nothing was picked.

    Nothing under the cursor: one of the list, or some pieces of a series in it. A folded series:
    some of its pieces, of those in the first of these groups of states in which any is. All that
    is marked is meant as it is.
    """
    tasks = meant.tasks
    if not tasks:
        every = dict.fromkeys(state for states in first for state in states)
        tasks = await choose_tasks(app, f"{ask} task?", every) or ()
    elif meant.marked:
        return tasks
    return await _some_of(app, tasks, ask, first) if len(tasks) > 1 else tasks


async def _some_of(
    app: BoardApp, tasks: Sequence[str], ask: str, first: Iterable[Sequence[State]]
) -> tuple[str, ...]:
    """Some pieces of a series, all of its tasks that could be meant being offered."""
    board = app.board
    series = board.plan.tasks[tasks[0]].series
    offered = next((some for states in first if (some := _in(board, tasks, states))), [])
    if not offered:
        app.tell(none_is(board, series, (state for some in first for state in some)), warning=True)
        return ()
    if len(offered) == 1:
        return tuple(offered)
    choices = [_choice(board, task) for task in offered]
    title = f"{ask} pieces? {series_title(board, series)}"
    return await app.push_screen_wait(PickSeveral(title, choices)) or ()


def _in(board: Board, tasks: Iterable[str], states: Sequence[State]) -> list[str]:
    """Those in these states; what is on hold although its own work is done counts as finished."""
    done = "finished" in states
    return [
        task
        for task in tasks
        if (board[task].state in states and not board[task].work_done)
        or (done and board[task].work_done)
    ]


def _choice(board: Board, task_id: str) -> Choice:
    standing = board[task_id]
    return Choice(
        task_id, member_name(board, task_id), standing.state, STATE_TONE[standing.state], task_id
    )


def named(board: Board, tasks: Sequence[str]) -> str:
    """ ""Hang the door""; ""Glaze the sashes: Panes 2, 3 and 5""; "3 tasks"."""
    if len(tasks) == 1:
        return quoted_title(board.plan, tasks[0])
    series = {board.plan.tasks[task].series for task in tasks}
    if len(series) == 1 and (one := series.pop()):
        return f'"{series_title(board, one)}: {pieces_of(board, tasks)}"'
    return how_many(len(tasks), "task")
