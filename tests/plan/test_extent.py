"""How large a piece is: a length, an area or a volume, exact, and never without its unit."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.plan.as_typed import Unread
from crewboard.plan.extent import ONE_PIECE, Basis, Extent, extent, shown
from crewboard.plan.length import FOOT, INCH
from tests.long_form import cases

_FOOT, _INCH = FOOT / 1000, INCH / 1000
WRITTEN = {
    "2.4 m": Extent("length", Fraction(12, 5)),
    "2400 mm": Extent("length", Fraction(12, 5)),
    "7' 9 1/2\"": Extent("length", _INCH * 187 / 2),
    "7'9": Extent("length", _INCH * 93),
    "2⅜ in": Extent("length", _INCH * 19 / 8),
    "0.8 m2": Extent("area", Fraction(4, 5)),
    "0,8 m²": Extent("area", Fraction(4, 5)),
    "12½ sq ft": Extent("area", _FOOT**2 * 25 / 2),
    "12 1/2 ft2": Extent("area", _FOOT**2 * 25 / 2),
    "144 sq in": Extent("area", _FOOT**2),
    "50 cm2": Extent("area", Fraction(1, 200)),
    "0.02 m3": Extent("volume", Fraction(1, 50)),
    "20000 cm³": Extent("volume", Fraction(1, 50)),
    "3 cu ft": Extent("volume", _FOOT**3 * 3),
    "12 bd ft": Extent("volume", _FOOT**3),
}
REFUSED = (
    "", "12", "2 3/8", "0 m", "0 m2", "1/0 m2", "3/4/8 m2", "1 3 m2", "2,400 m2", "2,400 m",
    "-1 m2", "m2", "2 m4", "٣ m2", "2 m2 1 m2", "9 pieces", "9" * 5000 + " m2",
)  # fmt: skip


@pytest.mark.parametrize("written", WRITTEN)
def test_an_extent_says_by_what_it_is_measured_and_how_much(written: str) -> None:
    assert extent(written) == WRITTEN[written]


@pytest.mark.parametrize("written", REFUSED, ids=lambda written: written[:12])
def test_what_is_no_extent_is_refused_in_a_sentence_that_says_how_to_write_one(
    written: str,
) -> None:
    with pytest.raises(Unread) as refused:
        extent(written)
    assert refused.value.hint.startswith("write ")


def test_an_extent_is_shown_in_the_units_of_the_folder() -> None:
    assert shown(extent("2.4 m")) == "2.4 m"
    assert shown(extent("0.8 m2")) == "0.8 m²"
    assert shown(extent("12½ sq ft"), "imperial") == "12.5 sq ft"
    assert shown(extent("12½ sq ft")) == "about 1.161 m²"
    assert shown(ONE_PIECE) == shown(ONE_PIECE, "imperial") == "1 piece"
    assert shown(Extent("pieces", Fraction(9))) == "9 pieces"


_BASES: st.SearchStrategy[Basis] = st.sampled_from(["length", "area", "volume"])


@given(_BASES, st.integers(1, 10**7), st.sampled_from(["metric", "imperial"]))
@cases(200, 20_000)
def test_what_is_shown_can_be_written_again(basis: Basis, thousandths: int, units: str) -> None:
    size = Extent(basis, Fraction(thousandths, 1000))
    words = shown(size, units)
    if units == "metric":
        assert not words.startswith("about")
    again = extent(words.removeprefix("about ")) if not words.startswith("about 0 ") else size
    assert again.basis == basis
    assert words.startswith("about") or again == size
    assert abs(again.amount - size.amount) <= Fraction(1, 2000)
