"""What must not stay, and what did not: props, straps, over-long ends, with who undid them."""

from crewboard.fabric.trace import in_order
from crewboard.logbook.entry import Entry
from crewboard.logbook.record.temporary import ever_temporary
from crewboard.order.board import Board
from crewboard.telling.book.statement import Sentence, listed_below, said_by


def ever_temporary_on(board: Board) -> list[tuple[Entry, Entry | None]]:
    """All that was ever temporary, in order of time, each with the entry that undid it."""
    entries = in_order(entry for entry in board.logbook.counting() if entry.at <= board.at)
    return ever_temporary(entries)


def temporary_sentence(board: Board, entry: Entry, undone: Entry | None) -> Sentence:
    """What it is and what it must be undone before; whether it was, by whom and how."""
    told = listed_below(board, entry)
    if undone is None:
        return told
    how = getattr(undone.act, "how", "")
    of_it = f"; undone {said_by(board, undone)}{f' ({how})' if how else ''}"
    return told._replace(says=told.says + of_it, entries=(*told.entries, undone.id))
