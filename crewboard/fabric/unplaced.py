"""Old pieces of which nobody said where they lie now."""

from collections.abc import Iterable, Iterator
from typing import Literal, NamedTuple

from crewboard.fabric.fabric import Fabric


class Unplaced(NamedTuple):
    """What lies nobody knows where: the piece itself, the old one, or the part cut out of it."""

    piece: str
    which: Literal["itself", "the old", "cut out"]

    @property
    def old(self) -> bool:
        """Whether an entry that says where it lies means what came out, not what sits there."""
        return self.which != "itself"


def unplaced(fabric: Fabric, pieces: Iterable[str]) -> Iterator[Unplaced]:
    """What was taken out of the places of these pieces and lies somewhere, nobody said where: the
    old ones that were replaced, what a splice took the place of, and those that were taken off and
    are still off. What came out last is what an entry can speak of."""
    for piece_id in dict.fromkeys(pieces):
        record = fabric.pieces.get(piece_id)
        if record is None:
            continue
        if record.current.cut_out is not None:
            if record.current.cut_out.where == "not said":
                yield Unplaced(piece_id, "cut out")
        elif record.old and record.old[-1].where in ("not said", "off the vehicle"):
            yield Unplaced(piece_id, "the old")
        if record.current.where == "off the vehicle":
            yield Unplaced(piece_id, "itself")


def places_used(fabric: Fabric) -> tuple[str, ...]:
    """Where things lie, the place that was named last first."""
    lying = [
        thing.whereabouts
        for record in fabric.pieces.values()
        for thing in record.things
        if thing.where == "put away" and thing.whereabouts.words and thing.whereabouts.entry
    ]
    lying.sort(key=lambda whereabouts: whereabouts.since or fabric.at, reverse=True)
    return tuple(dict.fromkeys(whereabouts.words for whereabouts in lying))
