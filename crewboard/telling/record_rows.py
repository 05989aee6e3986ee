"""The pieces as rows: what they are now and where, how much is original, what is missing."""

from collections.abc import Iterable, Iterator

from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.fabric.gaps import piece_gaps
from crewboard.fabric.shares import ALL, Share, shares
from crewboard.order.said import component_name, how_many
from crewboard.telling.fabric import piece_lines
from crewboard.telling.gaps import gap_in_words
from crewboard.telling.line import GAP, Line, Tone
from crewboard.telling.pieces import PIECE_ROW
from crewboard.telling.row import Row, heading
from crewboard.telling.shares import counted_in_words


def fabric_rows(fabric: Fabric) -> list[Row]:
    """The pieces by component, headed by how much of it is original; that of all comes first."""
    records = list(fabric.pieces.values())
    counted = shares(fabric, records)
    units = fabric.plan.vehicle.units
    rows = [*_headed("In all", units, (one for one in counted if one.component == ALL), "strong")]
    for component in dict.fromkeys(record.piece.component for record in records):
        of_it = [record for record in records if record.piece.component == component]
        of_these = (one for one in counted if one.component == component)
        rows += _headed(component_name(fabric.plan, component), units, of_these)
        rows += [_piece_row(fabric, record) for record in of_it]
    return rows if records else []


def _headed(name: str, units: str, counted: Iterable[Share], tone: Tone = "faint") -> Iterator[Row]:
    """The heading with the first measure, each further one on a line of its own: none is cut."""
    first, *more = [*(counted_in_words(one, units) for one in counted), ""]
    yield heading(f"{name}: {first}", tone)
    yield from (heading(f"{' ' * len(name)}  {one}", tone) for one in more if one)


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
