"""Canvas for a roof, cut along its arc, with laps, tacks and the moulding over them."""

from fractions import Fraction

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import shown
from crewboard.plan.units import how_many
from crewboard.trade.arc import Arc
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.kinds.fastenings import fastenings
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, Source, geometry

CUT = geometry("cut = (along the arc + 2 x side turn) x (length + 2 x end turn)")
DUCK = Source(
    "numbered duck of number n weighs 1.5954 x (19 - n) ounces a square yard",
    "US Navy Seaman manual, three numbers",
    "verified",
)
BEDDED = Source(
    "canvas of 10 oz a square yard, edges lapped 1 in, 3/4 in tacks, was wetted and rubbed full of "
    "white lead and raw oil, not less than five days before two more coats (history, no recipe)",
    "a carpentry cyclopedia of about 1907",
    "verified",
)
CLOTHS = geometry("cloths side by side: n = ceil((L - lap) / (width - lap))")
TACKED = Source(
    "a canvas roof is tacked closely all round, and a moulding covers the tacks",
    "",
    "common practice",
)


def cloths(run: Fraction, width: Fraction, lap: Fraction) -> int:
    """How many cloths of a width, each lapped over the next, cover a run. Raises Unread."""
    if lap >= width:
        raise Unread("the lap is as wide as the cloth", "write a narrower lap")
    return max(1, int(-(-(run - lap) // (width - lap))))


def _answer(given: Given) -> Reckoning:
    across = _across(given)
    long, units = given.length("length"), given.units
    side, end = given.length_or_nothing("side_turn"), given.length_or_nothing("end_turn")
    cut, run = across + 2 * side, long + 2 * end
    round_it = 2 * (across + long)
    tacks = fastenings(round_it, given.length("tacks"), "closed")
    laid, figures = _laid(given, cut, run)
    return Reckoning(
        (
            f"cut {shown(cut, units)} across by {shown(run, units)} along",
            *laid,
            *_duck(given),
            f"{tacks} tacks all round",
            f"half-round moulding: {shown(round_it, units)}, and what the mitres take",
        ),
        (f"{shown(across, units)} along the arc, {shown(long, units)} long",),
        (CUT, CLOTHS, TACKED, BEDDED, *((DUCK,) if given.has("duck") else ())),
        ("the eaves are straight, the roof of one curve from end to end",),
        (
            "canvas draws in when it is painted or wetted: try a corner before it is trimmed",
            "old canvas was bedded in white lead: what comes off is lead until it is tested",
        ),
        ("lead-paint",),
        figures={
            "across_mm": cut,
            "along_mm": run,
            "area_m2": cut * run / 10**6,
            "tacks": tacks,
            "moulding_mm": round_it,
            **figures,
        },
    )


def _duck(given: Given) -> list[str]:
    """What a square yard of it weighs."""
    if not given.has("duck"):
        return []
    number = given.whole("duck")
    if not 1 <= number <= 12:
        raise Unread(f"there is no duck of number {number}", "write a number from 1 to 12")
    ounces = duck_ounces(number)
    return [f"number {number} duck: {number_shown(ounces)} oz a square yard"]


def duck_ounces(number: int) -> Fraction:
    """Ounces a square yard, see `DUCK`."""
    return Fraction("1.5954") * (19 - number)


def _across(given: Given) -> Fraction:
    """Along the arc: as measured over the roof, or from chord and rise."""
    if given.has("arc") and (given.has("chord") or given.has("rise")):
        raise Unread(
            "the roof is said in two ways", 'write "arc=...", or "chord=..." and "rise=..."'
        )
    if given.has("arc"):
        return given.length("arc")
    if not (given.has("chord") and given.has("rise")):
        raise Unread(
            "say how far it is over the roof", 'write "arc=...", or "chord=..." and "rise=..."'
        )
    return Fraction(Arc(given.length("chord"), given.length("rise")).length)


def _laid(given: Given, cut: Fraction, run: Fraction) -> tuple[list[str], dict[str, object]]:
    """Cloths of a width, side by side along the roof, or across it where it is said so."""
    if not given.has("cloth"):
        return [], {}
    width, lap = given.length("cloth"), given.length_or_nothing("lap")
    along = given.one_of("laid") == "along"
    count = cloths(cut if along else run, width, lap)
    each = run if along else cut
    way = "along the roof" if along else "across the roof"
    told = f"{how_many(count, 'cloth')} {way}, each {shown(each, given.units)} long"
    lapped = f", lapped {shown(lap, given.units)}" if count > 1 else ""
    bought = f": {shown(each * count, given.units)} of cloth in all"
    return [told + lapped + bought], {"cloths": count, "cloth_mm": each * count}


KIND = KindOfReckoning(
    "canvas",
    "Canvas for a roof",
    (
        Ask("length", "length of the roof", "length", fills="length"),
        Ask("chord", "width of the roof, straight across", "length", needed=False),
        Ask("rise", "and its rise in the middle", "length", needed=False),
        Ask("arc", "or as measured over the roof", "length", needed=False),
        Ask("side_turn", "turned down at each side", "length", needed=False, otherwise="0"),
        Ask("end_turn", "turned down at each end", "length", needed=False, otherwise="0"),
        Ask("cloth", "width of the cloth", "length", needed=False),
        Ask("lap", "lap of one cloth over the next", "length", needed=False, otherwise="0"),
        Ask("laid", "cloths across or along", "one of", False, "across", ("across", "along")),
        Ask("duck", "number of the duck", "count", needed=False),
        Ask("tacks", "tacks how far apart", "length"),
    ),
    _answer,
)
