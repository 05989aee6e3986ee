"""A distance along a straight line of an old photograph, from three points that are known."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import product

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import shown
from crewboard.trade.given import Ask, Given, exact
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning, geometry

RULE = geometry("perspective keeps the cross-ratio (c - a)(d - b) / ((c - b)(d - a))")
_NAMES = ("a", "b", "c")


def _answer(given: Given) -> Reckoning:
    units = given.units
    known = [given.length_or_nothing(name) for name in _NAMES]
    image, error = given.read("image", _numbers), given.read("error", exact)
    if len(set(known)) < 3 or len(set(image)) < 4:
        raise Unread("two of the points are one", "write points that lie apart")
    found = fourth(known, image)
    if found is None or found < 0:
        raise Unread("no such point lies on that side", "measure from an end of the line")
    off = _reach(known, image, error, found)
    reach = f" ± {shown(off, units)}" if off is not None else ", and with that error anywhere"
    return Reckoning(
        (f"{shown(found, units)} from where the others are measured{reach}",),
        ("three known points and four in the picture, along one line",),
        (RULE,),
        ("the line is straight, the lens draws straight lines, the print lies flat",),
        ("what was measured from a picture is as good as the three known points",),
        figures={"distance_mm": found, "give_or_take_mm": off},
    )


def fourth(known: Sequence[Fraction], image: Sequence[Fraction]) -> Fraction | None:
    """The place on the line of the fourth point of a picture; None where it lies at no end."""
    (a, b, c), ratio = known, _ratio(image)
    if ratio is None:
        return None
    under = _under(known, ratio)
    return (b * (c - a) - ratio * a * (c - b)) / under if under else None


def _ratio(image: Sequence[Fraction]) -> Fraction | None:
    p, q, r, s = image
    return (r - p) * (s - q) / ((r - q) * (s - p)) if r != q and s != p else None


def _under(known: Sequence[Fraction], ratio: Fraction) -> Fraction:
    """It changes its sign where the line vanishes into the distance."""
    a, b, c = known
    return (c - a) - ratio * (c - b)


def _reach(
    known: Sequence[Fraction], image: Sequence[Fraction], error: Fraction, found: Fraction
) -> Fraction | None:
    """How far off it may lie where each point of the picture is off by the error; None where that
    reaches as far as the line vanishes."""
    furthest, sides = Fraction(0), set[bool]()
    for signs in product((-1, 0, 1), repeat=4):
        moved = [at + sign * error for at, sign in zip(image, signs, strict=True)]
        there, ratio = fourth(known, moved), _ratio(moved)
        if there is None or ratio is None:
            return None
        sides.add(_under(known, ratio) > 0)
        furthest = max(furthest, abs(there - found))
    return furthest if len(sides) == 1 else None


def _numbers(typed: str) -> list[Fraction]:
    parts = [part for part in typed.replace(";", ", ").split(", ") if part.strip()]
    if len(parts) != 4:
        raise Unread(f'"{typed}" is not four places in the picture', "write 0, 83.3, 142.9, 222.2")
    return [exact(part) for part in parts]


KIND = KindOfReckoning(
    "photograph",
    "From an old photograph",
    (
        Ask("a", "first known point, from the end of the line", "length"),
        Ask("b", "second known point", "length"),
        Ask("c", "third known point", "length"),
        Ask("image", "the same three and the wanted one in the picture: 0, 83, 143, 222", "text"),
        Ask("error", "how far off a point of the picture may be", "number", False, "1"),
    ),
    _answer,
)
