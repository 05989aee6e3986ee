"""What a museum's reader would miss of a piece that something was done to.

The test of completeness follows the common practice of conservators: what was seen, who and why, a
picture of before, of what is hidden now and of after, what was added and from whom, where the old
part lies or who agreed to discard it, the mark on the new one.
"""

from collections.abc import Callable, Iterator
from typing import Literal, NamedTuple

from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.fabric.pictured import shown_after, shown_before, shown_while_open
from crewboard.fabric.thing import Thing
from crewboard.logbook.entry import Entry
from crewboard.logbook.record.done import (
    CHANGES,
    NEEDS_REASON,
    NEW_PART,
    PEOPLE_WHO_AGREE,
    DoneTo,
    Gone,
    PieceMade,
    Reused,
    TakenOff,
)

GapCode = Literal[
    "as found",
    "who",
    "why",
    "before",
    "hidden",
    "after",
    "materials",
    "batch",
    "share",
    "how replaced",
    "grade",
    "evidence",
    "mark",
    "where",
    "cut out",
    "agreed",
    "to whom",
]
_FACTS_OF_MATERIAL = 3  # what it is, from whom, of which batch


class Gap(NamedTuple):
    """Something that the record of a piece does not say. `entry` is what calls for it; `words`
    what is meant of several: a material. `thing` is the number of the thing in its place."""

    code: GapCode
    piece: str
    entry: Entry | None = None
    thing: int = 0
    words: str = ""


class Treated(NamedTuple):
    """A piece to which something was done; `actions` in order of time."""

    fabric: Fabric
    record: PieceRecord
    actions: tuple[Entry, ...]

    def gap(
        self, code: GapCode, entry: Entry | None = None, thing: int = 0, words: str = ""
    ) -> Gap:
        return Gap(code, self.record.piece.id, entry, thing, words)

    @property
    def done(self) -> list[tuple[Entry, DoneTo]]:
        return [(e, e.act) for e in self.actions if isinstance(e.act, DoneTo)]


def gaps(fabric: Fabric) -> dict[str, tuple[Gap, ...]]:
    """Piece id -> what is missing of it; the shortest list first, without those that lack
    nothing."""
    lists = {record.piece.id: tuple(piece_gaps(fabric, record)) for record in treated(fabric)}
    known = sorted(
        (len(of_it), number, piece) for number, (piece, of_it) in enumerate(lists.items())
    )
    return {piece: lists[piece] for count, _, piece in known if count}


def new_gaps(earlier: Fabric, later: Fabric) -> dict[str, tuple[Gap, ...]]:
    """What is missing later and was not missing earlier: what a day's work left open."""
    before = {gap for of_it in gaps(earlier).values() for gap in map(_known_by, of_it)}
    new = {
        piece: tuple(gap for gap in of_it if _known_by(gap) not in before)
        for piece, of_it in gaps(later).items()
    }
    return {piece: of_it for piece, of_it in new.items() if of_it}


def _known_by(gap: Gap) -> tuple[str, str, str, str]:
    return gap.code, gap.piece, gap.entry.id if gap.entry else "", gap.words


def treated(fabric: Fabric) -> Iterator[PieceRecord]:
    """The pieces to which something was done."""
    return (record for record in fabric.pieces.values() if actions(record))


def actions(record: PieceRecord) -> tuple[Entry, ...]:
    """What was done to a piece, or with it."""
    own = record.piece.id
    return tuple(
        entry
        for entry in record.entries
        if isinstance(entry.act, (DoneTo, TakenOff, Gone, Reused)) and entry.act.piece == own
    )


def piece_gaps(fabric: Fabric, record: PieceRecord) -> Iterator[Gap]:
    """All that is missing of a piece."""
    case = Treated(fabric, record, actions(record))
    if case.actions:
        for rule in RULES:
            yield from rule(case)


def _as_found(case: Treated) -> Iterator[Gap]:
    from crewboard.logbook.record.listed import EarlierRepair
    from crewboard.logbook.record.seen import Found

    piece = case.record.piece
    seen = any(isinstance(e.act, (Found, EarlierRepair)) for e in case.record.entries)
    if piece.as_found == "unknown" and not piece.condition and not seen and not piece.spare:
        yield case.gap("as found", case.actions[0])


def _who(case: Treated) -> Iterator[Gap]:
    yield from (case.gap("who", entry) for entry in case.actions if not entry.by)


def _why(case: Treated) -> Iterator[Gap]:
    if case.record.piece.why:
        return
    for entry in case.actions:
        act = entry.act
        asks = isinstance(act, Gone) or (isinstance(act, DoneTo) and act.action in NEEDS_REASON)
        if asks and not (getattr(act, "why", "") or getattr(act, "despite", "")):
            yield case.gap("why", entry)


def _pictures(case: Treated) -> Iterator[Gap]:
    fabric, record = case.fabric, case.record
    spare_or_missing = record.things[0].sort == "missing" or record.piece.spare
    if not spare_or_missing and not shown_before(fabric, record, case.actions[0].at):
        yield case.gap("before", case.actions[0])
    closed = fabric.closed_in.get(record.piece.id)
    if closed is not None and not shown_while_open(fabric, record, closed):
        yield case.gap("hidden", closed)
    last = [entry for entry, done in case.done if done.action != "left as found"]
    no_need = record.current.where != "on the vehicle" or not last
    if not (no_need or shown_after(fabric, record, last[-1].at)):
        yield case.gap("after", last[-1])


def _materials(case: Treated) -> Iterator[Gap]:
    """Of what was put in: what it is, from whom and of which batch, or that it is nothing."""
    came = {thing.came_by.id: thing for thing in case.record.things if thing.came_by}
    for entry, done in case.done:
        if done.action in CHANGES and not done.materials:
            new = came.get(entry.id)
            if new is None or not _made(new):
                yield case.gap("materials", entry)
        for material in done.materials:
            facts = [fact for fact in material.split(",") if fact.strip()]
            if len(facts) < _FACTS_OF_MATERIAL and material.strip().casefold() != "none":
                yield case.gap("batch", entry, words=material)
    for thing in case.record.things:
        for entry, made in _made(thing):
            if not made.material:
                yield case.gap("materials", entry, thing.number)
            elif not (made.source and made.batch):
                yield case.gap("batch", entry, thing.number, made.material)


def _made(thing: Thing) -> list[tuple[Entry, PieceMade]]:
    return [(entry, entry.act) for entry in thing.entries if isinstance(entry.act, PieceMade)]


def _copies(case: Treated) -> Iterator[Gap]:
    for entry, done in case.done:
        if done.action == "spliced" and done.share is None:
            yield case.gap("share", entry)
        if done.action == "copied on evidence" and not done.grade:
            yield case.gap("grade", entry)
        elif done.action == "copied on evidence" and done.grade != "E" and not done.sources:
            yield case.gap("evidence", entry)
    current = case.record.current
    if current.sort == "replaced, not said how" and not case.record.piece.spare:
        yield case.gap("how replaced", current.whereabouts.entry, current.number)


def _mark(case: Treated) -> Iterator[Gap]:
    """New wood is told from old by a mark."""
    thing = case.record.current
    done = [entry.act for entry in thing.entries if isinstance(entry.act, DoneTo)]
    new = thing.number > 0 or any(one.action in NEW_PART for one in done)
    if new and not any(one.mark or one.action == "marked" for one in done):
        yield case.gap("mark", thing.came_by or case.done[-1][0], thing.number)


def _whereabouts(case: Treated) -> Iterator[Gap]:
    for thing in case.record.things:
        entry = thing.whereabouts.entry
        if thing.where in ("not said", "off the vehicle"):
            yield case.gap("where", entry, thing.number)
        if thing.cut_out is not None and thing.cut_out.where == "not said":
            yield case.gap("cut out", thing.cut_out.entry, thing.number)
    for entry in case.actions:
        gone = entry.act
        if isinstance(gone, Gone) and gone.how == "discarded":
            if len(set(gone.agreed)) < PEOPLE_WHO_AGREE and not (gone.despite or entry.despite):
                yield case.gap("agreed", entry)
        elif isinstance(gone, Gone) and gone.how == "given away" and not gone.to:
            yield case.gap("to whom", entry)


RULES: tuple[Callable[[Treated], Iterator[Gap]], ...] = (
    _as_found,
    _who,
    _why,
    _pictures,
    _materials,
    _copies,
    _mark,
    _whereabouts,
)
"""What is asked of a piece, in the order in which it is told."""
