"""Files that wait to be sorted, as rows, and what is told of one beside its row."""

from collections.abc import Iterable, Iterator

from crewboard.logbook.acts import Pictured
from crewboard.logbook.record.waiting import FileWaiting
from crewboard.order.board import Board
from crewboard.order.said import component_name, pieces_in_words
from crewboard.telling.files_waiting import taken_in_words
from crewboard.telling.line import Line
from crewboard.telling.row import Row


def sorting_rows(board: Board, waiting: Iterable[FileWaiting]) -> list[Row]:
    """A row for each file: its name, when it was taken. A file is marked by its path."""
    return [
        Row(
            one.act.file,
            (_word(one), one.name_before, taken_in_words(board, one.act)),
            "must",
            find=one.act.file,
            tasks=(one.act.file,),
        )
        for one in waiting
    ]


def _word(one: FileWaiting) -> str:
    return "recording" if one.is_recording else "picture"


def file_lines(
    board: Board, one: FileWaiting | None, marked: int, last: Pictured | None
) -> Iterator[Line]:
    """What there is to say of a file, and what "=" would say of it."""
    if one is None:
        yield Line("Nothing waits to be sorted. Files of a phone or camera are taken in with o.")
        return
    yield Line(f"{one.act.file}, taken {taken_in_words(board, one.act)}")
    shows = "opens it" if one.is_recording else "shows it"
    yield Line(f"z {shows}", "faint")
    if marked > 1:
        yield Line(f"{marked} are marked: what you say now is said of all of them.", "must")
    if last is not None:
        yield Line(shown_in_words(board, last), "faint", 0, "= says again:")


def shown_in_words(board: Board, said: Pictured) -> str:
    """ "before, Rib 3, the foot from behind", "after, Ribs 1-4, the whole side"."""
    of = pieces_in_words(board.plan, said.pieces)
    if not of and said.component:
        of = component_name(board.plan, said.component)
    return ", ".join(part for part in (said.shows, of, said.words) if part)
