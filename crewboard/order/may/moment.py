"""What stands against the moment: what goes on near, clocks, closing, checks, the air."""

from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache

from crewboard.order.board import Board
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.presence import closed_at
from crewboard.order.safety.checks import checks_of, going_on
from crewboard.order.safety.clocks import ProtectiveClock, must_end_by, still_running
from crewboard.plan.hazard import Hazard
from crewboard.plan.task import Task


def against_moment(board: Board, task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """What stands against doing work with these hazards at the board's moment, whoever does it."""
    for rule in RULES:
        yield from dict.fromkeys(rule(board, task, hazards))


def unsigned(board: Board, task_id: str, people: Sequence[str]) -> Iterator[Obstacle]:
    """The checks before the work that nobody has signed, for these people."""
    for asked in checks_of(board, task_id, people, "before"):
        if asked.open:
            who = (asked.who,) if asked.who else ()
            yield Obstacle("unsigned", who, hazard=asked.hazard.id, check=asked.check.id)


@lru_cache(maxsize=4)
def _dangers(board: Board) -> tuple[tuple[str, Hazard], ...]:
    """What is going on, once for a board: the ranking asks for every task."""
    return tuple(going_on(board))


@lru_cache(maxsize=4)
def _clocks(board: Board) -> tuple[ProtectiveClock, ...]:
    """And the clocks that run."""
    return tuple(still_running(board))


def _closed(board: Board, _task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """A closed day is closed for work said afterwards to have begun before, too."""
    closed = closed_at(board) if hazards else None
    if closed is not None:
        yield Obstacle("day-closed", until=closed)


def _air(board: Board, task: Task, _hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Work that asks for conditions, which the last reading was outside of."""
    air = board.rules.air.outside(task.conditions, board.at)
    if air is not None:
        yield Obstacle("air", air=air)


# --- what is near --------------------------------------------------------------------------------


def _near(board: Board, task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Dangers going on elsewhere that may not be near; either sheet may say so."""
    for other_id, other in _dangers(board) if hazards else ():
        if other_id != task.id:
            beside = same_place(task, board.plan.tasks[other_id])
            for hazard in hazards:
                if keep_apart(hazard, other, beside):
                    yield Obstacle("near", task=other_id, hazard=hazard.id, other=other.id)


def keep_apart(one: Hazard, other: Hazard, beside: bool) -> bool:
    """Whether two dangers may not be near one another; `beside`: they are in the same place.

    The whole shop is near, unless every sheet that says so means the same place only.
    """
    saying = [mine for mine, theirs in ((one, other), (other, one)) if theirs.id in mine.not_near]
    return any(sheet.near == "shop" or beside for sheet in saying)


def same_place(one: Task, other: Task) -> bool:
    """Work without a named place could be anywhere, so it counts as the same place."""
    return not one.place or not other.place or one.place == other.place


# --- clocks --------------------------------------------------------------------------------------


def _too_early(board: Board, task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Clocks of earlier work that must have run out first: because a sheet of this work says so,
    or because the clock keeps everybody out of the place."""
    for running in _clocks(board):
        other = board.plan.tasks[running.task]
        if other.id == task.id:
            continue
        named = follows(hazards, running.hazard)
        enters = running.clock.guards == "entry" and same_place(task, other)
        if named or enters:
            yield Obstacle(
                "clock" if named or hazards else "entry",
                task=other.id,
                hazard=running.hazard.id,
                clock=running.clock.id,
                until=running.until,
                # Where nobody said where the harmless work is done, the people there know.
                strict=bool(task.place and other.place),
            )


def follows(hazards: Sequence[Hazard], earlier: Hazard) -> bool:
    """Whether work with these hazards must wait until the clocks of the earlier one ran out."""
    return any(earlier.id in hazard.not_after for hazard in hazards)


def _too_late(board: Board, _task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Work that could not end early enough for its closing clocks."""
    for hazard in hazards:
        latest = must_end_by(board, hazard)
        if latest is not None and board.at >= latest[0]:
            yield Obstacle("too-late", hazard=hazard.id, clock=latest[1].id, until=latest[0])


Rule = Callable[[Board, Task, Sequence[Hazard]], Iterator[Obstacle]]
RULES: list[Rule] = [_closed, _near, _too_early, _too_late, _air]
"""What is asked of the moment, in the order in which it is told."""
