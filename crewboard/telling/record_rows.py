"""The record as rows: pieces with what they are and where, and what was seen and listed."""

from collections.abc import Iterable, Iterator, Sequence

from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.fabric.gaps import piece_gaps
from crewboard.fabric.shares import ALL, Share, shares
from crewboard.logbook.acts import Found
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by
from crewboard.logbook.record.waiting import files_waiting
from crewboard.order.board import Board
from crewboard.order.said import component_name, day_shortly, how_many, name_of
from crewboard.telling.entry_words import words_of
from crewboard.telling.fabric import piece_lines
from crewboard.telling.files_waiting import how_many_wait
from crewboard.telling.gaps import gap_in_words
from crewboard.telling.line import GAP, Line, Tone
from crewboard.telling.pieces import PIECE_ROW
from crewboard.telling.row import Row, heading
from crewboard.telling.shares import counted_in_words

WAIT_ROW = "waiting:"
"""The row of the files that wait to be sorted."""


def fabric_rows(fabric: Fabric) -> list[Row]:
    """The pieces by component, headed by how much of it is original; that of all comes first."""
    records = list(fabric.pieces.values())
    counted = shares(fabric, records)
    rows = [heading(f"In all: {_shares(one for one in counted if one.component == ALL)}", "strong")]
    for component in dict.fromkeys(record.piece.component for record in records):
        of_it = [record for record in records if record.piece.component == component]
        original = _shares(one for one in counted if one.component == component)
        rows.append(heading(f"{component_name(fabric.plan, component)}: {original}"))
        rows += [_piece_row(fabric, record) for record in of_it]
    return rows if records else []


def _shares(counted: Iterable[Share]) -> str:
    return "; ".join(map(counted_in_words, counted))


def _piece_row(fabric: Fabric, record: PieceRecord) -> Row:
    missing = sum(1 for _ in piece_gaps(fabric, record))
    where = "" if record.where.where in ("on the vehicle", "missing") else str(record.where)
    olds = [str(thing.whereabouts) for thing in record.old]
    old = f"old: {olds[-1]}" if olds else ""
    lack = how_many(missing, "gap") if missing else ""
    cells = (record.state, record.piece.name, "; ".join(filter(None, (where, old))), lack)
    return Row(f"{PIECE_ROW}{record.piece.id}", cells, _tone(record), find=record.piece.id)


def _tone(record: PieceRecord) -> Tone:
    if record.state == "copied by conjecture":
        return "warning"
    if record.piece.keep:
        return "caution"
    return "safe" if record.state.startswith("original") else "plain"


def piece_beside(fabric: Fabric, piece_id: str) -> list[Line]:
    """What there is to read of a piece: where all of it is, and what is missing on record."""
    record = fabric.pieces.get(piece_id)
    if record is None:
        return []
    lines = [line._replace(indent=max(0, line.indent - 2)) for line in piece_lines(fabric, record)]
    gaps = [
        Line(gap_in_words(fabric, gap), "warning", 0, "-") for gap in piece_gaps(fabric, record)
    ]
    return [*lines, *([GAP] if gaps else []), *gaps]


# --- what was seen, and the short lists -----------------------------------------------------------


def record_rows(board: Board, fabric: Fabric) -> list[Row]:
    """What waits to be sorted, then findings and the short lists, the last one first."""
    rows: list[Row] = []
    waiting = list(files_waiting(board.logbook, board.at))
    if waiting:
        rows.append(Row(WAIT_ROW, ("sort", how_many_wait(waiting), ""), "must"))
    for head, entries in _lists(fabric):
        if entries:
            rows.append(heading(f"{head} ({len(entries)})"))
            rows += [_entry_row(board, entry) for entry in reversed(entries)]
    return rows


def _lists(fabric: Fabric) -> Iterator[tuple[str, Sequence[Entry]]]:
    yield "Temporary, to be undone", fabric.temporary
    yield "Findings", fabric.findings
    yield "Sizes decided on", fabric.sizes
    yield "Measured", fabric.measurements
    yield "Layers of paint", fabric.layers
    yield "Earlier repairs", fabric.repairs
    yield "Departures from how it was built", fabric.departures
    yield "Patterns and forms", fabric.patterns
    yield "Old photographs and papers", fabric.sources


def _entry_row(board: Board, entry: Entry) -> Row:
    act = entry.act
    text = act.seen if isinstance(act, Found) else getattr(act, "what", "") or _says(board, entry)
    names = [
        name_of(board.plan, named.id)
        for named in named_by(act)
        if named.thing in ("piece", "component")
    ]
    below = (f"thought: {act.thought}",) if isinstance(act, Found) and act.thought else ()
    cells = (day_shortly(entry.at.date(), board.at.date()), text, ", ".join(names))
    return Row(entry.id, cells, "faint", below, find=" ".join(names))


def _says(board: Board, entry: Entry) -> str:
    return words_of(board).of(entry)


def entry_beside(board: Board, fabric: Fabric, entry_id: str) -> list[Line]:
    """The whole of an entry of the lists."""
    entry = listed_entry(fabric, entry_id)
    if entry is None:
        return []
    return [Line(_says(board, entry)), Line(day_shortly(entry.at.date(), board.at.date()), "faint")]


def listed_entry(fabric: Fabric, entry_id: str) -> Entry | None:
    """The entry of a row; None for any other row."""
    every = (entry for _, entries in _lists(fabric) for entry in entries)
    return next((entry for entry in every if entry.id == entry_id), None)
