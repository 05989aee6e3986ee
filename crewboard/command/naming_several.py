"""Which tasks are meant where one name stands for several: the pieces of a series.

"glaze/panes/1-3" and "glaze panes 1 to 3" are the tasks for these pieces, as they stand; "glaze"
alone are those of all pieces for which what is written makes sense.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crewboard.command import naming
from crewboard.command.exits import NoSuch, Refused
from crewboard.logbook.state import NOT_YET
from crewboard.order.board import Board, Standing
from crewboard.plan.piece import numbers_of, pieces_named
from crewboard.plan.plan import Plan
from crewboard.plan.series import Series
from crewboard.telling.series import none_is

# Of which states a task must be, the first in which any piece is; "finished": its work is done.
Wanted = Sequence[Sequence[str]]
TO_DO: tuple[str, ...] = ("under way", "ready", *NOT_YET)


def tasks(board: Board, typed: str, wanted: Wanted) -> tuple[str, ...]:
    """The tasks that a name stands for. Raises `Refused`, with the nearest names."""
    plan = board.plan
    series = named_series(plan, typed)
    if series is not None:
        return _all_wanted(board, series, wanted)
    return named_pieces(plan, typed) or (naming.task(plan, typed),)


def every_task(plan: Plan, typed: str) -> tuple[str, ...]:
    """As `tasks`, of a series all, whatever they stand at. Raises `Refused`."""
    series = named_series(plan, typed)
    if series is not None:
        return tuple(series.members.values())
    return named_pieces(plan, typed) or (naming.task(plan, typed),)


def task_or_series(plan: Plan, typed: str) -> str:
    """The id of the one task, or series, that a name stands for. Raises `Refused`."""
    series = named_series(plan, typed)
    return series.id if series is not None else naming.task(plan, typed)


def named_series(plan: Plan, typed: str) -> Series | None:
    """The series that a name stands for, by its id, the end of it, its title or words of that; a
    task that is called so goes first."""
    if not plan.series or naming.fits_well(typed, {t.id: t.title for t in plan.tasks.values()}):
        return None
    titles = {series.id: series.task.title for series in plan.series.values()}
    fitting = naming.fits_well(typed, titles)
    if not fitting:
        try:
            only = naming.task(plan, typed)
        except NoSuch:
            return None
        except Refused:  # several tasks have these words: those of one series, or of more
            fitting = [] if named_pieces(plan, typed) else _of_one_series(plan, typed)
            fitting = fitting if len(fitting) == 1 else []
        else:
            return plan.series.get(only)
    if len(fitting) > 1:
        raise naming.several(typed, fitting, titles)
    return plan.series.get(fitting[0]) if fitting else None


def _of_one_series(plan: Plan, typed: str) -> list[str]:
    """The series, where all tasks that have these words are of it."""
    titles = {task.id: task.title for task in plan.tasks.values()}
    return list({plan.tasks[task].series or task for task in naming.fitting(typed, titles)})


def named_pieces(plan: Plan, typed: str) -> tuple[str, ...]:
    """The tasks of some pieces of one series, by the series and the pieces: "glaze/panes/1-3",
    "glaze panes 1 to 3", "glaze 1, 3 and 5"; empty where it is no such name."""
    titles = {series.id: series.task.title for series in plan.series.values()}
    for name, pieces in _halves(typed):
        for series_id in naming.fitting(name, titles):
            members = _members(plan, plan.series[series_id], pieces)
            if members:
                return members
    return ()


def _halves(typed: str) -> Iterator[tuple[str, str]]:
    """The name cut in two at each blank and stroke, the longest first half first."""
    for place in range(len(typed) - 1, 0, -1):
        if typed[place] in " /":
            yield typed[:place].rstrip(" /:"), typed[place + 1 :].strip()


def _members(plan: Plan, series: Series, pieces: str) -> tuple[str, ...]:
    """The tasks of the series for these pieces; empty where any of them is none of it."""
    some = pieces.replace(" and ", ", ")
    file = series.id.partition("/")[0]
    ids = pieces_named(some, file, plan.pieces, plan.several)
    if not ids:
        kinds = {plan.pieces[piece].several for piece in series.members} - {""}
        try:
            ids = tuple(f"{kind}/{number}" for kind in kinds for number in numbers_of(some))
        except ValueError:
            return ()
    if not ids or any(piece not in series.members for piece in ids):
        return ()
    return tuple(dict.fromkeys(series.members[piece] for piece in ids))


def _all_wanted(board: Board, series: Series, wanted: Wanted) -> tuple[str, ...]:
    standings = [board[task] for task in series.members.values()]
    for states in wanted:
        some = tuple(s.task.id for s in standings if _is_in(s, states))
        if some:
            return some
    sentence = none_is(board, series.id, (state for states in wanted for state in states))
    raise Refused(sentence, f"name a piece: {next(iter(series.members.values()))}")


def _is_in(standing: Standing, states: Sequence[str]) -> bool:
    return (
        standing.work_done
        if "finished" in states
        else (standing.state in states and not standing.work_done)
    )
