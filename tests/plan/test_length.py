"""Lengths as people type them are exact, and come back as they went in."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import FOOT, INCH, length, shown
from crewboard.plan.units import shown as told
from tests.long_form import cases

# The forms that people were seen to type, in inches; own list of check values.
INCHES = {
    "2 3/8": Fraction(19, 8),
    '5-1/4"': Fraction(21, 4),
    "2⅜": Fraction(19, 8),
    "2 ⅜ in": Fraction(19, 8),
    "5/16": Fraction(5, 16),
    "5⁄16 in": Fraction(5, 16),
    "7' 9 1/2\"": Fraction(187, 2),
    "7'9": Fraction(93),
    "7' 9": Fraction(93),
    "7'9\"": Fraction(93),
    "7'9½\"": Fraction(187, 2),
    "7'-9 1/2\"": Fraction(187, 2),
    "7′ 9½″": Fraction(187, 2),
    "7’ 9”": Fraction(93),
    "7' 9''": Fraction(93),
    "7 ft. 9 in.": Fraction(93),
    "7ft9in": Fraction(93),
    "7 feet 9 inches": Fraction(93),
    "6'": Fraction(72),
    "1.5 in": Fraction(3, 2),
    ",5 in": Fraction(1, 2),
    "2⅓": Fraction(7, 3),
}
MILLIMETRES = {
    "38 mm": 38,
    "38": 38,
    "2 340 mm": 2340,
    "2\u202f340": 2340,
    "1 234 567,5 mm": Fraction(2469135, 2),
    "2,5 m": 2500,
    "2.5 m": 2500,
    "2.400 m": 2400,
    "0,125 m": 125,
    "2 m 40 cm": 2400,
    "12 cm": 120,
    "2 metres": 2000,
}
REFUSED = (
    "", " ", "1/0", "1 1/0 in", "1 3", "3/4/8", "1/2 1/4", "⅜5", "1/⅜", "-3 mm", "mm", "in 3",
    "2m40", "5 mm 2 cm", '3" 2\'', "2 ft 3 ft", "1e3 mm", "nan", "inf mm", "2.5.", "1.2.3 m",
    "2 x 4", "3 fathoms", "٣ mm", "٣/٤ in", "\uff13 mm", "3² mm", "0x1F", "9" * 30, "9" * 5000,
    "1/" + "9" * 5000, "9" * 12 + " m", "2 34 mm", "2 3400 mm", "2340 100 mm", "0 340 mm",
)  # fmt: skip


@pytest.mark.parametrize("typed", INCHES)
def test_feet_inches_and_fractions_are_read_exactly(typed: str) -> None:
    read = length(typed, "imperial")
    assert read.mm == INCHES[typed] * INCH
    # What is kept has its unit: it is the same length in a folder with other units.
    assert length(read.text, "metric") == length(read.text, "imperial") == read


@pytest.mark.parametrize("typed", MILLIMETRES)
def test_metres_and_millimetres_are_read_exactly(typed: str) -> None:
    read = length(typed, "metric")
    assert read.mm == MILLIMETRES[typed]
    assert length(read.text, "imperial") == read


@pytest.mark.parametrize("typed", REFUSED, ids=lambda typed: typed[:12])
def test_what_is_no_length_is_refused_in_a_sentence_that_says_how_to_write_one(typed: str) -> None:
    for units in ("metric", "imperial"):
        with pytest.raises(Unread) as refused:
            length(typed, units)
        assert refused.value.hint.startswith("write ")


def test_a_comma_before_three_figures_is_asked_about_and_never_guessed() -> None:
    for typed in ("2,400 mm", "12,500 m", "2,375 in"):
        with pytest.raises(Unread, match="two ways"):
            length(typed)


def test_an_inch_is_exact_and_a_length_that_is_rounded_says_so() -> None:
    assert shown(Fraction(2400)) == "2400 mm"
    assert shown(Fraction(2400), "imperial") == "about 94 1/2 in"
    assert shown(INCH) == "25.4 mm"
    assert shown(INCH * 19 / 8) == "about 60.3 mm"
    assert shown(INCH * 19 / 8, "imperial") == "2 3/8 in"
    assert shown(INCH * 5 / 32, "imperial") == "5/32 in"
    assert shown(INCH * 151 / 64, "imperial") == "about 2 3/8 in"
    assert shown(FOOT * 30 + INCH / 2, "imperial") == "30' 1/2\""
    assert shown(FOOT * 30, "imperial") == "30'"
    assert shown(Fraction(0), "imperial") == "0 in"
    assert shown(Fraction(0)) == "0 mm"


_INCHES = st.fractions(0, 2000, max_denominator=64)
_MM = st.fractions(0, 100_000, max_denominator=1000)
_UNITS = st.sampled_from(["metric", "imperial"])


@given(_MM | _INCHES.map(lambda inches: inches * INCH), _UNITS, _UNITS)
@cases(300, 30_000)
def test_what_is_shown_can_be_typed_again_and_is_the_same_but_for_what_was_rounded(
    mm: Fraction, units: str, folder: str
) -> None:
    words = shown(mm, units)
    again = length(words.removeprefix("about "), folder).mm
    if words.startswith("about "):
        assert 0 < abs(again - mm) <= (INCH / 32 if units == "imperial" else Fraction(1, 20))
    else:
        assert again == mm


@given(st.integers(0, 99), st.integers(0, 11), st.integers(0, 63), st.sampled_from([2, 8, 16, 64]))
@cases(200, 20_000)
def test_feet_inches_and_a_fraction_add_up_however_they_are_written(
    feet: int, inches: int, over: int, under: int
) -> None:
    mm = (feet * 12 + inches + Fraction(over, under)) * INCH
    for spelled in (
        f"{feet}' {inches} {over}/{under}\"",
        f"{feet}'{inches}-{over}/{under}",
        f"{feet} ft {inches} {over}/{under} in",
        f"{feet}'-{inches} {over}/{under}\"",
    ):
        assert length(spelled).mm == mm


@given(st.text(st.sampled_from("0123456789/.,'\" -½⅜mcinft٣²x"), max_size=12) | st.text(max_size=9))
@cases(500, 50_000)
def test_any_text_is_a_length_of_nought_or_more_or_is_refused(typed: str) -> None:
    try:
        read = length(typed, "imperial")
    except Unread:
        return
    assert read.mm >= 0
    assert length(read.text, "metric").mm == read.mm


def test_one_day_is_a_day() -> None:
    assert [told(days, "days", "metric") for days in (1, 2)] == ["1 day", "2 days"]
