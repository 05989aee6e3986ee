"""Equal spacing between two ends: ribs, slats, louvres, screws in a row."""

from fractions import Fraction
from math import ceil

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import shown
from crewboard.plan.units import how_many
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning, geometry

RULE = geometry("gap = (length - n x width) / (n + 1), with one at each end / (n - 1)")
_MARKS = 200


def _answer(given: Given) -> Reckoning:
    length, units = given.length("length"), given.units
    width, at_ends = given.length_or_nothing("width"), given.yes("at_ends")
    count = _count(given, length, width, at_ends)
    gaps = count - 1 if at_ends else count + 1
    gap = (length - count * width) / gaps
    first = Fraction(0) if at_ends else gap
    what = f"{count} of {shown(width, units)}" if width else how_many(count, "point")
    marks = [first + number * (gap + width) for number in range(count)]
    return Reckoning(
        (
            f"gap {shown(gap, units)}, {shown(gap + width, units)} from each to the next",
            "marks from the one end: " + "; ".join(shown(mark, units) for mark in marks),
        ),
        (f"{what} in {shown(length, units)}, {how_many(gaps, 'gap')}",),
        (RULE,),
        ("marks are where each begins: measure all of them from the one end",),
        figures={"count": count, "gap_mm": gap, "marks_mm": marks},
    )


def _count(given: Given, length: Fraction, width: Fraction, at_ends: bool) -> int:
    """As many as are wanted, or the fewest that leave no wider gap than asked for."""
    if given.has("count") == given.has("gap"):
        raise Unread("say how many, or the widest gap", 'write "count=..." or "gap=..."')
    least = 2 if at_ends else 1
    if given.has("count"):
        count = given.whole("count")
    else:
        step = width + given.length("gap")
        # n and its gaps: n x step - gap with one at each end, n x step + gap with none.
        wanted = (length - width) / step + 1 if at_ends else (length + width) / step - 1
        count = max(least, ceil(wanted))
    if count < least:
        raise Unread("one alone cannot stand at both ends", "write a count of 2 or more")
    if count > _MARKS:
        raise Unread(f"that makes more than {_MARKS} marks", "take fewer")
    if count * width > length:
        raise Unread("they do not fit in the length", "take fewer or narrower ones")
    return count


KIND = KindOfReckoning(
    "spacing",
    "Equal spacing",
    (
        Ask("length", "length between the two ends", "length", fills="length"),
        Ask("count", "how many stand in it", "count", needed=False),
        Ask("gap", "or the widest gap", "length", needed=False),
        Ask("width", "width of each", "length", needed=False, otherwise="0"),
        Ask("at_ends", "one at each end: yes or no", "yes", needed=False, otherwise="no"),
    ),
    _answer,
)
