"""Heights round a frame, levelled from point to point: the best ones, and a wrong one found."""

from fractions import Fraction

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import length, shown
from crewboard.trade.adjust import AGREES, SQUARES, Adjusted, Levelled, adjusted, value
from crewboard.trade.chance import limit
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import number_shown
from crewboard.trade.reckoning import Reckoning, Source

_WRONG = 1.96
LARGE = Source(
    f"a residual of more than {_WRONG} of its own σ points to a wrong measurement (one in twenty)",
    "textbooks of adjustment",
    "verified",
)


def _answer(given: Given) -> Reckoning:
    units = given.units
    usual = given.length("tolerance") if given.has("tolerance") else None
    steps = given.each("steps", lambda part: _step(part, units, usual))
    fixed = dict(given.each("fixed", lambda part: _fixed(part, units)))
    if not steps:
        raise Unread("nothing was measured", "write A to B: 12 mm ± 1 mm")
    found = adjusted(steps, fixed)
    worst = max(range(len(steps)), key=found.normalized.__getitem__)
    return Reckoning(
        (
            _first(found),
            *(
                f"{point}: {_signed(height, units)} ± {shown(Fraction(found.sigmas[point]), units)}"
                for point, height in found.heights.items()
                if point in found.sigmas
            ),
            *_doubted(found, steps, worst),
        ),
        (_against(found),),
        (SQUARES, LARGE),
        ("each step measured by itself, its tolerance one standard deviation",),
        figures={
            "agrees": found.agrees,
            "heights_mm": dict(found.heights),
            "sigmas_mm": dict(found.sigmas),
            "chi_squared": found.chi_squared,
            "degrees": found.degrees,
            "largest": found.normalized[worst],
            "largest_at": worst + 1,
        },
    )


def _first(found: Adjusted) -> str:
    if not found.degrees:
        return "nothing is measured twice: a mistake would not show"
    return "the heights agree" if found.agrees else "the heights disagree: measure again"


def _step(typed: str, units: str, usual: Fraction | None) -> Levelled:
    """ "A to B: -12 mm ± 1 mm": B lies 12 mm below A."""
    ends, colon, up = typed.partition(":")
    start, to, end = ends.partition(" to ")
    if not (colon and to and start.strip() and end.strip()) or start.strip() == end.strip():
        raise Unread(f'"{typed}" is no step', "write A to B: -12 mm ± 1 mm")
    sign, measured = _sign(up)
    read = value(measured, units, usual)
    return Levelled(start.strip(), end.strip(), sign * read.mm, read.sigma)


def _fixed(typed: str, units: str) -> tuple[str, Fraction]:
    point, equals, height = typed.partition("=")
    sign, measured = _sign(height or "0")
    if not point.strip():
        raise Unread(f'"{typed}" is no fixed point', "write A, or A = 100 mm")
    return point.strip(), sign * length(measured, units).mm if equals else Fraction(0)


def _sign(typed: str) -> tuple[int, str]:
    text = typed.strip().replace("−", "-")
    return (-1 if text.startswith("-") else 1), text.lstrip("+-").strip()


def _signed(mm: Fraction, units: str) -> str:
    return f"{'-' if mm < 0 else ''}{shown(abs(mm), units)}"


def _doubted(found: Adjusted, steps: list[Levelled], worst: int) -> list[str]:
    if found.normalized[worst] <= _WRONG:
        return []
    step = steps[worst]
    return [f"look again at {step.start} to {step.end}"]


def _against(found: Adjusted) -> str:
    if not found.degrees:
        return "as many steps as points"
    most = number_shown(limit(AGREES, found.degrees))
    return f"chi-squared {number_shown(found.chi_squared)} with {found.degrees}, limit {most}"


KIND = KindOfReckoning(
    "levels",
    "Heights, levelled round",
    (
        Ask("steps", 'steps: "A to B: -12 mm ± 1 mm; B to C: 3 mm ± 1 mm"', "heights"),
        Ask("fixed", 'points whose height is known: "A", "A = 100 mm; D = 104 mm"', "heights"),
        Ask("tolerance", "tolerance of those that say none", "length", needed=False),
    ),
    _answer,
)
