"""The pictures and recordings on record of something, each with what was said of it."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from crewboard.fabric.fabric import Fabric
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by
from crewboard.order.board import Board
from crewboard.order.said import how_many
from crewboard.telling.book.statement import said_by
from crewboard.telling.line import Line
from crewboard.telling.sorting import shown_in_words


class PictureTold(NamedTuple):
    """A file of the folder, and what was said of it."""

    file: str
    lines: tuple[Line, ...]


def files_of_entry(entry: Entry | None) -> tuple[str, ...]:
    """The pictures and the recording that an entry names."""
    named = named_by(entry.act) if entry is not None else ()
    return tuple(dict.fromkeys(one.id for one in named if one.thing == "picture"))


def files_of_piece(fabric: Fabric, piece_id: str) -> tuple[str, ...]:
    """The files that the plan or an entry names for a piece; none of a piece that is unknown."""
    record = fabric.pieces.get(piece_id)
    if record is None:
        return ()
    of_entries = (file for entry in record.entries for file in files_of_entry(entry))
    return tuple(dict.fromkeys((*record.piece.pictures, *of_entries)))


def files_of_task(board: Board, fabric: Fabric, task_id: str) -> tuple[str, ...]:
    """Those of a task, of the entries that name it, and of the pieces that it is done to."""
    task = board.plan.tasks.get(task_id)
    if task is None:
        return ()
    entries = (entry for entry in board.logbook.record() if entry.at <= board.at)
    named = (
        file
        for entry in entries
        if any(one.thing == "task" and one.id == task_id for one in named_by(entry.act))
        for file in files_of_entry(entry)
    )
    of_pieces = (file for piece in task.pieces for file in files_of_piece(fabric, piece))
    return tuple(dict.fromkeys((*task.pictures, *named, *of_pieces)))


def pictures_told(board: Board, fabric: Fabric, files: Iterable[str]) -> list[PictureTold]:
    """Each file with its captions."""
    return [PictureTold(file, tuple(_told(board, fabric, file))) for file in files]


def _told(board: Board, fabric: Fabric, file: str) -> Iterator[Line]:
    for entry in fabric.pictures.get(file, ()):
        says = shown_in_words(board, entry.act)  # type: ignore[arg-type]
        yield Line(f"{says} ({said_by(board, entry)})")


def shown_by_key(files: Iterable[str]) -> list[Line]:
    """That there are pictures to be looked at, and by which key."""
    count = len(tuple(files))
    return [Line(f"{how_many(count, 'picture')}: z shows them", "faint")] if count else []
