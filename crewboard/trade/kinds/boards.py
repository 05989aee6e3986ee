"""Which boards of mixed widths make up a width, and what lies where."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import length, shown
from crewboard.plan.units import how_many
from crewboard.trade.boards.drawn import (
    DrawnBoard,
    drawn_boards,
)
from crewboard.trade.boards.layout import MOST, Lay, Lays, lays
from crewboard.trade.boards.wanted import Deck, Old
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning, Source, geometry

RULE = geometry("widths + (n - 1) x gap = sill width + 2 x overhang, every way gone through")
RIP = Source(
    "short of a whole board the edge board is ripped; where less than half of it would be left, "
    "the cut is shared by both edges",
    "rule of the trade",
    "from memory",
)
ORDER = Source(
    "first what is exact, then edges of one width and wide, the same from both sides, little waste",
    "order of this program",
    "common practice",
)
_OTHERS = 8  # further ways that are told
_JOINT = Fraction(3)  # mm that a joint can open by (rule of this program, no source)


def _answer(given: Given) -> Reckoning:
    deck = _deck(given)
    found = lays(deck)
    ways = found.within or found.near
    if not ways:
        return Reckoning(
            (_nothing(deck, found, given.units),), (_asked(deck, given.units),), (RULE,)
        )
    number = given.whole("choose")
    if number > len(ways):
        raise Unread(f"there is no way {number}", f"write a number from 1 to {len(ways)}")
    lay = ways[number - 1]
    boards = drawn_boards(lay, deck.gap)
    others = [(at, way) for at, way in enumerate(ways, 1) if at != number][:_OTHERS]
    first, fitted = _told(deck, lay, given.units), tuple(_ripped(deck, lay, given.units))
    return Reckoning(
        (
            first,
            *fitted,
            *_bought(given, lay),
            f"{_how_many(found, len(ways))}{_within(deck, found, given)}",
        ),
        (_asked(deck, given.units),),
        (RULE, ORDER, *((RIP,) if any("rip" in line for line in fitted) else ())),
        ("widths as they lie, without the tongue",),
        (
            *((f"only the first {MOST} ways were looked at",) if found.more else ()),
            "lay them out dry before the first is fixed",
        ),
        figures=_figures(deck, lay, boards, len(ways)) | {"told": [number, *dict(others)]},
        laid=tuple(boards),
        further=tuple(f"way {number}: {_told(deck, way, given.units)}" for number, way in others),
    )


def _deck(given: Given) -> Deck:
    stock: dict[Fraction, int] = {}
    for width, count in given.lengths("stock"):
        stock[width] = stock.get(width, 0) + count
    at_edge = given.lengths("not_at_edge") if given.has("not_at_edge") else ()
    gap, tolerance = given.length_or_nothing("gap"), given.length_or_nothing("tolerance")
    for width, _ in at_edge:
        if width not in stock:
            raise Unread(f"no board of {shown(width, given.units)} is in stock", "write its width")
    if max(gap, tolerance) >= min(stock):
        what = "gap" if gap >= min(stock) else "tolerance"
        raise Unread(f"the {what} is as wide as a board", "write less")
    old = given.read("old", lambda typed: _old(typed, given.units)) if given.has("old") else ()
    mirrored = given.yes("mirrored")
    if mirrored and old:
        raise Unread("old boards in their places are not mirrored", "leave out one of the two")
    return Deck(
        given.length("width") + 2 * given.length_or_nothing("overhang"),
        tuple(sorted(stock.items(), reverse=True)),
        gap,
        tolerance,
        frozenset(width for width, _ in at_edge),
        mirrored,
        old,
    )


def _old(typed: str, units: str) -> tuple[Old, ...]:
    """ "5 1/4 at 12 3/8, 7 1/2 at 60": widths and where they begin, from the left edge."""
    old = []
    for part in typed.replace(";", ", ").split(", "):
        width, at, begins = part.partition(" at ")
        if not at:
            raise Unread(f'"{part}" does not say where it lies', "write 5 1/4 in at 12 3/8 in")
        old.append(Old(length(begins, units).mm, length(width, units).mm))
    return tuple(sorted(old))


def _asked(deck: Deck, units: str) -> str:
    stock = ", ".join(f"{count} of {shown(width, units)}" for width, count in deck.stock)
    gap = f", gaps of {shown(deck.gap, units)}" if deck.gap else ""
    return f"{shown(deck.width, units)} to fill from {stock}{gap}"


def _told(deck: Deck, lay: Lay, units: str) -> str:
    boards = ", ".join(
        f"{count} of {shown(width, units)}"
        for (width, _), count in zip(deck.stock, lay.counts, strict=True)
        if count
    )
    kept = sum(old for _, old in lay.boards)
    old = f" beside {kept} old in place" if kept else ""
    return f"{boards or 'no new board'}{old}: {_off(deck, lay, units)}{_mirrored(lay)}"


def _mirrored(lay: Lay) -> str:
    return ", the same from both edges" if lay.is_mirrored and len(lay.boards) > 1 else ""


def _off(deck: Deck, lay: Lay, units: str) -> str:
    said = [
        f"{_apart(off, units)} {'over' if off > 0 else 'under'}{_between(deck, number, units)}"
        for number, off in enumerate(lay.off)
        if off
    ]
    return " and ".join(said) or "exact"


def _between(deck: Deck, number: int, units: str) -> str:
    """Which of the stretches beside old boards; nothing where there is only one."""
    if not deck.old:
        return ""
    ends = [Fraction(0), *(end for old in deck.old for end in (old.at, old.at + old.width))]
    left, right = [*ends, deck.width][2 * number : 2 * number + 2]
    return f" between {shown(left, units)} and {shown(right, units)}"


def _apart(off: Fraction, units: str) -> str:
    """How far it is off: never nothing, where it is only less than what is shown."""
    told = shown(abs(off), units)
    least = "1/32 in" if units == "imperial" else "0.1 mm"
    return f"less than {least}" if told.startswith("about 0 ") else told


def _ripped(deck: Deck, lay: Lay, units: str) -> Iterator[str]:
    """How a way that is over is made to fit, and where one that is under opens."""
    if deck.old or lay.exact:
        return
    (off,), (left, right) = lay.off, lay.edges
    if _apart(off, units).startswith("less"):
        yield "to fit: as they are, that is less than a saw cuts"
        return
    if off < 0:
        if lay.counts == tuple(count for _, count in deck.stock):
            yield f"all of the stock lies there: {shown(-off, units)} of boards are missing"
            return
        joints = len(lay.boards) - 1
        joint = -off / joints if joints else Fraction(0)
        told = f", {shown(joint, units)} in each joint" if 0 < joint <= _JOINT else ""
        yield f"to fit: {shown(-off, units)} to make up{'' if 'about 0 ' in told else told}"
        return
    one = min(left, right) - off
    if len(lay.boards) == 1:
        yield f"to fit: rip it to {shown(one, units)}"
        return
    both = [shown(edge - off / 2, units) for edge in dict.fromkeys((left, right))]
    single = f", or one to {shown(one, units)}" if one >= min(left, right) / 2 else ""
    yield f"to fit: rip both edge boards to {' and '.join(both)}{single}"


def _bought(given: Given, lay: Lay) -> Iterator[str]:
    """Tongue and groove is laid by the face and bought by the whole width."""
    tongue = given.length_or_nothing("tongue")
    new = [width for width, old in lay.boards if not old]
    if tongue and new:
        whole = shown(sum(new, Fraction(0)) + tongue * len(new), given.units)
        yield f"{how_many(len(new), 'board')}, {whole} wide in all with their tongues"


def _how_many(found: Lays, count: int) -> str:
    if found.more:
        return f"more than {count} ways"
    return how_many(count, "way")


def _within(deck: Deck, found: Lays, given: Given) -> str:
    if not found.within:
        return ", none within the tolerance: the nearest"
    return f" within {shown(deck.tolerance, given.units)}" if deck.tolerance else " exact"


def _nothing(deck: Deck, found: Lays, units: str) -> str:
    if found.hopeless:
        number, under, over = found.hopeless[0]
        where = _between(deck, number, units).strip()
        near = [
            f"{shown(abs(off), units)} {word}"
            for off, word in ((under, "under"), (over, "over"))
            if off is not None
        ]
        return f"{where} nothing fits; nearest: {' and '.join(near) or 'nothing'}"
    if found.more:
        return (
            f"no way among the first {MOST} looked at: ask for less, or give old boards one by one"
        )
    return "no way: these boards cannot lie so"


def _figures(deck: Deck, lay: Lay, boards: Sequence[DrawnBoard], count: int) -> dict[str, object]:
    return {
        "deck_mm": deck.width,
        "ways": count,
        "exact": lay.exact,
        "off_mm": sum(lay.off, Fraction(0)),
        "taken": [
            {"width_mm": width, "count": taken}
            for (width, _), taken in zip(deck.stock, lay.counts, strict=True)
        ],
        "boards": [{"at_mm": b.at, "width_mm": b.width, "old": b.old} for b in boards],
    }


KIND = KindOfReckoning(
    "boards",
    "Boards that add up",
    (
        Ask("width", "width to fill", "length", fills="decided width"),
        Ask("stock", 'boards in stock: "12 x 3 7/8, 10 x 5 1/4 in"', "lengths", fills="widths"),
        Ask("overhang", "overhang at each side", "length", False, "0", fills="decided overhang"),
        Ask("gap", "gap between boards", "length", False, "0", fills="decided gap"),
        Ask("tolerance", "over or under by at most", "length", False, "0"),
        Ask("not_at_edge", "widths that may not lie at the edge", "lengths", needed=False),
        Ask("mirrored", "the same from both edges: yes or no", "yes", False, "no"),
        Ask("old", 'old boards in their places: "5 1/4 in at 12 in"', "measures", needed=False),
        Ask("tongue", "width of the tongue", "length", False, "0"),
        Ask("choose", "which of the ways", "count", False, "1"),
    ),
    _answer,
    way="choose",
)
