"""The fewest people in whom all is met that somebody on a task must have."""

from collections.abc import Iterable


def covered(crew: int, able: int, covers: Iterable[int]) -> int:
    """The crew with one more of the able people for each of `covers` of which nobody is in it yet;
    0 where somebody is missing. People are bits, whoever is least needed elsewhere the lowest."""
    for cover in covers:
        if not crew & cover:
            one = able & cover
            if not one:
                return 0
            crew |= one & -one
    return crew
