"""The fewest people in whom all is met that somebody on a task must have, as bits."""

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


def fewest(able: int, least: int, covers: tuple[int, ...]) -> int:
    """The fewest of these people, but at least so many, who can do the task; 0 for none."""
    crew = covered(0, able, covers)
    if (covers and not crew) or able.bit_count() < least:
        return 0
    while crew.bit_count() < least:
        rest = able & ~crew
        crew |= rest & -rest
    return crew
