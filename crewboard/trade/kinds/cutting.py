"""Lengths cut from stock with the saw's kerf: the fewest boards, and how sure that is."""

from collections.abc import Mapping
from fractions import Fraction

from crewboard.plan.length import shown
from crewboard.plan.units import how_many
from crewboard.trade.cutting.order import ANY, Cutting, OneBoard, cutting
from crewboard.trade.cutting.plain_rule import bound, length_of, plain_rule
from crewboard.trade.cutting.solver import NoCuttingSolver, solve_cutting
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning, geometry

NOT_ENOUGH = "proven: every full way to cut a board was gone through"
NOT_FOUND = "by a plain rule: not proven that there is none"
KERF = geometry("n pieces from one board take their lengths and n - 1 cuts")


def _answer(given: Given) -> Reckoning:
    job = cutting(
        given.lengths("stock", alone=ANY), given.lengths("pieces"), given.length_or_nothing("kerf")
    )
    cut, least, how = _best(job)
    units = given.units
    if cut is None:
        said = "no way was found to cut all pieces from these boards"
        proven = how.startswith(NOT_ENOUGH)
        first = "the boards do not last for all pieces" if proven else said
        return Reckoning((first,), (how, _how_long(job, units)), (KERF,))
    taken = length_of(job, cut)
    proven = taken <= least
    count = sum(one.times for one in cut)
    wood = sum((job.mm(job.boards[one.board]) * one.times for one in cut), Fraction(0))
    used = sum((job.mm(p) * n for p, n in zip(job.pieces, job.wanted, strict=True)), Fraction(0))
    sure = "proven: no cutting takes less" if proven else _gap(job, taken, least, units)
    return Reckoning(
        (f"{how_many(count, 'board')}; {sure}", *(_told(job, one, units) for one in cut)),
        (how, f"{shown(used, units)} of pieces from {shown(wood, units)} of boards"),
        (KERF,),
        ("boards sound and square from end to end; ends that check are cut off before",),
        ("cut the longest first, and measure each from a squared end",),
        ("woodworking-machines",),
        _figures(job, cut, count, proven),
    )


def _best(job: Cutting) -> tuple[list[OneBoard] | None, int, str]:
    """The cutting, what none can do better than, and by what it was found."""
    cut, least = plain_rule(job), bound(job)
    by_rule = "by a plain rule: longest first, or the fullest board next"
    if cut is not None and length_of(job, cut) <= least:
        return cut, least, by_rule
    try:
        solved = solve_cutting(job, cut)
    except NoCuttingSolver:
        if cut is None:
            return None, least, f"{NOT_FOUND}, and no solver is installed that would look further"
        return cut, least, f"{by_rule}; a solver that would look further is not installed"
    if solved is None:
        return cut, least, f"{by_rule}; it is too much for the solver" if cut else NOT_FOUND
    if not solved.cut:
        return None, least, NOT_ENOUGH
    better = cut is None or length_of(job, solved.cut) <= length_of(job, cut)
    over = "every full way to cut a board" if solved.every else "the ways that pay to cut a board"
    least = max(least, solved.bound)
    return (solved.cut if better else cut), least, f"by a solver, over {over}"


def _how_long(job: Cutting, units: str) -> str:
    """How much of both there is, where there is an end of the stock."""
    wood = sum(job.mm(board) * have for board, have in zip(job.boards, job.stock, strict=True))
    used = sum(job.mm(p) * n for p, n in zip(job.pieces, job.wanted, strict=True))
    return f"{shown(Fraction(used), units)} of pieces, {shown(Fraction(wood), units)} of boards"


def _gap(job: Cutting, taken: int, least: int, units: str) -> str:
    if len(job.boards) == 1:
        return f"not proven: at least {-(-least // job.boards[0])}"
    return f"not proven: at most {shown((taken - least) * job.unit, units)} could be saved"


def _told(job: Cutting, one: OneBoard, units: str) -> str:
    """ "6 x 5600 mm: 2 x 2200 mm, 1 x 1150 mm; 44 mm left"."""
    pieces = [
        f"{n} x {shown(job.mm(size), units)}"
        for size, n in zip(job.pieces, one.pieces, strict=True)
        if n
    ]
    used = sum(size * n for size, n in zip(job.pieces, one.pieces, strict=True))
    left = max(Fraction(0), (job.boards[one.board] - used) * job.unit - job.kerf)
    rest = f"; {shown(left, units)} left" if left else ""
    return f"{one.times} x {shown(job.mm(job.boards[one.board]), units)}: {', '.join(pieces)}{rest}"


def _figures(job: Cutting, cut: list[OneBoard], count: int, proven: bool) -> Mapping[str, object]:
    return {
        "boards": count,
        "proven": proven,
        "cut": [
            {
                "board_mm": job.mm(job.boards[one.board]),
                "times": one.times,
                "pieces": [
                    {"length_mm": job.mm(size), "count": n}
                    for size, n in zip(job.pieces, one.pieces, strict=True)
                    if n
                ],
            }
            for one in cut
        ],
    }


KIND = KindOfReckoning(
    "cutting",
    "Lengths from stock",
    (
        Ask(
            "stock",
            'boards: "16 ft" for no end of them, or "10 x 16 ft, 4 x 12 ft"',
            "lengths",
            fills="stock",
        ),
        Ask("pieces", 'pieces: "7 x 2300 mm, 4 x 900 mm"', "lengths"),
        Ask("kerf", "kerf of the saw", "length", needed=False, otherwise="0"),
    ),
    _answer,
)
