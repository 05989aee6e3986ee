"""How much of a thing is of which sort, after a part of it was taken out and another put in."""

from fractions import Fraction

from crewboard.fabric.thing import Makeup, Sort

WHOLE, NONE = Fraction(1), Fraction(0)


def all_of(sort: Sort) -> Makeup:
    """What is of unknown making may be original."""
    return Makeup({sort: WHOLE}, WHOLE if sort in ("original", "unknown") else NONE)


def spliced(makeup: Makeup, kept: Fraction | None) -> Makeup:
    """The makeup after all but `kept` of the thing was replaced; None: nobody said how much.

    What was taken out may have been of any of its sorts: of each, at least what could not have
    been taken stays. So a second splice leaves open whether it took old wood or the first splice.
    """
    if kept is None:
        return Makeup({}, makeup.most_original)
    taken = WHOLE - kept
    stays = {sort: max(NONE, share - taken) for sort, share in makeup.least.items()}
    least: dict[Sort, Fraction] = {**stays, "spliced in": stays.get("spliced in", NONE) + taken}
    least = {sort: share for sort, share in least.items() if share}
    return Makeup(least, min(makeup.most_original, kept))


def exactly(percent: float) -> Fraction:
    """A share typed in percent, as it was typed: 33.3 is 333/1000."""
    return Fraction(str(percent)) / 100
