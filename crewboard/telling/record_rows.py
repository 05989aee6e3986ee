"""The pieces as rows: what they are now and where, how much is original, what is missing."""

from collections.abc import Iterable

from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.fabric.gaps import piece_gaps
from crewboard.fabric.shares import ALL, Share, shares
from crewboard.order.said import component_name, how_many
from crewboard.telling.fabric import piece_lines
from crewboard.telling.gaps import gap_in_words
from crewboard.telling.line import GAP, Line, Tone
from crewboard.telling.pieces import PIECE_ROW
from crewboard.telling.row import Row, heading
from crewboard.telling.shares import amount_in_words, original_in_words

_HEADING = 56  # letters of a heading behind what it is of
_BESIDE = 28  # letters of where a piece is that stand beside it: more stand below


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
    """ "48 % original by pieces (56 pieces); 78 to 81 % by length (58 m)": each measure by itself;
    without the amounts where they would be too much for one line."""
    of_all = list(counted)
    original = [f"{original_in_words(share)} original by {share.basis}" for share in of_all]
    original[1:] = [words.replace(" original", "", 1) for words in original[1:]]
    amounts = [f" ({amount_in_words(share)})" for share in of_all]
    whole = "; ".join(map(str.__add__, original, amounts))
    return whole if len(whole) <= _HEADING else "; ".join(original)


def _piece_row(fabric: Fabric, record: PieceRecord) -> Row:
    missing = sum(1 for _ in piece_gaps(fabric, record))
    where = "" if record.where.where in ("on the vehicle", "missing") else str(record.where)
    olds = [str(thing.whereabouts) for thing in record.old]
    old = f"old: {olds[-1]}" if olds else ""
    lack = how_many(missing, "gap") if missing else ""
    told = "; ".join(filter(None, (where, old)))
    long = len(told) > _BESIDE
    cells = (record.state, record.piece.name, "" if long else told, lack)
    below = (told,) if long else ()
    return Row(f"{PIECE_ROW}{record.piece.id}", cells, _tone(record), below, find=record.piece.id)


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
