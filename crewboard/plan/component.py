"""The vehicle's components: frame, deck, roof, wiring ... and their parts, as a tree."""

from typing import NamedTuple


class Component(NamedTuple):
    """A main component ("roof") or a part of one ("roof/arches")."""

    id: str
    name: str
    after: tuple[str, ...] = ()  # components and tasks that must be finished, holds and all
    part_of: str = ""  # the id above it in the tree; empty for a main component
    about: str = ""
    pictures: tuple[str, ...] = ()
    standard: str = ""  # the standard of finish that was agreed on for it
