"""What stands against the moment: what goes on near, clocks, closing, checks, the air."""

from collections.abc import Callable, Iterator, Sequence
from datetime import timedelta
from functools import lru_cache

from crewboard.order.board import Board
from crewboard.order.may.apart import clashing, follows, keep_apart, keeps_out, same_place
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.may.on_it import people_at
from crewboard.order.presence import closed_at
from crewboard.order.safety.checks import checks_of, closed_by, going_on, is_going_on
from crewboard.order.safety.clocks import ProtectiveClock, must_end_by, still_running
from crewboard.order.safety.opening import unopened
from crewboard.order.safety.signatures import signatures
from crewboard.order.safety.unnamed import unanswered
from crewboard.order.safety.went_on import place_of_work, sheets_of_work
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
        elif asked.answer == "does not apply" and asked.signed_by in people:
            who = (asked.signed_by,)
            yield Obstacle("waived-by-doer", who, hazard=asked.hazard.id, check=asked.check.id)


def unnamed(board: Board, task: Task) -> Iterator[Obstacle]:
    """Words of the task that point to a hazard it does not name, and that no lead has answered."""
    for question in unanswered(board, (task,)):
        yield Obstacle("unnamed", word=question.word, hazards=question.hazards)


def temporary_before(board: Board, task: Task) -> Iterator[Obstacle]:
    """What is temporary, and has to be undone before the task."""
    for entry_id, temporary in board.history.temporary.items():
        if task.id in temporary.before or task.series in temporary.before:
            yield Obstacle("temporary", entry=entry_id)


def not_opened(board: Board) -> Iterator[Obstacle]:
    """Opening checks of the day that nobody has signed: dangerous work waits for them."""
    for asked in unopened(board):
        yield Obstacle("unopened", hazard=asked.hazard.id, check=asked.check.id)


@lru_cache(maxsize=4)
def dangers_going_on(board: Board) -> tuple[tuple[str, Hazard], ...]:
    """What is going on, once for a board: the ranking asks for every task."""
    return tuple(going_on(board))


@lru_cache(maxsize=4)
def clocks_running(board: Board) -> tuple[ProtectiveClock, ...]:
    """And the clocks that run."""
    return tuple(still_running(board))


def not_used(hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """What no crew uses, whoever says so: the sheet says what is done instead."""
    for hazard in hazards:
        if hazard.do_not_use:
            yield Obstacle("not-used", hazard=hazard.id)


def _not_used(_board: Board, _task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    yield from not_used(hazards)


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


def _room(board: Board, task: Task, _hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Its place takes no more jobs now."""
    if task.place in board.plan.vehicle.shop.room:
        from crewboard.order.may.room import full  # few shops say so

        yield from full(board, task)


def _temporary(board: Board, task: Task, _hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Props, straps, over-long ends that have to be undone before it."""
    yield from temporary_before(board, task)


# --- what is near --------------------------------------------------------------------------------


def _near(board: Board, task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Dangers going on elsewhere that may not be near; either sheet may say so."""
    for other_id, other in dangers_going_on(board) if hazards else ():
        if other_id != task.id:
            beside = same_place(task.place, place_of_work(board, other_id))
            for hazard in hazards:
                if keep_apart(hazard, other, beside):
                    yield Obstacle("near", task=other_id, hazard=hazard.id, other=other.id)


def _never_begun(board: Board, task: Task, _hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Work here that was finished without having begun, for which no lead has answered yet."""
    if board.history.never_begun:
        from crewboard.order.safety.answer_awaited import unanswered

        for line in unanswered(board, task):
            yield Obstacle("finished-without", task=getattr(line.act, "task", ""), entry=line.id)


def _together(_board: Board, _task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Dangers of one and the same work that must not be near one another."""
    for one, other in clashing(hazards):
        yield Obstacle("together", hazard=one.id, other=other.id)


# --- closed places -------------------------------------------------------------------------------


@lru_cache(maxsize=4)
def _closed_places(board: Board) -> tuple[tuple[str, Hazard], ...]:
    return tuple(closed_by(board))


def _place_closed(board: Board, task: Task, _hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Work that closes its place to all other work is going on there."""
    for other_id, closing in _closed_places(board):
        place = place_of_work(board, other_id)
        if other_id != task.id and same_place(task.place, place):
            # Of finished work that nobody signed to have ended, a lead says what became of it.
            course = board.history.courses[other_id]
            strict = bool(task.place and place) and course.finished is None
            yield Obstacle("place-closed", task=other_id, hazard=closing.id, strict=strict)


def _place_taken(board: Board, task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """This work would close its place, and others are at work there."""
    for closing in [hazard for hazard in hazards if hazard.closes_place][:1]:
        told = {task.id, *(obstacle.task for obstacle in _near(board, task, hazards))}
        for other_id in signatures(board).worked:
            beside = same_place(task.place, place_of_work(board, other_id))
            if other_id not in told and beside and _at_work(board, other_id):
                yield Obstacle("place-taken", task=other_id, hazard=closing.id)


def _at_work(board: Board, task_id: str) -> bool:
    """Whether people are at it, and none of them has signed that its dangers have ended."""
    sheets = sheets_of_work(board, task_id, board.at.date())
    going = not sheets or any(is_going_on(board, task_id, sheet) for sheet in sheets)
    return going and people_at(board, task_id)


# --- clocks --------------------------------------------------------------------------------------


def _too_early(board: Board, task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Clocks of earlier work that must have run out first. While its clock runs a danger counts as
    going on: for what may not follow it, what must not be near it, and for the place that it
    closes."""
    last: dict[tuple[str, str], Obstacle] = {}  # of several clocks of a danger, that ends last
    for running in clocks_running(board):
        place = place_of_work(board, running.task)
        beside = same_place(task.place, place)
        own = running.task == task.id
        waits = [h for h in hazards if not (own and h.id == running.hazard.id)]
        named = follows(waits, running.hazard, beside)
        if not named and (own or not beside or not keeps_out(running.hazard, running.clock)):
            continue
        told = dangers_going_on(board) if named else _closed_places(board)
        if running.until is None and (running.task, running.hazard) in told:
            continue  # that the work itself still goes on
        last[running.task, running.hazard.id] = Obstacle(
            "clock" if named or hazards else "entry",
            task=running.task,
            hazard=running.hazard.id,
            clock=running.clock.id,
            until=running.until,
            # Where nobody said where the harmless work is done, the people there know.
            strict=bool(task.place and place),
        )
    yield from last.values()


def _too_late(board: Board, _task: Task, hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    """Work that could not end early enough for its closing clocks; where nobody has said when the
    shop closes, that is asked first."""
    for hazard in hazards:
        guarding = (clock for clock in hazard.clocks if clock.guards == "closing")
        if board.opening is None and (clock := next(guarding, None)) is not None:
            yield Obstacle("no-closing", hazard=hazard.id, clock=clock.id)
        latest = must_end_by(board, hazard)
        if latest is not None and board.at >= latest[0]:
            yield Obstacle("too-late", hazard=hazard.id, clock=latest[1].id, until=latest[0])


def ends_late(
    board: Board, task: Task, hazards: Sequence[Hazard], people: int, with_it: Sequence[str] = ()
) -> Iterator[Obstacle]:
    """Work with a closing clock that so many people would not have done, by its likely hours to go,
    before it must end; `with_it` is what they do at the same time."""
    hours = sum(board[one].left or 0 for one in (task.id, *with_it))
    for hazard in hazards if hours else ():
        latest = must_end_by(board, hazard)
        if latest is None or board.at >= latest[0]:
            continue
        done = board.at + timedelta(hours=hours / max(1, people))
        if done > latest[0]:
            yield Obstacle(
                "ends-late", hazard=hazard.id, clock=latest[1].id, until=latest[0], there=people
            )


Rule = Callable[[Board, Task, Sequence[Hazard]], Iterator[Obstacle]]
RULES: list[Rule] = [
    _not_used, _closed, _never_begun, _together, _near, _place_closed, _place_taken, _too_early,
    _too_late, _air, _room, _temporary,
]  # fmt: skip
"""What is asked of the moment, in the order in which it is told."""
