"""The way of the wood, from old things to new ones and back."""

from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from typing import NamedTuple, TypeVar

from crewboard.fabric.place import Place, Traced
from crewboard.logbook.entry import Entry
from crewboard.logbook.record.done import DoneTo

One = TypeVar("One", bound=Hashable)
# What puts other wood into a thing where it is.
_TAKES_WOOD = ("spliced", "repaired in place")


class WoodWay(NamedTuple):
    """Wood of a thing went into the thing that sat, or was made, at another place."""

    entry: Entry
    source: Traced
    into: Traced
    place: Place  # of `into`
    of: Place


def join(ways: Iterable[WoodWay]) -> None:
    """Write into the things where their wood went; what would go round is a contradiction."""
    for way in ways:
        target, source = _target(way), way.source
        target.entries.append(way.entry)
        if source in reached(target, lambda thing: thing.wood_to):
            way.of.odd("circle", way.entry, source)
        elif target not in source.wood_to:
            source.wood_to.append(target)
            target.wood_from.append(source)


def _target(way: WoodWay) -> Traced:
    """What took the wood: the thing of that moment where it was spliced or repaired, else the one
    that came after it, for which the wood was then laid ready."""
    own = [e.act.action for e in way.into.entries if isinstance(e.act, DoneTo)]
    after = way.place.things[way.into.number + 1 :]
    return way.into if not after or set(own) & set(_TAKES_WOOD) else after[0]


def reached(start: One, ways: Callable[[One], Sequence[One]]) -> Iterator[One]:
    """The thing and all to which the ways lead from it, nearest first, each once."""
    seen, ahead = {start}, [start]
    for one in ahead:
        yield one
        for after in ways(one):
            if after not in seen:
                seen.add(after)
                ahead.append(after)
