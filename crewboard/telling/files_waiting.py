"""Files that were taken in and wait to be sorted: how many there are, and which."""

from collections.abc import Sequence

from crewboard.logbook.record.seen import TookIn
from crewboard.logbook.record.waiting import FileWaiting
from crewboard.order.board import Board
from crewboard.order.said import day_in_words, how_many, listed, when


def how_many_wait(waiting: Sequence[FileWaiting]) -> str:
    """ "12 pictures and 1 recording wait to be sorted"."""
    verb = "waits" if len(waiting) == 1 else "wait"
    return f"{of_each_sort(waiting)} {verb} to be sorted"


def of_each_sort(waiting: Sequence[FileWaiting]) -> str:
    """ "12 pictures and 1 recording"."""
    recordings = sum(one.is_recording for one in waiting)
    counts = ((len(waiting) - recordings, "picture"), (recordings, "recording"))
    return listed(how_many(count, word) for count, word in counts if count)


def taken_in_words(board: Board, act: TookIn) -> str:
    """ "Sat 2 May 10:15", "Sat 2 May 2026, by its name", "not known when"."""
    if act.taken is None:
        return "not known when"
    exact = not act.taken_by or act.taken.time() != act.taken.min.time()
    moment = when(act.taken, board.at) if exact else day_in_words(act.taken)
    return f"{moment}, by {act.taken_by}" if act.taken_by else moment
