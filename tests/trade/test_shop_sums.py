"""Coats, films, fastenings, canvas and setting out, against values with their sources."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import INCH
from crewboard.trade.given import exact
from crewboard.trade.kinds.canvas import cloths, duck_ounces
from crewboard.trade.kinds.fastenings import fastenings
from crewboard.trade.kinds.nails import PENNY
from crewboard.trade.measures import GALLON
from tests.long_form import cases
from tests.trade.reckoned import answer, figure, inches


def test_paint_for_an_area() -> None:
    """Recomputed: 800 sq ft, 2 coats, 350 sq ft a gallon, 10 % loss: 5.08, 6 tins."""
    paint = answer(
        "coats",
        "imperial",
        area="800 sq ft",
        coats="2",
        rate="350 sq ft/gal",
        loss="10",
        tin="1 gal",
    )
    litres = paint.figures["litres"]
    assert isinstance(litres, Fraction)
    assert round(float(litres / GALLON), 2) == 5.08
    assert paint.figures["tins"] == 6
    assert paint.result[0].startswith("about 5.08 gal: 6 tins of 1 gal, about 0.92 gal left over")


def test_recoat_and_cure_come_from_the_label_alone() -> None:
    bare = answer("coats", area="10 m2", coats="1", rate="8 m2/l")
    assert not any("label:" in line for line in bare.result)
    assert any("only the label says" in caution for caution in bare.cautions)
    told = answer(
        "coats",
        area="10 m2",
        coats="1",
        rate="8 m2/l",
        recoat="16 hours",
        cure="7 days",
        batch="B 7",
    )
    assert "the label: next coat after 16 hours, cured after 7 days, batch B 7" in told.result
    assert not any("only the label says" in caution for caution in told.cautions)
    with pytest.raises(Unread, match="all of it is lost"):
        answer("coats", area="10 m2", coats="1", rate="8 m2/l", loss="100")


def test_waits_of_old_books_are_history_and_nobodys_default() -> None:
    """Verified in the books themselves, all public domain: lead and oil, not the tins of today."""
    tin = {"area": "10 m2", "coats": "2", "rate": "8 m2/l"}
    today, old = answer("coats", **tin), answer("coats", **tin, history="yes")
    assert (today.result, today.figures) == (old.result, old.figures)
    assert not any("Burgess" in source.where for source in today.sources)
    told = " ".join(source.in_words for source in old.sources)
    for says in ("48 h", "24 h", "a day apart", "5 days", "8", "about 10", "twelve weeks", "1881"):
        assert says in told
    for sum_, coats in (((1, 2, 5, 1, 2, 1), 12), ((2, 2, 1), 5)):
        assert sum(sum_) == coats
        assert f"{' + '.join(map(str, sum_))} = {coats} coats" in told
    assert any("history, never for what is in the tin" in caution for caution in old.cautions)
    canvas = answer("canvas", length="6 m", arc="2 m", tacks="20 mm")
    (bedded,) = (s for s in canvas.sources if "white lead" in s.says)
    assert "not less than five days" in bedded.says
    assert "history" in bedded.says
    assert "lead-paint" in canvas.hazards


def test_wet_and_dry_film() -> None:
    """Verified worked examples of coating guides: 8 mil at 35 % -> 2.8 mil."""
    wet = answer("film", "imperial", wet="8 mil", solids="35")
    assert wet.figures["dry_um"] == Fraction("2.8") * INCH
    thinned = figure("film", "dry_um", wet="100 µm", solids="50", thinner="25")
    assert thinned == 40


def test_spreading_rate() -> None:
    """Verified: 65 %, 5 mil -> 208.5 sq ft; 65 %, 125 µm -> 5.2 m²; 52 %, 1.5 mil, 30 % -> 167."""
    assert figure("film", "spreading_m2_per_l", dry="125 µm", solids="65") == Fraction("5.2")
    five = answer("film", "imperial", dry="5 mil", solids="65")
    assert "about 208.5 sq ft a gallon" in five.result[1]
    sprayed = answer("film", "imperial", dry="1.5 mil", solids="52", transfer="30")
    assert "about 166.8 sq ft a gallon where 30 % arrives" in sprayed.result[1]
    full = figure("film", "spreading_m2_per_l", dry="1 mil", solids="100")
    square_feet = full * GALLON / (12 * INCH / 1000) ** 2
    assert round(float(square_feet), 2) == 1604.17  # recomputed: 231 cubic inches
    with pytest.raises(Unread, match="wet film or the dry"):
        answer("film", solids="50", wet="1 µm", dry="1 µm")


def test_fastenings_along_a_run() -> None:
    """Recomputed: 96 in at 1 in: 97 open, 96 closed."""
    run, step = 96 * INCH, INCH
    assert [fastenings(run, step, how) for how in ("open", "at most", "closed")] == [97, 97, 96]
    spare = answer("fastenings", length="96 in", spacing="1 in", run="open", rows="2", spare="5")
    assert (spare.figures["count"], spare.figures["with_spare"]) == (194, 204)


@drawn(st.fractions(1, 5_000), st.fractions(Fraction(1, 2), 500))
@cases(60, 1_000)
def test_fastenings_cover_the_run_and_are_no_further_apart(run: Fraction, step: Fraction) -> None:
    assert fastenings(run, step, "open") == floor(run / step) + 1
    even, closed = fastenings(run, step, "at most"), fastenings(run, step, "closed")
    assert run / (even - 1) <= step
    assert even == 2 or run / (even - 2) > step  # one fewer would be too far apart
    assert run / closed <= step
    assert closed == ceil(run / step)


def test_nails() -> None:
    """Second-hand: three times the board held (two texts), lengths of four tables."""
    nail = answer("nails", "imperial", thickness="3/4", behind="1")
    assert nail.figures["length_mm"] == Fraction(9, 4) * INCH
    assert nail.figures["penny"] == 7
    assert nail.figures["comes_through"] is True
    for penny, length in PENNY.items():
        if penny <= 10:
            assert length == Fraction(1, 2) + Fraction(penny, 4)
    longer = {12: "3 1/4", 16: "3 1/2", 20: "4", 30: "4 1/2", 40: "5", 60: "6"}
    assert {p: exact(inches) for p, inches in longer.items()} == {
        penny: length for penny, length in PENNY.items() if penny > 10
    }
    assert figure("nails", "penny", thickness="3 in") is None


def test_pilot_holes() -> None:
    """Verified (commentary, handbook): 90 and 70 % of a root of 2/3 the shank; recomputed for
    gauge 10 (0.190 in): root 0.127, hardwood 0.114, softwood 0.089."""
    hard = answer("pilot", gauge="10", wood="hardwood")
    assert inches(hard.figures["shank_mm"]) == pytest.approx(0.190)
    assert round(inches(hard.figures["root_mm"]), 3) == 0.127
    assert round(inches(hard.figures["hole_mm"]), 3) == 0.114
    assert round(inches(figure("pilot", "hole_mm", gauge="10", wood="soft")), 3) == 0.089
    assert "from memory" in {source.mark for source in hard.sources}  # the gauge's own rule
    with pytest.raises(Unread, match="say the screw"):
        answer("pilot", gauge="10", shank="5 mm", wood="soft")


def test_canvas_is_cut_along_the_arc() -> None:
    """Recomputed: arc 99.95 + 2 x 3 in = 105.95."""
    roof = answer(
        "canvas", "imperial", length="20 ft", chord="96", rise="12", side_turn="3", tacks="1"
    )
    assert round(inches(roof.figures["across_mm"]), 2) == 105.95
    assert roof.figures["tacks"] == ceil(2 * (99.951 + 240))
    assert roof.figures["moulding_mm"] == 2 * (
        roof.figures["across_mm"] - 6 * INCH + 240 * INCH  # type: ignore[operator]
    )


@drawn(st.fractions(100, 20_000), st.fractions(200, 3_000), st.fractions(0, 100))
@cases(60, 1_000)
def test_so_many_cloths_and_no_fewer_cover_the_run(
    run: Fraction, width: Fraction, lap: Fraction
) -> None:
    count = cloths(run, width, lap)
    assert count * width - (count - 1) * lap >= run
    assert count == 1 or (count - 1) * width - (count - 2) * lap < run


def test_numbered_duck() -> None:
    """Verified (a navy's manual): No. 1 28.71, No. 6 20.74, No. 12 11.16 ounces."""
    for number, ounces in ((1, "28.71"), (6, "20.74"), (12, "11.16")):
        assert abs(duck_ounces(number) - Fraction(ounces)) <= Fraction(1, 100)


def test_equal_spacing() -> None:
    nine = answer("spacing", length="2400 mm", count="9", width="20 mm")
    assert nine.figures["gap_mm"] == 222
    marks = nine.figures["marks_mm"]
    assert isinstance(marks, list)
    assert marks[0] == 222
    assert 2400 - marks[-1] - 20 == 222
    at_ends = figure("spacing", "marks_mm", length="96 in", gap="12 in", at_ends="yes")
    assert [mark / INCH for mark in at_ends] == [12 * number for number in range(9)]
    with pytest.raises(Unread, match="do not fit"):
        answer("spacing", length="100 mm", count="3", width="40 mm")


@drawn(st.integers(200, 5_000), st.integers(0, 60), st.integers(20, 400), st.booleans())
@cases(60, 1_000)
def test_the_widest_gap_is_kept_with_as_few_as_can_be(
    length: int, width: int, gap: int, at_ends: bool
) -> None:
    typed = {"length": f"{length} mm", "width": f"{width} mm", "gap": f"{gap} mm"}
    ends = "yes" if at_ends else "no"
    try:
        figures = answer("spacing", **typed, at_ends=ends).figures
    except Unread:
        return
    count = figures["count"]
    assert isinstance(count, int)
    least = 2 if at_ends else 1
    assert figures["gap_mm"] <= gap or count == least  # type: ignore[operator]
    gaps = count - 2 if at_ends else count
    if count > least and gaps:
        assert Fraction(length - (count - 1) * width, gaps) > gap


def test_a_roof_is_measured_in_one_way() -> None:
    with pytest.raises(Unread, match="two ways"):
        answer("canvas", length="6 m", arc="2540", chord="3 m", rise="20", tacks="20 mm")
