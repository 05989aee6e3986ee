"""What is on hold, as rows of one line: what it is, how far it is, how long it still takes."""

from collections.abc import Iterator

from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import course_in_words, hold_title
from crewboard.order.left_alone import is_left_alone, left_alone, why_in_words
from crewboard.order.said import component_name, how_long_shortly, pieces_in_words
from crewboard.telling.holds import hold_state
from crewboard.telling.row import Row


def on_hold_rows(board: Board) -> Iterator[Row]:
    """What sets, dries or is awaited and is not due for a look yet, the soonest end first; then
    what is kept for ever on what is worked on."""
    for hold in board.stopping():
        if hold.stage == "running":
            yield _held(board, hold)
    for entry in left_alone(board):
        if entry.hold is None:
            cells = ("leave alone", entry.name, "kept")
            below = (why_in_words(board, entry),)
            yield Row(f"kept:{entry.pieces[0]}", cells, "danger", below, body_tone="plain")


def _held(board: Board, hold: StandingHold) -> Row:
    word, tone = hold_state(hold)
    title = held_title(board, hold)
    below = [course_in_words(board.plan, hold, board.at)]
    if hold.leave_alone:
        name = component_name(board.plan, hold.component) or title
        below = [f"{title}: {below[0]}"] if name != title else below
        title = name
    return Row(
        f"{'alone' if is_left_alone(hold) and hold.leave_alone else 'hold'}:{hold.id}",
        (word, title, time_left(board, hold)),
        tone,
        tuple(below),
        handle=hold.id,
        share=hold.share(board.at),
    )


def held_title(board: Board, hold: StandingHold) -> str:
    """What a hold is on; of a series the piece first, by which it differs from the others."""
    task = board.plan.tasks.get(hold.task)
    if task is None or not task.series or not hold.pieces:
        return hold_title(board.plan, hold)
    return (
        f"{pieces_in_words(board.plan, hold.pieces)}: {board.plan.series[task.series].task.title}"
    )


def time_left(board: Board, hold: StandingHold) -> str:
    """ "5 h", "3 d", "stopped", "no end" where only a person's word ends it, "?" where its end is
    not known."""
    if hold.outside is not None:
        return "stopped"
    if hold.unread:
        return "?"
    if hold.until is None:
        return "no end"
    return how_long_shortly(board.plan.clock.between(board.at, hold.until))
