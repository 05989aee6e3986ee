"""Several measurements of one thing, before and after, and old photographs: published values."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import numpy as np
import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from crewboard.plan.as_typed import Unread
from crewboard.trade.adjust import Levelled, adjusted, value
from crewboard.trade.chance import limit
from crewboard.trade.kinds.photograph import fourth
from tests.long_form import cases
from tests.trade.reckoned import answer

# A published network of heights (verified: a sample of a free adjustment program), m, σ 5 mm each.
NETWORK = (
    ("1a", "4", -1.225), ("4", "3", -0.848), ("3", "2", 1.342), ("2", "1a", 0.720),
    ("1a", "2", -0.724), ("2", "3", -1.335), ("3", "4", 0.842), ("4", "1a", 1.231),
)  # fmt: skip


def test_a_published_network_is_given_back() -> None:
    """Verified, every figure recomputed: heights, σ 3.1, 3.5, 3.1 mm, [pvv] 146.625, 5.42, and the
    largest residual 1.68 at the sixth observation, below 1.96."""
    steps = "; ".join(f"{a} to {b}: {up} m ± 5 mm" for a, b, up in NETWORK)
    found = answer("levels", steps=steps, fixed="1a = 1000 m").figures
    heights, sigmas = found["heights_mm"], found["sigmas_mm"]
    assert isinstance(heights, dict)
    assert isinstance(sigmas, dict)
    told = {point: round(float(mm / 1000), 5) for point, mm in heights.items()}
    assert told == {"1a": 1000, "4": 998.77513, "3": 997.93325, "2": 999.27487}
    assert {p: round(s, 1) for p, s in sigmas.items()} == {"4": 3.1, "3": 3.5, "2": 3.1}
    squares = found["chi_squared"] * 25  # type: ignore[operator]
    assert squares == Fraction("146.625")
    assert found["degrees"] == 5
    assert round(sqrt(squares / 5), 2) == 5.42
    assert (round(found["largest"], 2), found["largest_at"]) == (1.68, 6)  # type: ignore[call-overload]
    assert found["agrees"] is True


def test_chains_that_disagree_are_not_averaged_silently() -> None:
    """Verified problem, recomputed: 101.0072, 101.9496 m, σ 0.75, 0.66 cm, chi-squared 56."""
    steps = [
        Levelled("A", "P1", Fraction(1010), Fraction(10)),
        Levelled("P2", "C", Fraction(1090), Fraction(10)),
        Levelled("P2", "D", Fraction(2040), Fraction(10)),
        Levelled("B", "P1", Fraction(60), Fraction(str(round(10 * sqrt(2), 12)))),
        Levelled("P1", "P2", Fraction(1030), Fraction(str(round(10 * sqrt(3), 12)))),
    ]
    fixed = {
        p: Fraction(mm) for p, mm in zip("ABCD", (100000, 101000, 103000, 104000), strict=True)
    }
    found = adjusted(steps, fixed)
    assert round(float(found.heights["P1"] / 1000), 4) == 101.0072
    assert round(float(found.heights["P2"] / 1000), 4) == 101.9496
    assert round(found.sigmas["P1"], 1) == 7.5
    assert round(found.sigmas["P2"], 1) == 6.6
    assert round(float(found.chi_squared)) == 56
    assert found.degrees == 3
    assert not found.agrees
    told = answer("chains", chains="1 m ± 1 mm; 1.05 m ± 1 mm; 1.001 m ± 1 mm")
    assert told.result[0].startswith("the chains disagree: do not average them")
    assert told.result[1] == "furthest off: 1050 mm"


def test_three_chains_just_agree() -> None:
    """Recomputed: 2.40, 2.45, 2.35 each ± 0.03: mean 2.400, σ 0.0173, chi-squared 5.56 with 2,
    widened by 1.667 to ± 0.03."""
    three = answer("chains", chains="2.40 m; 2.45 m; 2.35 m", tolerance="0.03 m")
    found = three.figures
    assert found["mean_mm"] == 2400
    assert round(found["sigma_mm"], 1) == 17.3  # type: ignore[call-overload]
    assert round(float(str(float(found["chi_squared"]))), 2) == 5.56  # type: ignore[arg-type]
    assert found["agrees"] is True
    widened = found["widened_sigma_mm"] / found["sigma_mm"]  # type: ignore[operator]
    assert round(widened, 3) == 1.667
    assert round(found["widened_sigma_mm"] / 10) == 3  # type: ignore[operator]


def test_chi_squareds_limits_are_those_of_the_printed_table() -> None:
    """Recomputed: at 5 % 3.841, 5.991, 7.815, 9.488, 11.070."""
    for degrees, most in enumerate((3.841, 5.991, 7.815, 9.488, 11.070), 1):
        assert round(limit(0.95, degrees), 3) == most


STEPS = st.lists(
    st.tuples(st.integers(0, 4), st.integers(0, 4), st.integers(-500, 500), st.integers(1, 9)),
    max_size=12,
)


@drawn(STEPS)
@cases(40, 2_000)
def test_the_adjustment_is_numpys(loose: list[tuple[int, int, int, int]]) -> None:
    """Reference: numpy.linalg.lstsq on the weighted steps."""
    chain = [(n, n + 1, 100, 2) for n in range(4)]
    read = [(a, b, up, s) for a, b, up, s in (*chain, *loose) if a != b]
    steps = [Levelled(str(a), str(b), Fraction(up), Fraction(s)) for a, b, up, s in read]
    found = adjusted(steps, {"0": Fraction(0)})
    rows = np.zeros((len(read), 4))
    for row, (a, b, _, s) in enumerate(read):
        if a:
            rows[row, a - 1] = -1 / s
        if b:
            rows[row, b - 1] = 1 / s
    heights, *_ = np.linalg.lstsq(rows, np.array([up / s for _, _, up, s in read]), rcond=None)
    assert [float(found.heights[str(n)]) for n in range(1, 5)] == pytest.approx(list(heights))
    cofactors = np.linalg.inv(rows.T @ rows)
    assert [found.sigmas[str(n)] for n in range(1, 5)] == pytest.approx(
        [sqrt(cofactors[n, n]) for n in range(4)]
    )


def test_a_step_that_hangs_on_nothing_is_refused() -> None:
    with pytest.raises(Unread, match="hangs on nothing fixed"):
        answer("levels", steps="A to B: 1 mm ± 1 mm; C to D: 1 mm ± 1 mm", fixed="A")
    alone = answer("levels", steps="A to B: 1 mm ± 1 mm", fixed="A")
    assert "nothing is measured twice: a mistake would not show" in alone.result
    for wrong in ("A B: 1 mm ± 1 mm", "A to A: 1 mm ± 1 mm", "A to B: 1 mm", "A to B: 1 mm ± 0 mm"):
        with pytest.raises(Unread):
            answer("levels", steps=wrong, fixed="A")


def test_a_chain_may_be_of_several_lengths() -> None:
    assert value("1.01 m + 1.03 m ± 5 mm", "metric").mm == 2040
    assert value("2 3/8 +/- 1/16", "imperial").sigma == Fraction(254, 160)


def test_before_and_after() -> None:
    """Recomputed: 1750 ± 3 and 1758 ± 3 mm are not shown to differ (8 < 8.49); 1759 is."""
    same = answer("moved", before="1750 mm ± 3 mm", after="1758 mm ± 3 mm")
    assert same.result == ("not shown to have moved",)
    assert round(float(Fraction(str(same.figures["limit_mm"]))), 2) == 8.49
    assert "that does not show that it has stayed" in same.cautions
    moved = answer("moved", before="1750 mm ± 3 mm", after="1759 mm ± 3 mm")
    assert moved.result == ("it has moved: 9 mm longer",)


def test_the_cross_ratio_of_a_photograph() -> None:
    """Recomputed: points 0, 1, 2, 4 have the cross-ratio 1.5, so have their images."""
    picture = "0, 83.3333, 142.8571, 222.2222"
    found = answer("photograph", a="0 m", b="1 m", c="2 m", image=picture, error="0.001")
    assert float(str(float(found.figures["distance_mm"]))) == pytest.approx(4000, abs=0.1)  # type: ignore[arg-type]


@drawn(
    st.lists(st.integers(0, 1000), min_size=4, max_size=4, unique=True),
    st.integers(1, 9),
    st.integers(1, 9),
)
@cases(60, 5_000)
def test_perspective_keeps_it_whatever_the_camera(places: list[int], scale: int, tilt: int) -> None:
    image = [Fraction(scale * at, 1000 + tilt * at) for at in places]
    assert fourth([Fraction(at) for at in places[:3]], image) == places[3]


def test_where_the_error_reaches_the_vanishing_point_no_distance_is_told() -> None:
    """Worked out here: with 0, 1 and 2 m at 0, 83.3333 and 142.8571 the line vanishes at 500."""
    typed = {"a": "0", "b": "1 m", "c": "2 m"}
    near = answer("photograph", **typed, image="0, 83.3333, 142.8571, 222.2222", error="0.5")
    far = answer("photograph", **typed, image="0, 83.3333, 142.8571, 499", error="2")
    assert near.figures["give_or_take_mm"] is not None
    assert far.figures["give_or_take_mm"] is None
    assert far.result[0].endswith("and with that error anywhere")


def test_heights_that_nothing_checks_are_not_said_to_agree() -> None:
    once = answer("levels", steps="A to B: -1225 ± 5", fixed="A")
    assert once.result[0] == "nothing is measured twice: a mistake would not show"


def test_air_drying_is_a_question_for_the_meter() -> None:
    """From memory, so shown as unverified: white ash of an inch 60 to 200 days."""
    ash = answer("drying", thickness="1 in", species="White ash")
    assert ash.result[:2] == ("ask the moisture meter", "60 to 200 days to 20 %, unverified")
    thick = answer("drying", thickness="2 in", species="white ash")
    assert thick.figures["low_days"] is None
    assert any("disputed" in line for line in thick.result)


def test_the_days_of_air_drying_are_those_that_were_remembered() -> None:
    """From memory, FPL technical note 233: an inch thick, to 20 % moisture."""
    days = {
        "white ash": (60, 200), "northern red oak": (70, 200), "white oak": (80, 250),
        "yellow-poplar": (40, 150), "american elm": (50, 150), "eastern white pine": (60, 200),
    }  # fmt: skip
    for wood, (low, high) in days.items():
        told = answer("drying", thickness="1 in", species=wood)
        assert (told.figures["low_days"], told.figures["high_days"]) == (low, high)
        assert "from memory" in {source.mark for source in told.sources}


def test_a_textbooks_quick_check_of_residuals() -> None:
    """Verified (a surveyor's course): residuals of Q -.015 +.015 -.035 +.035, of R +.007 -.033
    +.027: their squares .0029 and .001867, together .004767; 7 observations, 2 unknowns."""
    off = {"Q": (-15, 15, -35, 35), "R": (7, -33, 27)}
    steps = [
        Levelled("0", end, Fraction(1000 - v), Fraction(1000))
        for end, vs in off.items()
        for v in vs
    ]
    found = adjusted(steps, {"0": Fraction(0)})
    assert found.degrees == 5
    assert round(float(found.chi_squared), 6) == 0.004767


def test_moisture_is_told_by_the_readings_of_the_weeks_too() -> None:
    air = {"temperature": "20", "humidity": "65"}
    weeks = answer("moisture", **air, readings="20 °C 65 %; 20 °C 50 %; 20 °C 80 %")
    assert weeks.figures["readings"] == 3
    assert "by 3 readings over the weeks" in weeks.result[1]
    with pytest.raises(Unread):
        answer("moisture", **air, readings="damp")


def test_of_a_wood_without_days_the_meter_is_asked_all_the_same() -> None:
    told = answer("drying", thickness="52 mm", species="green ash")
    assert told.result[0] == "ask the moisture meter"
    assert told.figures["low_days"] is None
    assert "no days were read" in told.how[0]
