"""Lengths and lists as people type them: exact inside, rounded only when shown, saying so."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import FOOT, INCH, shown
from crewboard.plan.length import length as read_length
from crewboard.trade.given import Ask, Given, exact
from crewboard.trade.kept_unit import with_its_unit
from crewboard.trade.measures import GALLON, film, liquid, number_shown, spreading
from tests.long_form import cases
from tests.trade.reckoned import answer, figure

WHOLES = st.integers(0, 400)
UNDERS = st.sampled_from([2, 4, 8, 16, 32])


@drawn(WHOLES, st.integers(0, 31), UNDERS, st.sampled_from(["in", '"', " inches"]))
@cases(100, 10_000)
def test_inches_and_fractions_are_exact(whole: int, over: int, under: int, unit: str) -> None:
    typed = f"{whole} {over}/{under}{unit}" if over else f"{whole}{unit}"
    if whole or over:
        wanted = (whole + Fraction(over, under)) * INCH
        assert figure("length", "length_mm", length=typed) == wanted
        assert figure("length", "length_mm", "imperial", length=typed.rstrip(' inches"')) == wanted


@drawn(st.integers(1, 9_000), st.booleans())
@cases(100, 10_000)
def test_what_is_shown_exactly_reads_back_as_itself_and_the_rest_says_about(
    parts: int, metric: bool
) -> None:
    """32nds of an inch and tenths of a millimetre are shown exactly, 7ths never."""
    units = "metric" if metric else "imperial"
    mm = Fraction(parts, 10) if metric else Fraction(parts, 32) * INCH
    assert read_length(shown(mm, units)).mm == mm
    odd = mm + Fraction(1, 7)
    assert shown(odd, units).startswith("about ")
    near = read_length(shown(odd, units).removeprefix("about ")).mm
    assert abs(near - odd) <= (Fraction(1, 20) if metric else INCH / 32)


@drawn(st.lists(st.tuples(st.integers(1, 99), st.integers(1, 200), UNDERS), min_size=1, max_size=6))
@cases(60, 5_000)
def test_a_list_is_read_with_its_counts_and_one_unit_behind_it(
    parts: list[tuple[int, int, int]],
) -> None:
    for between, times in ((", ", " x "), (" + ", "x"), (",", " of ")):
        typed = between.join(f"{n}{times}{over}/{under}" for n, over, under in parts) + " in"
        given = Given({"stock": typed}, asks=(Ask("stock", "stock", "lengths"),))
        wanted = tuple((Fraction(over, under) * INCH, n) for n, over, under in parts)
        assert given.lengths("stock") == wanted


def test_each_of_a_list_may_have_its_own_unit_and_a_decimal_comma() -> None:
    given = Given({"stock": "2 x 2,5 m, 3' 6\", 4 x 900"}, asks=(Ask("stock", "stock", "lengths"),))
    assert given.lengths("stock") == ((Fraction(2500), 2), (42 * INCH, 1), (Fraction(900), 4))


@pytest.mark.parametrize(
    ("reads", "typed", "units", "kept"),
    [
        ("length", "96", "imperial", "96 in"),
        ("length", "2,5 m", "imperial", "2,5 m"),
        ("lengths", "12 x 3 7/8, 5", "imperial", "12 x 3 7/8, 5 in"),
        ("lengths", "12 x 3 7/8, 5 mm", "imperial", "12 x 3 7/8, 5 mm"),
        ("temperature", "65", "imperial", "65 °F"),
        ("temperature", "18 °C", "imperial", "18 °C"),
        ("text", "white ash", "metric", "white ash"),
        (
            "measures",
            "5 1/4 at 12 3/8, 7 1/2 at 60 in",
            "imperial",
            "5 1/4 in at 12 3/8 in, 7 1/2 in at 60 in",
        ),
        (
            "measures",
            "2,40 m ± 3; 1200 + 1.21 m +/- 4",
            "metric",
            "2,40 m ± 3 mm; 1200 mm + 1.21 m +/- 4 mm",
        ),
        ("measures", "1750 give or take 3", "metric", "1750 mm give or take 3 mm"),
        (
            "heights",
            "4 to 3: -12 ± 1; 3 to B: 3/8 in ± 1/16",
            "imperial",
            "4 to 3: -12 in ± 1 in; 3 to B: 3/8 in ± 1/16 in",
        ),
        ("heights", "4; B = 100", "metric", "4; B = 100 mm"),
        ("air", "65 62; 18 °C 62 %", "imperial", "65 °F 62 %; 18 °C 62 %"),
    ],
)
def test_what_is_kept_has_its_unit(reads: str, typed: str, units: str, kept: str) -> None:
    assert with_its_unit(reads, typed, units) == kept  # type: ignore[arg-type]


def test_numbers_liquids_rates_and_films() -> None:
    """Gallon: 231 cubic inches (second-hand: several tables); a mil is 25.4 µm."""
    assert exact("2 3/8") == Fraction(19, 8)
    assert exact("2,5") == Fraction(5, 2)
    assert Fraction("3.785411784") == GALLON
    assert liquid("1 gal") == GALLON
    assert liquid("1 imp gal") == Fraction("4.54609")
    assert spreading("8 m2/l") == 8
    assert spreading("350 sq ft per gal") == 350 * (FOOT / 1000) ** 2 / GALLON
    assert film("5 mil") == 127
    assert film("125 microns") == 125
    for label in ("8 m²/L", "8 sqm/l", "8 m^2 per litre", "125 ml/m2", "0.125 l/m²", "12.5 cl/m2"):
        assert spreading(label) == 8, label
    for yards in ("9 sq. ft./gal", "9 square feet/US gallon", "1 sq yd per gallon"):
        assert spreading(yards) == 9 * (FOOT / 1000) ** 2 / GALLON, yards
    assert film("0.125 mm") == film("125 micrometres") == 125
    for wrong in ("8", "8 m2", "8 m/l", "8 m2/kg", "m2/l", "10-12 m2/l", "0 l/m2", "8 m2/0 l"):
        with pytest.raises(Unread):
            spreading(wrong)
    assert number_shown(Fraction(40, 3)) == "about 13.33"
    assert number_shown(Fraction(5, 2)) == "2.5"


def test_board_feet() -> None:
    """Formula second-hand (several trade texts), values recomputed: trade practice of T x W x L."""
    wide = answer("timber", "imperial", thickness="2", width="8", length="10 ft")
    assert wide.figures["board_feet"] == Fraction(40, 3)
    assert wide.result[0] == "about 13.33 board feet = about 0.0315 m³"
    assert figure("timber", "board_feet", thickness="1 in", width="6 in", length="12 ft") == 6
    more = figure(
        "timber", "board_feet", thickness="1 in", width="6 in", length="12 ft", waste="25"
    )
    assert more == Fraction(15, 2)
    assert any("nominal" in each for each in wide.assumes)


def test_areas_leave_out_what_is_open() -> None:
    assert figure("area", "area_m2", length="3 m", width="2 m", count="2", less="0.5 m2") == 11.5
    assert figure("coats", "litres", area="3 m x 4 ft", coats="1", rate="1 m2/l", loss="0") == (
        3 * FOOT * 4 / 1000
    )
    with pytest.raises(Unread, match="is not an area"):  # three of two metres?
        answer("coats", area="3 x 2 m", coats="1", rate="8 m2/l")
    with pytest.raises(Unread, match="more is open"):
        answer("area", length="1 m", width="1 m", less="1 m2")


@pytest.mark.parametrize(
    ("kind", "name", "typed"),
    [
        ("length", "length", "900, 2.4 m"),  # nobody's 900 m
        ("length", "length", "6 x 10, 2 x 8 ft"),  # inches or feet
        ("length", "length", "1'000 mm"),  # thousands, or a foot
        ("chains", "chains", "2.40 m ± 0.03 m; 2.45 ± 0.03 m"),  # nobody's 2.45 mm
        ("chains", "chains", "1.2 + 1.21 m ± 4 mm; 2.40 m ± 3 mm"),
        ("moved", "after", "813 ± 2 cm"),
    ],
)
def test_what_may_be_of_several_units_is_asked_and_never_guessed(
    kind: str, name: str, typed: str
) -> None:
    said = {"before": "812 ± 2 mm"} if kind == "moved" else {}
    with pytest.raises(Unread, match=r"several units|two ways") as refused:
        answer(kind, **said, **{name: typed})
    assert refused.value.hint.startswith("write ")


def test_a_unit_behind_the_last_that_can_only_mean_all_of_them_does() -> None:
    assert figure("length", "length_mm", length="4 x 90, 3 x 80 cm") == 6000
    assert figure("length", "length_mm", length="3' 6, 4 in") == 46 * INCH
    assert figure("moved", "difference_mm", before="812 ± 2 mm", after="813 ± 2 mm") == 1
    assert figure("length", "length_mm", length="2 yd 1 ft") == 7 * FOOT


def test_a_refusal_names_what_was_asked_once_and_is_true() -> None:
    for kind, typed, says in (
        ("length", {"length": "five inches"}, 'the length, or several: "five inches" is not a len'),
        ("timber", {"thickness": "1 in", "width": "1 in", "length": "1 in", "waste": "-5"}, "less"),
        ("moisture", {"temperature": "20", "humidity": "60", "readings": "18"}, "readings of the"),
    ):
        with pytest.raises(Unread) as refused:
            answer(kind, **typed)
        assert says in refused.value.sentence
        assert refused.value.sentence.count('"') <= 2
