"""Boards that add up: every way and no other, ranked as a joiner wants, drawn to scale."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import INCH
from crewboard.trade.boards.combine import nearest, ways
from crewboard.trade.boards.drawn import (
    drawn_as_svg,
    drawn_boards,
    drawn_in_characters,
    drawn_with_widths,
    in_ascii,
)
from crewboard.trade.boards.layout import Lay, lays
from crewboard.trade.boards.wanted import Deck, Old
from tests.long_form import cases
from tests.trade.reckoned import answer

# Widths 7 1/2, 5 1/4, 3 7/8 in, of which there are 6, 10 and 12; the ways counted from the narrow.
STOCK = ((Fraction(15, 2) * INCH, 6), (Fraction(21, 4) * INCH, 10), (Fraction(31, 8) * INCH, 12))
EIGHTH = INCH / 8


def counted(lays_: Iterable[Lay]) -> set[tuple[int, ...]]:
    return {lay.counts[::-1] for lay in lays_}


def test_published_combinations() -> None:
    """Recomputed, all counts gone through: exact, and within 1/8 in over (+) or under (-)."""
    exact = {
        96: {(12, 8, 1)},
        92: {(4, 6, 6), (10, 3, 5)},
        88: {(8, 8, 2)},
        90: {(0, 10, 5), (6, 7, 4), (12, 4, 3)},
    }
    near = {
        96: {(1, 9, 6): 1, (5, 6, 6): -1, (7, 6, 5): 1, (11, 3, 5): -1},
        92: {(9, 8, 2): -1, (11, 8, 1): 1},
        88: {(3, 6, 6): 1, (7, 3, 6): -1, (9, 3, 5): 1},
        90: {(11, 9, 0): -1},
    }
    for width, wanted in exact.items():
        assert counted(lays(Deck(width * INCH, STOCK)).within) == wanted
        found = lays(Deck(width * INCH, STOCK, tolerance=EIGHTH)).within
        assert counted(found[: len(wanted)]) == wanted  # what is exact comes first
        rest = {lay.counts[::-1]: lay.off[0] / EIGHTH for lay in found[len(wanted) :]}
        assert rest == near[width]


def test_a_mirrored_layout_has_at_most_one_odd_count() -> None:
    """Recomputed: at 96 the exact one and 5,6,6; at 92 4,6,6 and 9,8,2; at 88 8,8,2 and 3,6,6."""
    mirrored = {96: {(12, 8, 1), (5, 6, 6)}, 92: {(4, 6, 6), (9, 8, 2)}, 88: {(8, 8, 2), (3, 6, 6)}}
    for width, wanted in mirrored.items():
        found = lays(Deck(width * INCH, STOCK, tolerance=EIGHTH, mirrored=True)).within
        assert counted(found) == wanted
        assert all(lay.is_mirrored for lay in found)


def test_subset_sums() -> None:
    """Verified: Burkardt's data (LGPL): {15,22,14,26,32,9,16,8} to 53 in three ways, and one of ten
    numbers to 5842 (a second of it)."""
    numbers = [15, 22, 14, 26, 32, 9, 16, 8]
    found = {
        frozenset(n for n, one in zip(numbers, way, strict=True) if one)
        for way in ways(numbers, [1] * 8, 53)
    }
    assert found == {frozenset(s) for s in ({15, 22, 16}, {15, 14, 16, 8}, {22, 14, 9, 8})}
    large = [267, 493, 869, 961, 1000, 1153, 1246, 1598, 1766, 1922]
    wanted = {869, 961, 1000, 1246, 1766}
    assert {
        frozenset(n for n, one in zip(large, way, strict=True) if one)
        for way in ways(large, [1] * 10, 5842)
    } >= {frozenset(wanted)}


SMALL = st.lists(st.tuples(st.integers(1, 12), st.integers(0, 4)), min_size=1, max_size=4)


@drawn(SMALL, st.integers(0, 60), st.integers(0, 3))
@cases(100, 1_500)
def test_the_ways_are_those_of_brute_force(
    stock: list[tuple[int, int]], wanted: int, tolerance: int
) -> None:
    sizes, counts = [s for s, _ in stock], [n for _, n in stock]
    every = [
        (way, sum(s * n for s, n in zip(sizes, way, strict=True)))
        for way in product(*(range(n + 1) for n in counts))
    ]
    low, high = wanted - tolerance, wanted + tolerance
    fitting = [way for way, total in every if low <= total <= high]
    found = list(ways(sizes, counts, wanted, tolerance))
    assert sorted(found) == sorted(fitting)
    off = [abs(sum(s * n for s, n in zip(sizes, way, strict=True)) - wanted) for way in found]
    assert off == sorted(off)
    under = max((t for _, t in every if t <= wanted), default=None)
    over = min((t for _, t in every if t > wanted), default=None)
    assert nearest(sizes, counts, wanted) == (under, over)


WIDTHS = st.lists(
    st.tuples(st.sampled_from([3, 4, 5, 7]), st.integers(1, 4)),
    min_size=1,
    max_size=3,
    unique_by=lambda pair: pair[0],
)


@drawn(WIDTHS, st.integers(4, 40), st.integers(0, 1), st.integers(0, 2), st.data())
@cases(100, 1_500)
def test_layouts_keep_what_is_asked(
    stock: list[tuple[int, int]], width: int, gap: int, tolerance: int, data: st.DataObject
) -> None:
    banned = data.draw(st.sets(st.sampled_from([w for w, _ in stock]), max_size=1))
    old = tuple(
        Old(Fraction(at), Fraction(wide))
        for at, wide in data.draw(
            st.sampled_from([(), ((0, 5),), ((6, 4),), ((6, 4), (16, 3)), ((width - 4, 4),)])
        )
    )
    mirrored = data.draw(st.booleans()) and not old
    deck = Deck(
        Fraction(width),
        tuple((Fraction(w), n) for w, n in stock),
        Fraction(gap),
        Fraction(tolerance),
        frozenset(map(Fraction, banned)),
        mirrored,
        old,
    )
    try:
        found = lays(deck)
    except Unread:
        assert any(stretch < 0 for stretch in deck.stretches)
        return
    for lay in found.within:
        new = [w for w, is_old in lay.boards if not is_old]
        assert [new.count(w) for w, _ in deck.stock] == list(lay.counts)
        assert all(n <= have for n, (_, have) in zip(lay.counts, deck.stock, strict=True))
        total = sum(w for w, _ in lay.boards) + gap * (len(lay.boards) - 1)
        assert total - width == sum(lay.off)
        assert all(abs(off) <= tolerance for off in lay.off)
        for outer, is_old in (lay.boards[0], lay.boards[-1]):
            assert is_old or outer not in deck.not_at_edge
        assert lay.is_mirrored or not mirrored
        placed = drawn_boards(lay, deck.gap)
        assert [Old(b.at, b.width) for b in placed if b.old] == list(old)
    if not old:  # every way that may be laid is there: brute force over the counts
        every = product(*(range(n + 1) for _, n in deck.stock))
        may = {way: _off(deck, way) for way in every if _may_be(deck, way)}
        fitting = {way for way, off in may.items() if abs(off) <= tolerance}
        assert {lay.counts for lay in found.within} == fitting
        if not fitting:  # and where none fits, the nearest of those that may be laid
            under = max((off for off in may.values() if off < 0), default=None)
            over = min((off for off in may.values() if off > 0), default=None)
            near = {sum(lay.off) for lay in found.near}
            assert under is None or under in near
            assert over is None or over in near or over > 2 * max(w + gap for w, _ in stock)
            assert near <= {under, over}


def _off(deck: Deck, way: tuple[int, ...]) -> Fraction:
    total = sum((w * n for (w, _), n in zip(deck.stock, way, strict=True)), Fraction(0))
    return total + deck.gap * (sum(way) - 1) - deck.width


def _may_be(deck: Deck, way: tuple[int, ...]) -> bool:
    count = sum(way)
    if not count:
        return False
    edge = [n for (w, _), n in zip(deck.stock, way, strict=True) if w not in deck.not_at_edge and n]
    if count == 1:
        return bool(edge)
    if deck.mirrored:
        return sum(n % 2 for n in way) <= 1 and any(n > 1 for n in edge)
    return sum(edge) > 1


def test_what_cannot_be_meant_is_refused_and_one_board_is_ripped_by_itself() -> None:
    typed = {"width": "90 mm", "stock": "3 x 100 mm"}
    assert answer("boards", **typed).result[1] == "to fit: rip it to 90 mm"
    for absurd in ({"gap": "3 m"}, {"tolerance": "100 mm"}, {"not_at_edge": "98 mm"}):
        with pytest.raises(Unread, match=r"as wide as a board|no board of 98 mm"):
            answer("boards", **typed, **absurd)
    short = answer("boards", width="1 m", stock="3 x 100 mm")
    assert short.result[1] == "all of the stock lies there: 700 mm of boards are missing"


def test_edges_are_of_one_width_and_wide_before_all_but_fit() -> None:
    found = lays(Deck(90 * INCH, STOCK, tolerance=EIGHTH)).within
    assert [lay.exact for lay in found] == [True, True, True, False]
    left, right = found[0].edges
    assert left == right == Fraction(15, 2) * INCH
    kept = lays(Deck(90 * INCH, STOCK, not_at_edge=frozenset({left}))).within
    assert all(lay.edges[0] == Fraction(21, 4) * INCH for lay in kept)


def test_a_deck_of_one_width_is_ripped_or_short() -> None:
    """Recomputed: 96 in of 3.125 in boards: 30 and a rip of 2.25; tongue and groove takes 31."""
    deck = answer("boards", "imperial", width="96", stock="40 x 3 1/8", tongue="1/4")
    assert deck.result[0] == "31 of 3 1/8 in: 7/8 in over, the same from both edges"
    assert "to fit: rip both edge boards to 2 11/16 in, or one to 2 1/4 in" in deck.result
    assert any("30 of 3 1/8 in: 2 1/4 in under" in line for line in deck.further)
    assert "31 boards, 104 5/8 in wide in all with their tongues" in deck.result
    narrow = answer("boards", "imperial", width="94", stock="40 x 3 1/8", choose="2")
    # 1/4 in would be left of one board, less than half: the cut is shared.
    assert "to fit: rip both edge boards to 1 11/16 in" in narrow.result


def test_the_overhang_is_added_at_both_sides_and_a_way_can_be_chosen() -> None:
    typed = {"width": "94", "overhang": "1", "stock": "12 x 3 7/8, 10 x 5 1/4, 6 x 7 1/2"}
    first = answer("boards", "imperial", **typed, tolerance="1/8")
    assert first.figures["deck_mm"] == 96 * INCH
    second = answer("boards", "imperial", **typed, tolerance="1/8", choose="2")
    assert second.result[0] == first.further[0].removeprefix("way 2: ")
    with pytest.raises(Unread, match="no way 9"):
        answer("boards", "imperial", **typed, tolerance="1/8", choose="9")


def test_old_boards_that_nothing_fits_beside_are_named() -> None:
    typed = {"width": "96", "stock": "12 x 3 7/8, 10 x 5 1/4, 6 x 7 1/2"}
    stuck = answer("boards", "imperial", **typed, old="7 1/2 at 1")
    assert stuck.result[0].endswith("1 in under between 0 in and 1 in")
    assert "none within the tolerance" in stuck.result[1]
    with pytest.raises(Unread, match="overlap"):
        answer("boards", "imperial", **typed, old="7 1/2 at 1, 5 1/4 at 3")
    with pytest.raises(Unread, match="not mirrored"):
        answer("boards", "imperial", **typed, old="7 1/2 at 1", mirrored="yes")


@drawn(WIDTHS, st.integers(20, 60), st.integers(20, 100))
@cases(60, 800)
def test_the_drawing_is_to_scale_and_no_wider_than_the_terminal(
    stock: list[tuple[int, int]], width: int, columns: int
) -> None:
    stocked = tuple((Fraction(w * 10), n + 3) for w, n in stock)
    found = lays(Deck(Fraction(width * 10), stocked, tolerance=Fraction(50)))
    for lay in (*found.within, *found.near)[:3]:
        boards = drawn_boards(lay, Fraction(0))
        lines = drawn_in_characters(boards, columns)
        assert all(len(line) <= columns for line in lines)
        letters = re.sub(r"[^A-Z]", "", "".join(lines[1::4] if "from" in lines[0] else [lines[1]]))
        shown = "".join(line for line in lines if line.startswith("│"))
        assert re.sub(r"[^A-Z]", "", shown) == "".join(b.letter for b in boards), letters
        assert not set("".join(in_ascii(lines))) & set("┌┬┐│└┴┘─")


def test_equal_boards_are_drawn_equal_and_a_wider_one_wider() -> None:
    lay = lays(Deck(Fraction(600), ((Fraction(200), 1), (Fraction(100), 4)))).within[0]
    top = drawn_in_characters(drawn_boards(lay, Fraction(0)), 61)[0]
    assert [len(part) for part in re.findall("─+", top)] == [9, 9, 19, 9, 9]


def test_the_svg_is_to_scale_and_says_what_it_shows() -> None:
    drawing = answer(
        "boards",
        "imperial",
        width="96",
        stock="12 x 3 7/8, 10 x 5 1/4, 6 x 7 1/2",
        old="5 1/4 at 0",
        tolerance="1/8",
    )
    svg = drawn_as_svg(drawing.laid, "imperial", drawing.result[0])
    widths = [float(w) for w in re.findall(r'width="([\d.]+)" height="60"', svg)]
    assert sum(widths) == pytest.approx(680, abs=1)  # the picture between its margins
    boards = drawing.figures["boards"]
    assert isinstance(boards, list)
    shares = [float(board["width_mm"]) for board in boards]
    assert widths == pytest.approx([w / sum(shares) * 680 for w in shares], abs=0.02)
    assert drawing.result[0] in svg
    assert svg.count(">old<") == 1


def test_what_is_off_by_less_than_is_shown_is_neither_nothing_nor_ripped() -> None:
    """A gap of 3 mm among inches: 2 x 6 in and the gap are 307.8 mm, 12 1/8 in are 307.975."""
    laid = answer("boards", "imperial", width="12 1/8", gap="3 mm", stock="2 x 6 in")
    assert "less than 1/32 in under" in laid.result[0]
    assert any("less than a saw cuts" in line for line in laid.result)
    metric = answer("boards", width="203.02 mm", gap="3 mm", stock="2 x 100 mm")
    assert "less than 0.1 mm under" in metric.result[0]


def test_the_letters_are_told_in_as_few_lines_as_they_fit() -> None:
    laid = answer(
        "boards", width="600 mm", stock="2 x 150, 3 x 100 mm", old="100 mm at 200 mm"
    ).laid
    assert drawn_with_widths(laid, "metric", 76)[3:] == (
        "A 150 mm x 2   B 100 mm x 3   ° an old board in its place",
    )
    narrow = drawn_with_widths(laid, "metric", 30)[3:]
    assert len(narrow) == 2
    assert all(len(line) <= 30 for line in narrow)
