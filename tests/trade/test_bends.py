"""Arcs, forms, springback, stretch and steaming, against values with their sources."""

from __future__ import annotations

from fractions import Fraction
from math import degrees, isclose

import numpy as np
import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import INCH, Length
from crewboard.trade.arc import Arc, arc_of
from crewboard.trade.chance import within
from crewboard.trade.kinds.form import SHARPER
from crewboard.trade.kinds.steaming import OUTSIDE
from crewboard.trade.springback import Bend, bend_of, bends_of, fit, laminated_ratio
from tests.long_form import cases
from tests.trade.reckoned import answer, figure, inches, steamed

C, S = 96 * INCH, 12 * INCH


def test_arc_from_chord_and_rise() -> None:
    """Recomputed: c 96, s 12 -> R 102, 56.145 degrees, 99.951 along the arc."""
    arc = Arc(C, S)
    assert arc.radius == 102 * INCH
    assert round(degrees(arc.angle), 3) == 56.145
    assert round(inches(arc.length), 3) == 99.951


def test_heights_along_the_arc_are_those_of_a_circle_not_of_a_parabola() -> None:
    """Recomputed, in inches from the middle; a parabola would give 11.25, 9, 5.25."""
    heights = answer("arc", "imperial", chord="96", rise="12", every="12").figures["heights"]
    assert isinstance(heights, list)
    told = [round(inches(one["height_mm"]), 3) for one in heights]
    assert told == [12, 11.292, 9.136, 5.436, 0]


def test_the_last_height_is_at_the_end_whatever_the_step() -> None:
    heights = figure("arc", "heights", chord="1000 mm", rise="100 mm", every="300 mm")
    assert [one["from_middle_mm"] for one in heights] == [0, 300, 500]


def test_more_than_half_a_circle_is_measured_all_the_way_round() -> None:
    """A chord of 6 in a circle of radius 5: rises 9 one way and 1 the other (3-4-5 triangle)."""
    low, high = Arc(Fraction(6), Fraction(1)), Arc(Fraction(6), Fraction(9))
    assert low.radius == high.radius == 5
    assert isclose(low.length + high.length, 10 * np.pi)
    with pytest.raises(Unread, match="half a circle"):
        answer("arc", chord="6 mm", rise="9 mm", every="1 mm")


@drawn(st.integers(10, 4_000), st.integers(1, 60))
@cases(60, 5_000)
def test_an_arc_comes_back_from_its_radius_and_ends_where_its_chord_does(
    chord: int, share: int
) -> None:
    arc = Arc(Fraction(chord), Fraction(chord * share, 200))
    back = arc_of(arc.radius, arc.chord)
    assert back is not None
    assert back.rise == arc.rise  # exact: the root is one of a fraction
    across, height, _ = arc.along(arc.length)
    assert isclose(across, chord, abs_tol=1e-6 * chord)
    assert isclose(height, 0, abs_tol=1e-6 * chord)
    middle, top, slope = arc.along(arc.length / 2)
    assert isclose(middle, chord / 2)
    assert isclose(top, arc.rise)
    assert isclose(slope, 0, abs_tol=1e-9)


# --- springback -----------------------------------------------------------------------------------


def test_without_a_bend_it_asks_for_a_test_piece() -> None:
    """Second-hand: no published constant, a test piece of the same stock decides."""
    reckoned = answer("form", species="white ash", thickness="1 in", radius="102 in")
    assert reckoned.result == ("no published springback: bend a test piece of the same stock",)
    assert reckoned.figures["form_radius_mm"] is None


def test_one_bend_gives_its_ratio_and_says_that_it_is_one() -> None:
    """Second-hand, recomputed: form 50, came to 55: k 0.909; wanted 102: form 92.7."""
    bends = ("white ash, 1 in thick, form 50 in, came to 55 in",)
    reckoned = answer("form", "imperial", bends, species="White  Ash", thickness="1", radius="102")
    assert reckoned.figures["ratio"] == Fraction(50, 55)
    assert round(inches(reckoned.figures["form_radius_mm"]), 1) == 92.7
    assert any(line.startswith("one bend:") for line in reckoned.how)
    assert not any("nine in ten" in line for line in reckoned.result)
    typed = answer(
        "form",
        "imperial",
        species="ash",
        thickness="1",
        radius="102",
        test_form="50",
        test_came_to="55",
    )
    assert typed.figures["form_radius_mm"] == reckoned.figures["form_radius_mm"]


def test_one_species_says_nothing_of_another() -> None:
    bends = ("red oak, 1 in thick, form 50 in, came to 90 in",)
    reckoned = answer("form", "imperial", bends, species="white ash", thickness="1", radius="102")
    assert reckoned.figures["bends"] == 0
    plies = (bend_of("white ash, 4 plies, 1 in thick, form 50 in, came to 53 in"),)
    assert bends_of(plies, "white ash") == []
    assert bends_of(plies, "white ash", 4) == [plies[0]]


def test_beyond_the_tried_thickness_or_radius_it_says_so() -> None:
    bends = ("white ash, 1 in thick, form 90 in, came to 100 in",)
    same = answer("form", "imperial", bends, species="white ash", thickness="1", radius="100")
    assert not any("tried was" in line for line in same.cautions)
    for thickness, radius, word in (("1 1/2", "100", "thickness"), ("1", "60", "radius")):
        beyond = answer(
            "form", "imperial", bends, species="white ash", thickness=thickness, radius=radius
        )
        assert any(line.startswith(word) and "tried was" in line for line in beyond.cautions)


def test_days_and_storage_of_the_bends_are_assumed_and_said() -> None:
    bends = (
        "ash, 26 mm thick, form 1 m, came to 1.1 m, 3 days after, stored loft, dry",
        "ash, 26 mm thick, form 1 m, came to 1.12 m, 30 days after, stored shed",
    )
    reckoned = answer("form", "metric", bends, species="ash", thickness="26 mm", radius="1 m")
    assert "as measured 3 to 30 days after the release" in reckoned.assumes
    assert "stored as those were: loft, dry; shed" in reckoned.assumes
    assert any("2 bends" in line and "from 3 on" in line for line in reckoned.how)


RADII = st.floats(300, 3_000).map(lambda mm: round(mm, 1))


@drawn(st.lists(st.tuples(RADII, st.floats(0.8, 0.99)), min_size=3, max_size=12), RADII)
@cases(40, 2_000)
def test_the_fit_is_that_of_numpys_least_squares(
    bends: list[tuple[float, float]], wanted: float
) -> None:
    """Reference: numpy.linalg.lstsq of a line through the origin, and its prediction interval."""
    own = [
        Bend("ash", mm("26"), mm(str(form)), mm(str(round(form / ratio, 1))))
        for form, ratio in bends
    ]
    found = fit(own)
    assert found is not None
    x = np.array([[1 / float(b.form.mm)] for b in own])
    y = np.array([1 / float(b.came_to.mm) for b in own])
    slope, *_ = np.linalg.lstsq(x, y, rcond=None)
    assert isclose(float(found.ratio), slope[0], rel_tol=1e-9)
    spread = np.sqrt(((y - x[:, 0] * slope[0]) ** 2).sum() / (len(own) - 1))
    assert found.spread is not None
    assert isclose(found.spread, spread, rel_tol=1e-6, abs_tol=1e-12)
    form = found.form(Fraction(str(wanted)))
    reach = found.next_radius(form)
    assert reach is not None
    at = 1 / float(form)
    off = within(0.9, len(own) - 1) * spread * np.sqrt(1 + at**2 / (x**2).sum())
    assert isclose(1 / reach[0], slope[0] * at + off, rel_tol=1e-6)
    if reach[1] is None:
        assert off >= slope[0] * at * (1 - 1e-9)
    else:
        assert isclose(1 / reach[1], slope[0] * at - off, rel_tol=1e-6)
        assert reach[0] <= float(wanted) * 1.0001
        assert reach[1] >= float(wanted) * 0.9999


def mm(text: str) -> Length:
    return Length(Fraction(text), f"{text} mm")


def test_students_t_is_that_of_the_printed_table() -> None:
    """Table of t for a two-sided 90 and 95 %: common to textbooks of statistics (from memory)."""
    table = {1: (6.314, 12.706), 2: (2.920, 4.303), 3: (2.353, 3.182), 5: (2.015, 2.571)}
    table |= {10: (1.812, 2.228), 30: (1.697, 2.042), 120: (1.658, 1.980)}
    for degrees_free, (ninety, ninety_five) in table.items():
        assert round(within(0.90, degrees_free), 3) == ninety
        assert round(within(0.95, degrees_free), 3) == ninety_five


@drawn(
    st.builds(
        Bend,
        st.text(st.characters(exclude_characters=",\n\r"), min_size=1).map(str.strip),
        st.sampled_from([mm("26"), Length(INCH, "1 in")]),
        st.sampled_from([mm("1240"), Length(50 * INCH, "50 in"), Length(Fraction(2500), "2,5 m")]),
        st.sampled_from([mm("1300.5"), Length(55 * INCH, "55 in")]),
        st.sampled_from([None, mm("2060")]),
        st.integers(1, 20),
        st.one_of(st.none(), st.integers(0, 999)),
        st.sampled_from(["", "loft, dry", "in the yard | wet"]),
    )
)
@cases(60, 5_000)
def test_a_bend_reads_back_from_its_line(bend: Bend) -> None:
    assert bend_of(bend.spelled) == bend


# --- laminated, stretch, steaming -----------------------------------------------------------------


def test_plies() -> None:
    """Second-hand (boat builders' texts) and beam theory: x 3 in, n 4 -> 3/16, n 8 -> 3/64; a
    wanted 3 in takes 3.2 in (n 4), 3.0476 in (n 8); n 4 keeps 93.75 %."""
    assert laminated_ratio(4) == Fraction(9375, 10000)
    assert 3 * (1 - laminated_ratio(4)) == Fraction(3, 16)
    assert 3 * (1 - laminated_ratio(8)) == Fraction(3, 64)
    for plies, rise in ((4, 3.2), (8, 3.0476)):
        reckoned = answer(
            "laminated", "imperial", plies=str(plies), thickness="1", chord="96", rise="3"
        )
        assert round(inches(reckoned.figures["form_rise_mm"]), 4) == rise
    with pytest.raises(Unread, match="one ply"):
        answer("laminated", plies="1", thickness="26 mm", radius="1 m")
    assert any("write down" in line for line in reckoned.cautions)


def test_own_bends_of_so_many_plies_stand_beside_the_theory() -> None:
    bends = ("ash, 4 plies, 1 in thick, form 90 in, came to 100 in",)
    reckoned = answer(
        "laminated", "imperial", bends, plies="4", thickness="1", radius="100", species="ash"
    )
    assert "by the shop's own one bend of so many plies: form radius 90 in" in reckoned.result


def test_stretch_of_the_outside() -> None:
    """Second-hand (summary of a wood scientist's column), recomputed: 1 in to 24.7 in: 2.02 %."""
    assert (
        round(float(figure("stretch", "stretch_percent", thickness="1 in", radius="24.7 in")), 2)
        == 2.02
    )
    said = {
        radius: " ".join(answer("stretch", thickness="1 in", radius=f"{radius} in").cautions)
        for radius in (40, 24, 15, 11)
    }
    assert "strap" not in said[40]
    assert "strap" in said[24]
    assert "break some" in said[15]  # verified (abstract): 16 times the thickness
    assert "break most" in said[11]  # and 12 times


def test_steaming_is_a_range_with_its_sources_and_the_crews_own_rate() -> None:
    """20 and 60 min an inch verified (abstracts), 60 second-hand, 38 and 75 from memory."""
    inch = answer("steaming", thickness="1 in")
    assert (inch.figures["low_minutes"], inch.figures["high_minutes"]) == (20, 75)
    assert inch.figures["rule_minutes"] == 60
    assert {source.mark for source in inch.sources} == {"verified", "second-hand", "from memory"}
    own = answer("steaming", thickness="2 cm", rate="25 min/cm")
    assert own.figures["own_minutes"] == 50
    assert own.result[0] == "50 min by the crew's own rate"
    assert own.hazards == ("steam-box",)
    half = answer("steaming", "imperial", thickness="1/2", rate="38 min/in")
    assert half.figures["own_minutes"] == 19
    for wrong in ("25", "25 min", "min/cm", "25 min/", "0 min/in"):
        with pytest.raises(Unread):
            answer("steaming", thickness="2 cm", rate=wrong)


def test_what_stock_bends_and_what_glue_wants_is_said_with_its_mark() -> None:
    """1 in 15 from memory, good benders second-hand; pressures, warmth and durability of glues
    verified in their own texts."""
    steam = {s.says: s.mark for s in answer("steaming", thickness="1 in").sources}
    assert steam["in stock to bend the grain runs out by at most 1 in 15"] == "from memory"
    assert any("softwoods poorly" in says and m == "second-hand" for says, m in steam.items())
    glued = answer("laminated", plies="4", thickness="1 in", radius="1 m")
    said = {source.says: source.mark for source in glued.sources if source.mark == "verified"}
    told = " ".join(said)
    for says in ("125 to 150 psi", "150 to 200 psi", "70 °F", "40 °F", "8 h at 120 °F", "80 °F"):
        assert says in told
    psi = 0.00689476  # MPa
    for pounds, mpa in ((125, "0.86"), (150, "1.03"), (200, "1.38")):
        assert f"{pounds * psi:.2f}" == mpa
        assert mpa in told
    assert any("only the label says" in caution for caution in glued.cautions)
    assert "epoxy" in glued.hazards


def test_ribs_stand_evenly_along_the_curve() -> None:
    ribs = figure("ribs", "ribs", chord="96 in", rise="12 in", count="5")
    assert (
        round(inches(figure("ribs", "step_mm", chord="96 in", rise="12 in", count="5")), 3)
        == 24.988
    )
    assert [round(inches(rib["across_mm"]), 2) for rib in ribs][2] == 48
    assert round(inches(ribs[2]["height_mm"]), 6) == 12
    assert isclose(ribs[0]["lean_degrees"], 56.145 / 2, abs_tol=1e-3)
    assert isclose(ribs[1]["across_mm"] + ribs[3]["across_mm"], 96 * 25.4)


def test_fixtures_of_a_bend() -> None:
    bend = steamed("50 in", "55 in")
    assert bend.ratio == Fraction(10, 11)
    over = bend_of("ash, 26 mm thick, over a chord of 2060 mm, form 355 mm, came to 320 mm")
    assert over.form_radius == Arc(Fraction(2060), Fraction(355)).radius


def test_a_rate_of_steaming_is_read_as_the_trade_says_it_and_an_odd_one_is_doubted() -> None:
    for typed in ("1 h/in", "1 hour an inch", "60 minutes per inch", "60 min/in"):
        told = answer("steaming", thickness="1 in", rate=typed)
        assert told.figures["clock_minutes"] == 60
        assert OUTSIDE not in told.cautions
    assert OUTSIDE in answer("steaming", thickness="1 in", rate="50 min/mm").cautions


def test_a_bend_written_the_wrong_way_round_is_doubted_and_many_are_told_in_short() -> None:
    typed = {"species": "ash", "thickness": "1 in", "radius": "102 in"}
    swapped = answer("form", **typed, test_form="55 in", test_came_to="50 in")
    assert SHARPER in swapped.cautions
    many = tuple(f"ash, 1 in thick, form {n} in, came to 100 in" for n in range(90, 98))
    told = answer("form", "metric", many, **typed)
    assert SHARPER not in told.cautions
    assert told.how[1].startswith("8 bends (k from 0.9 to 0.97)")
