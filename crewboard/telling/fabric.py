"""What the vehicle is made of now, in words: state and whereabouts of pieces, how much is original,
where each thing went and its wood."""

from collections.abc import Iterable, Iterator

from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.fabric.shares import ALL, Share, shares
from crewboard.fabric.thing import Thing, ThingId, Whereabouts
from crewboard.fabric.unplaced import Unplaced
from crewboard.order.said import component_name, day_in_words, listed, piece_name
from crewboard.plan.plan import Plan
from crewboard.telling.line import GAP, Line, Tone, title
from crewboard.telling.piece_sheet import KEPT
from crewboard.telling.shares import share_in_words

NOTHING = "No pieces are known: write them in the components' files, or with crewboard add-pieces."


def fabric_lines(fabric: Fabric, records: Iterable[PieceRecord], *, whole: bool) -> list[Line]:
    """The pieces by component with how much of it is original; of the `whole` vehicle also that
    in all."""
    chosen = list(records)
    if not chosen:
        return [Line(NOTHING)]
    counted = shares(fabric, chosen)
    lines = list[Line]()
    for component in dict.fromkeys(record.piece.component for record in chosen):
        lines.append(title(component_name(fabric.plan, component))._replace(handle=component))
        lines += [share_line(fabric, one) for one in counted if one.component == component]
        of_it = [record for record in chosen if record.piece.component == component]
        lines += [line for record in of_it for line in piece_lines(fabric, record)]
        lines.append(GAP)
    if whole:
        lines.append(title("In all"))
        lines += [share_line(fabric, one) for one in counted if one.component == ALL]
    return lines if whole else lines[:-1]


def share_line(fabric: Fabric, share: Share) -> Line:
    return Line(share_in_words(share, fabric.plan.vehicle.units), "strong", 2)


def piece_lines(fabric: Fabric, record: PieceRecord) -> Iterator[Line]:
    """A piece's state and where it is; below it the old ones, and the way of its wood."""
    piece = record.piece
    kept = f", {KEPT}" if piece.keep else ""
    known = record.where.where in ("missing", "not made yet")  # the state says it already
    where = "" if known else f", {record.where}"
    text = f"{piece.name}: {record.state}{where}{kept}{_why(record, record.current)}"
    yield Line(text, _tone(record), 2, handle=piece.id)
    for thing in reversed(record.things):
        if thing.number > record.current.number:
            yield Line(f"{thing.whereabouts}", "faint", 4, "the new one:")
        elif thing in record.old:
            lies = f"{thing.sort}, {_lies(thing.whereabouts)}{_why(record, thing)}"
            yield Line(lies, "faint", 4, "the old one:")
        if thing.cut_out is not None:
            why = getattr(thing.cut_out.entry.act, "why", "") if thing.cut_out.entry else ""
            gone = f" ({why})" if why and thing.cut_out.where != "not said" else ""
            yield Line(f"{_lies(thing.cut_out)}{gone}", "faint", 4, "the part cut out:")
        yield from wood_lines(fabric, thing)


def _tone(record: PieceRecord) -> Tone:
    if record.state == "copied by conjecture":
        return "warning"
    return "caution" if record.piece.keep else "plain"


def _why(record: PieceRecord, thing: Thing) -> str:
    why = record.why_gone(thing)
    return f" ({why})" if why else ""


def _lies(whereabouts: Whereabouts) -> str:
    """ "put away: shelf 3, Sat 2 May 2026"; that nobody said so."""
    if whereabouts.where == "not said":
        return "where it is was not said"
    since = f", {day_in_words(whereabouts.since)}" if whereabouts.since else ""
    return f"{whereabouts}{since}"


def wood_lines(fabric: Fabric, thing: Thing) -> Iterator[Line]:
    """From where the wood of a thing came, and where wood of it went."""
    if thing.wood_from:
        yield Line(_named(fabric, thing.wood_from), "faint", 4, "wood from:")
    if thing.wood_to:
        yield Line(_named(fabric, thing.wood_to), "faint", 4, "its wood is in:")


def _named(fabric: Fabric, things: Iterable[ThingId]) -> str:
    return listed(thing_name(fabric, one) for one in things)


def unplaced_in_words(plan: Plan, one: Unplaced) -> str:
    """ "Arch 4", "the old Arch 4", "the part cut out of Arch 4"."""
    name = piece_name(plan, one.piece)
    if one.which == "itself":
        return name
    return f"the old {name}" if one.which == "the old" else f"the part cut out of {name}"


def thing_name(fabric: Fabric, thing_id: ThingId) -> str:
    """ "Arch 4", "the old Arch 4" where another sits in its place by now."""
    name = piece_name(fabric.plan, thing_id.piece)
    current = fabric.pieces[thing_id.piece].current
    return f"the old {name}" if thing_id.number < current.number else name
