"""What is on hold, as rows of one line: what it is, how far it is, how long it still takes."""

from collections.abc import Iterator, Sequence

from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import hold_title
from crewboard.order.left_alone import alike, is_left_alone, left_alone, why_in_words
from crewboard.order.said import component_name, how_long_shortly, piece_first
from crewboard.plan.hold import KINDS
from crewboard.telling.holds import courses, hold_state
from crewboard.telling.row import Row


def on_hold_rows(board: Board) -> Iterator[Row]:
    """What sets, dries or is awaited and is not due for a look yet, the soonest end first; then
    what is kept for ever on what is worked on."""
    for holds in running_together(board):
        yield _held(board, holds)
    for entry in left_alone(board):
        if entry.hold is None:
            cells = ("leave alone", entry.name, "kept")
            below = (why_in_words(board, entry),)
            yield Row(f"kept:{entry.pieces[0]}", cells, "danger", below, body_tone="plain")


def _held(board: Board, holds: Sequence[StandingHold]) -> Row:
    """A hold; or those of one series that end on one day, by the one that ends last, with the
    course of each below."""
    first, last = holds[0], holds[-1]
    word, tone = hold_state(first)
    title = together_title(board, holds)
    below = courses(board, holds)
    if first.leave_alone:
        name = component_name(board.plan, first.component) or title
        below = [f"{title}: {below[0]}"] if name != title else below
        title = name
    return Row(
        f"{'alone' if is_left_alone(first) and first.leave_alone else 'hold'}:{first.id}",
        (word, title, time_left(board, last)),
        tone,
        tuple(below),
        handle=", ".join(hold.id for hold in holds),
        share=last.share(board.at),
    )


def running_together(board: Board) -> list[tuple[StandingHold, ...]]:
    """What is on hold and not due for a look yet, the soonest end first; the holds of one series
    that end on one day as one."""
    together: dict[object, list[StandingHold]] = {}
    for hold in board.stopping():
        if hold.stage == "running":
            together.setdefault(alike(board.plan, hold), []).append(hold)
    return [tuple(holds) for holds in together.values()]


def due_together(board: Board) -> list[tuple[StandingHold, ...]]:
    """What is due for a look, the first due first; the holds of one series, on its several pieces,
    as one."""
    together: dict[str, list[StandingHold]] = {}
    for hold in board.stopping():
        if hold.stage == "due":
            task = board.plan.tasks.get(hold.task)
            series = (
                task.series if task is not None and hold.pieces and not hold.leave_alone else ""
            )
            together.setdefault(series or f"hold:{hold.id}", []).append(hold)
    return [tuple(holds) for holds in together.values()]


def together_title(board: Board, holds: Sequence[StandingHold]) -> str:
    """ "Arches 3 and 4: Steam and bend": what they are on."""
    first, *others = holds
    if not others:
        return held_title(board, first)
    pieces = [piece for hold in holds for piece in hold.pieces]
    return piece_first(board.plan, board.plan.tasks[first.task], pieces)


def held_title(board: Board, hold: StandingHold) -> str:
    """What a hold is on; of a series the piece first, by which it differs from the others."""
    task = board.plan.tasks.get(hold.task)
    if task is None or not hold.pieces:
        return hold_title(board.plan, hold)
    return piece_first(board.plan, task, hold.pieces)


_SHORTER = {"inspection": "inspect"}  # eight letters at most, as many as a row has room for


def time_left(board: Board, hold: StandingHold) -> str:
    """ "5 h", "3 d", "too cold" where its clock stands still, "?" where its end is not known. Where
    only a person's word ends it, what is awaited, "approval" or "decision", else "no end"."""
    if hold.outside is not None:
        return hold.outside.what
    if hold.unread:
        return "?"
    if hold.until is None:
        awaited = _SHORTER.get(hold.kind, hold.kind)
        return awaited if KINDS[hold.kind].awaited else "no end"
    return how_long_shortly(board.plan.clock.between(board.at, hold.until))
