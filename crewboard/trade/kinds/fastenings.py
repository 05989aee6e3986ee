"""How many nails, screws or tacks along a run."""

from fractions import Fraction

from crewboard.plan.length import shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, geometry

RULE = geometry(
    "open run: floor(L/s) + 1; no more than s apart: ceil(L/s) + 1; round a closed run: ceil(L/s)"
)
_OPEN, _AT_MOST, _CLOSED = "open", "at most", "closed"


def fastenings(run: Fraction, spacing: Fraction, how: str) -> int:
    """How many along a run: "open" leaves what is over at the end, "at most" spaces them evenly no
    further apart, "closed" goes round."""
    if how == _OPEN:
        return int(run // spacing) + 1
    return int(-(-run // spacing)) + (how == _AT_MOST)


def _answer(given: Given) -> Reckoning:
    run, spacing, how = given.length("length"), given.length("spacing"), given.one_of("run")
    rows, units = given.whole("rows"), given.units
    one = fastenings(run, spacing, how)
    spare = given.percent("spare")
    buy = -(-(one * rows * (100 + spare)) // 100)
    gaps = one if how == _CLOSED else one - 1
    apart = run / gaps if gaps and how != _OPEN else spacing
    over = run - spacing * gaps
    left = f", {shown(over, units)} left at the end" if how == _OPEN and over else ""
    in_rows = f", {one} in each of {rows} rows" if rows > 1 else ""
    spares = f"; with {number_shown(spare)} % spare {buy}" if spare else ""
    return Reckoning(
        (f"{one * rows}{in_rows}, {shown(apart, units)} apart{left}{spares}",),
        (f"{shown(run, units)}, {_words(how)} {shown(spacing, units)} apart",),
        (RULE,),
        figures={"count": one * rows, "apart_mm": apart, "with_spare": int(buy)},
    )


def _words(how: str) -> str:
    return {_OPEN: "from one end,", _AT_MOST: "both ends, no more than"}.get(how, "all round,")


KIND = KindOfReckoning(
    "fastenings",
    "Fastenings",
    (
        Ask("length", "length of the run", "length", fills="length"),
        Ask("spacing", "how far apart", "length"),
        Ask(
            "run",
            "open from one end, at most so far apart, or closed all round",
            "one of",
            needed=False,
            otherwise=_AT_MOST,
            words=(_OPEN, _AT_MOST, _CLOSED),
        ),
        Ask("rows", "how many rows", "count", needed=False, otherwise="1"),
        Ask("spare", "spare, in %", "percent", needed=False, otherwise="0"),
    ),
    _answer,
)
