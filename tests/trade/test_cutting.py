"""Lengths from stock, against published and proven instances and brute force."""

from __future__ import annotations

import json
import sys
from collections import Counter
from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from crewboard.plan.as_typed import Unread
from crewboard.trade.cutting.columns import columns
from crewboard.trade.cutting.order import ANY, Cutting, OneBoard, cutting
from crewboard.trade.cutting.plain_rule import bound, length_of, plain_rule
from crewboard.trade.cutting.solver import solve_cutting, ways_to_cut
from tests.long_form import cases
from tests.trade.reckoned import answer

# rafaelmartinelli/BPPLib.jl (MIT): the least number of boards, proven by another solver.
SMALL = json.loads((Path(__file__).parent / "cutting_small.json").read_text(encoding="utf-8"))


def job(stock: int, pieces: Iterable[int], kerf: int = 0, have: int = ANY) -> Cutting:
    counted = [(Fraction(p), n) for p, n in Counter(pieces).items()]
    return cutting([(Fraction(stock), have)], counted, Fraction(kerf))


def is_right(wanted: Cutting, cut: list[OneBoard]) -> bool:
    """Every piece is cut as often as it is wanted, no board is overfull or more than there are."""
    made = [0] * len(wanted.pieces)
    taken = Counter[int]()
    for one in cut:
        taken[one.board] += one.times
        used = sum(size * n for size, n in zip(wanted.pieces, one.pieces, strict=True))
        assert used <= wanted.boards[one.board]
        made = [have + n * one.times for have, n in zip(made, one.pieces, strict=True)]
    assert all(not have or taken[b] <= have for b, have in enumerate(wanted.stock))
    return made == list(wanted.wanted)


@pytest.mark.parametrize("case", SMALL, ids=lambda case: case["name"])
def test_small_published_instances(case: dict[str, object]) -> None:
    pieces, stock = case["pieces"], case["stock"]
    assert isinstance(pieces, list)
    assert isinstance(stock, int)
    wanted = job(stock, pieces)
    by_rule = plain_rule(wanted)
    assert by_rule is not None
    solved = solve_cutting(wanted, by_rule)
    assert solved is not None
    assert is_right(wanted, by_rule)
    assert is_right(wanted, solved.cut)
    least = case["least"]
    assert length_of(wanted, solved.cut) == least * wanted.boards[0]  # type: ignore[operator]
    assert solved.bound == length_of(wanted, solved.cut)
    assert bound(wanted) <= solved.bound <= length_of(wanted, by_rule)


def test_a_widely_published_instance() -> None:
    """Verified: 5,600 mm, 13 lengths, 219 pieces: 73 boards; all together fill 72.71."""
    pieces = (
        "22 x 1380, 25 x 1520, 12 x 1560, 14 x 1710, 18 x 1820, 18 x 1880, 20 x 1930, 10 x 2000, "
        "12 x 2050, 14 x 2100, 16 x 2140, 18 x 2150, 20 x 2200"
    )
    cut = answer("cutting", stock="5600 mm", pieces=pieces)
    assert cut.figures["boards"] == 73
    assert cut.figures["proven"] is True
    assert cut.result[0] == "73 boards; proven: no cutting takes less"


def test_a_classic_of_the_textbooks() -> None:
    """From memory, proven anew by the solver: stock 100, 45 x 97, 36 x 610, 31 x 395, 14 x 211."""
    cut = answer("cutting", stock="100 mm", pieces="97 x 45, 610 x 36, 395 x 31, 211 x 14")
    assert (cut.figures["boards"], cut.figures["proven"]) == (453, True)


def test_the_kerf_is_counted_between_pieces_only() -> None:
    """Four pieces of 600 and three cuts of 4 need 2412; the last cut may fall outside."""
    assert answer("cutting", stock="2412", pieces="4 x 600", kerf="4").figures["boards"] == 1
    assert answer("cutting", stock="2411", pieces="4 x 600", kerf="4").figures["boards"] == 2
    told = answer("cutting", stock="2500", pieces="4 x 600", kerf="4")
    assert told.result[1] == "1 x 2500 mm: 4 x 600 mm; 84 mm left"


def test_without_the_solver_a_plain_rule_cuts_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ortools", None)
    monkeypatch.setitem(sys.modules, "ortools.sat.python", None)
    case = next(case for case in SMALL if case["name"] == "PM_u020_04")
    pieces = ", ".join(f"{n} x {p}" for p, n in Counter(case["pieces"]).items())
    cut = answer("cutting", stock=str(case["stock"]), pieces=pieces)
    assert cut.result[0] == "8 boards; not proven: at least 7"
    assert "not installed" in cut.how[0]
    assert cut.figures["proven"] is False
    easy = answer("cutting", stock="100", pieces="4 x 50")  # its own bound proves it
    assert easy.result[0] == "2 boards; proven: no cutting takes less"


def test_stock_that_does_not_last_is_said() -> None:
    short = answer("cutting", stock="2 x 100", pieces="5 x 50")
    assert short.result == ("the boards do not last for all pieces",)
    assert short.how[0].startswith("proven")
    assert short.how[1] == "250 mm of pieces, 200 mm of boards"
    with pytest.raises(Unread, match="longer than every board"):
        answer("cutting", stock="100", pieces="101")


def test_of_several_lengths_the_least_wood_is_taken() -> None:
    cut = answer("cutting", stock="4 x 3600, 2400", pieces="2 x 1100, 3600")
    boards = cut.figures["cut"]
    assert isinstance(boards, list)
    assert sorted(board["board_mm"] for board in boards) == [2400, 3600]


def test_published_instances_with_more_ways_than_can_be_gone_through() -> None:
    """Falkenauer, 1996, of the OR-Library: 120 pieces in 48 boards of 150 (u120_00) and 60 in 20 of
    1000, each of them full (t60_00). Bounds verified by rafaelmartinelli/BPPLib.jl."""
    for case in json.loads((Path(__file__).parent / "cutting_many_ways.json").read_text("utf-8")):
        wanted = job(case["stock"], case["pieces"])
        assert ways_to_cut(wanted) is None
        solved = solve_cutting(wanted, plain_rule(wanted))
        assert solved is not None
        assert is_right(wanted, solved.cut)
        least = case["least"] * wanted.boards[0]
        assert length_of(wanted, solved.cut) == least
        assert least - wanted.boards[0] < solved.bound <= least


PIECES = st.lists(st.integers(1, 10), min_size=1, max_size=6)


@drawn(PIECES, st.integers(0, 2), st.lists(st.integers(8, 14), min_size=1, max_size=2, unique=True))
@cases(40, 2_000)
def test_the_solver_finds_what_brute_force_finds(
    pieces: list[int], kerf: int, boards: list[int]
) -> None:
    if max(pieces) > max(boards):
        return
    counted = [(Fraction(p), n) for p, n in Counter(pieces).items()]
    wanted = cutting([(Fraction(b), ANY) for b in boards], counted, Fraction(kerf))
    by_rule = plain_rule(wanted)
    assert by_rule is not None
    assert is_right(wanted, by_rule)
    solved = solve_cutting(wanted, by_rule)
    assert solved is not None
    assert is_right(wanted, solved.cut)
    least = fewest(sorted(pieces, reverse=True), kerf, boards)
    assert length_of(wanted, solved.cut) * wanted.unit == least
    assert bound(wanted) * wanted.unit <= least
    found = columns(wanted, [(one.board, one.pieces) for one in by_rule])
    assert found is not None
    assert found.bound * wanted.unit <= least  # proven in whole numbers, however the prices come


def fewest(pieces: list[int], kerf: int, boards: list[int]) -> int:
    """The least of board lengths, each a kerf longer, over every way to share out the pieces."""
    best = len(pieces) * (max(boards) + kerf)

    def onward(number: int, groups: list[int]) -> None:
        nonlocal best
        if number == len(pieces):
            sizes = [min((b for b in boards if b + kerf >= g), default=None) for g in groups]
            if None not in sizes:
                best = min(best, sum(size + kerf for size in sizes if size is not None))
            return
        size = pieces[number] + kerf
        for at, full in enumerate(groups):
            if full + size <= max(boards) + kerf:
                onward(number + 1, [*groups[:at], full + size, *groups[at + 1 :]])
        onward(number + 1, [*groups, size])

    onward(0, [])
    return best
