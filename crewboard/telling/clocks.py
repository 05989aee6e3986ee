"""Clocks of the day as rows: those that protect (fire watch, airing, cooling), what they follow and
until when; and what has to come out of the steam box."""

from crewboard.order.board import Board
from crewboard.order.may.apart import keeps_out
from crewboard.order.safety.clocks import ProtectiveClock, still_running
from crewboard.order.safety.went_on import place_of_work
from crewboard.order.said import piece_first, quoted_title, when
from crewboard.order.steam import InTheBox, in_the_box
from crewboard.telling.line import Tone
from crewboard.telling.row import Row

STEAM_ROW = "steam:"  # begins the id of a row of what is in the box


def clock_rows(board: Board) -> list[Row]:
    """A row for each clock that runs or is still to start, the soonest end first."""
    return [_clock(board, clock) for clock in still_running(board)]


def steam_rows(board: Board) -> list[Row]:
    """A row for each thing in the steam or the boiling water, the first to come out first."""
    return [_steam(board, one) for one in in_the_box(board)]


def _steam(board: Board, one: InTheBox) -> Row:
    title, due = piece_first(board.plan, board[one.task].task), one.due(board.at)
    below = f"{one.word} since {when(one.since, board.at)}"
    tone: Tone = "danger" if due else "must"
    word = "overdue" if due else one.word
    until = f"{'since' if due else 'out at'} {when(one.until, board.at)}"
    row_id = f"{STEAM_ROW}{one.id}"
    return Row(row_id, (word, title, until), tone, (below,), handle=one.task)


def _clock(board: Board, clock: ProtectiveClock) -> Row:
    kind = clock.clock.kind
    what = f"{kind} after {quoted_title(board.plan, clock.task)}"
    row_id = f"check:{clock.task}:{clock.clock.id}"
    runs = until_in_words(board, clock) if clock.until else "it starts when the work has ended"
    below = (f"{runs}; {_meanwhile(board, clock)}",)
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
