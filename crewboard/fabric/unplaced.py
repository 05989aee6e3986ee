"""Old pieces of which nobody said where they lie now."""

from collections.abc import Iterable, Iterator

from crewboard.fabric.fabric import Fabric
from crewboard.fabric.thing import Thing


def unplaced(fabric: Fabric, pieces: Iterable[str]) -> Iterator[Thing]:
    """What was taken out of the places of these pieces and lies somewhere, nobody said where: the
    old ones that were replaced, and those that were taken off and are still off."""
    for piece_id in dict.fromkeys(pieces):
        record = fabric.pieces.get(piece_id)
        if record is None:
            continue
        yield from (thing for thing in record.old if thing.where in ("not said", "off the vehicle"))
        if record.current.where == "off the vehicle":
            yield record.current


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
