"""The entries of the record as rows: by their kind, by component and piece, or by day."""

from collections.abc import Iterable, Iterator
from typing import Literal

from crewboard.fabric.fabric import Fabric
from crewboard.logbook.acts import Found, SizeDecided, Temporary
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by
from crewboard.logbook.kinds import KINDS_OF_ENTRY, kind_of
from crewboard.logbook.record.seen import TookIn
from crewboard.logbook.record.waiting import files_waiting
from crewboard.order.board import Board
from crewboard.order.reckoning.decided import superseded, superseded_in_words
from crewboard.order.said import component_name, day_in_words, day_shortly, name_of, person
from crewboard.telling.entry_words import words_of
from crewboard.telling.files_waiting import how_many_wait
from crewboard.telling.line import Line
from crewboard.telling.row import Row, heading

By = Literal["kind", "component", "day"]
WAIT_ROW = "waiting:"
"""The row of the files that wait to be sorted."""


def entries_of(board: Board, fabric: Fabric) -> list[Entry]:
    """What is temporary, and all entries of the record, in order of time. A file that was taken in
    waits to be sorted and is not listed."""
    record = (entry for entry in board.logbook.record() if entry.at <= board.at)
    listed = (entry for entry in record if not isinstance(entry.act, TookIn))
    return sorted((*fabric.temporary, *listed), key=lambda entry: entry.at)


def record_rows(board: Board, entries: Iterable[Entry], by: By) -> list[Row]:
    """What waits to be sorted, then the entries, the last one first; by component those of a piece
    stand together."""
    rows: list[Row] = []
    waiting = list(files_waiting(board.logbook, board.at))
    if waiting:
        rows.append(Row(WAIT_ROW, ("sort", how_many_wait(waiting), ""), "must"))
    lists: dict[str, list[Entry]] = {}
    for entry in reversed(list(entries)):
        lists.setdefault(_head(board, entry, by), []).append(entry)
    for head in _in_order(board, lists, by):
        found = lists[head]
        if by == "component":
            found.sort(key=_piece)  # and stays in order of time
        rows.append(heading(f"{head} ({len(found)})"))
        rows += [_entry_row(board, entry, by) for entry in found]
    return rows


def _head(board: Board, entry: Entry, by: By) -> str:
    if by == "day":
        return day_in_words(entry.at.date())
    if by == "component":
        component = _component(board, entry)
        return component_name(board.plan, component) if component else "The vehicle as a whole"
    return kind_of(entry.act).heads


def _in_order(board: Board, heads: Iterable[str], by: By) -> list[str]:
    """By day they come in order already; what is to be undone must not be forgotten and stands
    first, then what is jotted down most."""
    if by == "day":
        return list(heads)
    if by == "component":
        first = [component.name for component in board.plan.components.values()]
    else:
        kinds = sorted(KINDS_OF_ENTRY.values(), key=lambda kind: kind.jotted)
        first = [KINDS_OF_ENTRY[Temporary].heads, *(kind.heads for kind in kinds)]
    place = dict(reversed([(head, number) for number, head in enumerate(first)]))
    return sorted(heads, key=lambda head: place.get(head, len(first)))


def _piece(entry: Entry) -> str:
    return next((named.id for named in named_by(entry.act) if named.thing == "piece"), "")


def _component(board: Board, entry: Entry) -> str:
    piece = board.plan.pieces.get(_piece(entry))
    return piece.component if piece else getattr(entry.act, "component", "")


def on_what(board: Board, entry: Entry | None) -> tuple[tuple[str, ...], str]:
    """The pieces that an entry is on, and the component where it is on that as a whole."""
    if entry is None:
        return (), ""
    first = _piece(entry)
    several = tuple(getattr(entry.act, "pieces", ())) or ((first,) if first else ())
    pieces = tuple(piece for piece in several if piece in board.plan.pieces)
    component = "" if pieces else _component(board, entry)
    return pieces, component if component in board.plan.components else ""


def _entry_row(board: Board, entry: Entry, by: By) -> Row:
    act = entry.act
    own = getattr(act, "seen", "") or getattr(act, "what", "") if by == "kind" else ""
    names = [
        name_of(board.plan, named.id)
        for named in named_by(act)
        if named.thing in ("piece", "component")
    ]
    thought = isinstance(act, Found) and act.thought and by == "kind"
    below = (f"thought: {getattr(act, 'thought', '')}",) if thought else ()
    day = day_shortly(entry.at.date(), board.at.date())
    when = f"{entry.at:%H:%M}" if by == "day" else day
    cells = (when, own, ", ".join(names)) if own else (when, _says(board, entry), "")
    component = _component(board, entry)
    of = component_name(board.plan, component) if component else ""
    find = " ".join((kind_of(act).word, _head(board, entry, "kind"), of, *names))
    return Row(entry.id, cells, "faint", below, find=find)


def _later(board: Board, entry: Entry) -> Entry | None:
    """The later word on a size that was decided on, where there is one."""
    if not isinstance(entry.act, SizeDecided):
        return None
    record = (other for other in board.logbook.record() if other.at <= board.at)
    return superseded(record).get(entry.id)


def _says(board: Board, entry: Entry) -> str:
    return words_of(board).of(entry)


def entry_beside(board: Board, entry: Entry | None) -> Iterator[Line]:
    """The whole of an entry of the lists, when it was, and who wrote it."""
    if entry is not None:
        yield Line(_says(board, entry))
        if later := _later(board, entry):
            yield Line(superseded_in_words(later), "warning")
        by = f", {person(board.plan, entry.by)}" if entry.by else ""
        yield Line(f"{day_shortly(entry.at.date(), board.at.date())}{by}", "faint")
