"""The pictures of the book: those captioned, and those that a finding or any other entry cites."""

from collections.abc import Iterable, Iterator

from crewboard.fabric.fabric import Fabric
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by
from crewboard.logbook.record.seen import PICTURE_KINDS, Found, Pictured, TookIn
from crewboard.order.board import Board
from crewboard.order.said import day_and_time
from crewboard.telling.book.statement import Plate, said_by, told


def pictures_of(
    board: Board,
    fabric: Fabric,
    entries: Iterable[Entry],
    drawn: Iterable[str] = (),
    place: str = "",
) -> Iterator[Plate]:
    """Those captioned among the entries, before, during, after; then those that others of them
    cite, below what these say, and what the plan names as `drawn`, in its `place`. Each file once;
    what is of no use is left out."""
    entries = tuple(entries)
    captions = [(e, e.act) for e in entries if isinstance(e.act, Pictured)]
    captions.sort(key=lambda caption: PICTURE_KINDS.index(caption[1].shows))
    files = {act.file for _, act in captions if act.shows == "of no use"}
    for entry, act in captions:
        if act.file not in files:
            files.add(act.file)
            words = f"{act.shows}: {act.words}" if act.words else act.shows
            yield _plate(board, fabric, act.file, words, entry)
    for entry in entries:
        if isinstance(entry.act, (Pictured, TookIn)):
            continue
        for named in named_by(entry.act):
            if named.thing == "picture" and named.id not in files:
                files.add(named.id)
                yield _plate(board, fabric, named.id, _cited(board, entry), entry)
    for file in dict.fromkeys(drawn):
        if file not in files:
            yield Plate(file, f"({place})", plan=place)


def _cited(board: Board, entry: Entry) -> str:
    """What the entry says, without the paths of its pictures, which stand below each."""
    act = entry.act
    return f"found: {act.seen}" if isinstance(act, Found) else told(board, entry).says


def _plate(board: Board, fabric: Fabric, file: str, words: str, entry: Entry) -> Plate:
    when = fabric.taken_at(file)
    if when is None:
        return Plate(file, f"{words} ({said_by(board, entry)})", entry.id)
    says = f"{words} (taken {day_and_time(when)}; {said_by(board, entry)})"
    return Plate(file, says, entry.id, taken=fabric.taken[file].id)
