"""How exactly a length is known, in the unit that was meant (common practice, no source)."""

from __future__ import annotations

from fractions import Fraction

import pytest

from crewboard.logbook.acts import Measured
from crewboard.logbook.fields import fields_of
from crewboard.logbook.measured import as_typed, with_units
from crewboard.plan.as_typed import Unread
from crewboard.trade.adjust import value


@pytest.mark.parametrize(
    ("typed", "beside", "units", "kept"),
    [
        ("812", "2", "metric", ("812 mm", "2 mm")),
        ("812", "1/16", "imperial", ("812 in", "1/16 in")),
        ("32 1/2 in", "1/16", "metric", ("32 1/2 in", "1/16 in")),
        ("7' 9 1/2", "1/8", "metric", ("7' 9 1/2 in", "1/8 in")),
        ("81.2 cm", "0.2", "imperial", ("81.2 cm", "0.2 cm")),
        ("812 mm", "1/16 in", "metric", ("812 mm", "1/16 in")),
        ("812 mm ± 1/16 in", "", "metric", ("812 mm", "1/16 in")),
        ("812 ± 2", "", "metric", ("812 mm", "2 mm")),
        ("32 1/2 in +/- 1/16", "", "metric", ("32 1/2 in", "1/16 in")),
        ("2.4 m", "3 mm", "metric", ("2.4 m", "3 mm")),
        ("812 mm", "", "imperial", ("812 mm", "")),
    ],
)
def test_a_tolerance_without_a_unit_is_in_that_of_its_value(
    typed: str, beside: str, units: str, kept: tuple[str, str]
) -> None:
    said = with_units(Measured(typed, tolerance=beside), units)
    assert (said.value, said.tolerance) == kept  # type: ignore[union-attr]
    assert with_units(said, units) == said, "what is kept is read again as it stands"


@pytest.mark.parametrize(
    ("typed", "beside", "says"),
    [
        ("2.4 m", "3", "may be of several units"),
        ("7 ft", "1/2", "may be of several units"),
        ("812 mm ± 2", "3", "says how exactly twice"),
        ("812 mm ±", "", "no length is written here"),
        ("812 mm", "soon", "is not a length"),
    ],
)
def test_what_could_mean_two_things_is_asked_about(typed: str, beside: str, says: str) -> None:
    with pytest.raises(Unread, match=says):
        with_units(Measured(typed, tolerance=beside), "metric")


def test_a_field_alone_is_kept_as_it_was_typed_until_both_are_known() -> None:
    fields = {field.name: field for field in fields_of(Measured)}
    assert as_typed(fields["tolerance"], " 1/16 ", "metric") == "1/16"
    assert as_typed(fields["value"], "32 1/2 in ± 1/16", "metric") == "32 1/2 in ± 1/16"
    with pytest.raises(Unread):
        as_typed(fields["value"], "long", "metric")


def test_what_is_reckoned_takes_a_tolerance_alike() -> None:
    assert value("32 1/2 in ± 1/16", "metric").sigma == Fraction(1, 16) * Fraction(254, 10)
    assert value("1.01 m + 103 cm ± 1", "metric").sigma == 10
