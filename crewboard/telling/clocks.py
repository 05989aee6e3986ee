"""Clocks that protect, as rows: fire watch, airing, cooling; what they follow and until when."""

from crewboard.order.board import Board
from crewboard.order.may.apart import keeps_out
from crewboard.order.safety.clocks import ProtectiveClock, still_running
from crewboard.order.safety.went_on import place_of_work
from crewboard.order.said import quoted_title, when
from crewboard.telling.row import Row


def clock_rows(board: Board) -> list[Row]:
    """A row for each clock that runs or is still to start, the soonest end first."""
    return [_clock(board, clock) for clock in still_running(board)]


def _clock(board: Board, clock: ProtectiveClock) -> Row:
    kind = clock.clock.kind
    what = f"{kind} after {quoted_title(board.plan, clock.task)}"
    row_id = f"check:{clock.task}:{clock.clock.id}"
    below = (f"{until_in_words(board, clock)}; {_meanwhile(board, clock)}",)
    cells = (kind, what, until_in_words(board, clock))
    return Row(row_id, cells, "warning", below, handle=clock.task)


def until_in_words(board: Board, clock: ProtectiveClock) -> str:
    """ "until 16:30", "until Sun 3 May 00:40", "not started"."""
    return f"until {when(clock.until, board.at)}" if clock.until else "not started"


def _meanwhile(board: Board, clock: ProtectiveClock) -> str:
    """What waits for it."""
    if keeps_out(clock.hazard, clock.clock):
        return f"no other work in {place_of_work(board, clock.task) or 'its place'}"
    return "nobody leaves before" if clock.clock.guards == "closing" else "work waits for it"
