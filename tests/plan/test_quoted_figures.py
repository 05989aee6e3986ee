"""A quoted figure in metric and imperial units both, rounded to the safe side."""

from __future__ import annotations

import pytest

from crewboard.plan.units import Safe, both


@pytest.mark.parametrize(
    ("value", "unit", "safe", "metric", "imperial"),
    [
        # 35 ft is 10.668 m: a distance that is kept clear of what burns is rounded up.
        (35, "ft", "more", "11 m (35 ft)", "35 ft (11 m)"),
        # 1100 °F is 593.3 °C: the most that is allowed, rounded down.
        (1100, "°F", "less", "593 °C (1100 °F)", "1100 °F (593 °C)"),
        # 16 °C is 60.8 °F: the least that a shop should have.
        (16, "°C", "more", "16 °C (61 °F)", "61 °F (16 °C)"),
        # 30 psi is 2.068 bar; 4 ft 1.219 m; 23 kg 50.7 lb.
        (30, "psi", "less", "2 bar (30 psi)", "30 psi (2 bar)"),
        (4, "ft", "less", "1.2 m (4 ft)", "4 ft (1.2 m)"),
        (4, "ft", "more", "1.3 m (4 ft)", "4 ft (1.3 m)"),
        (3, "ft", "more", "1 m (3 ft)", "3 ft (1 m)"),  # 0.914 m
        (3, "ft", "less", "0.9 m (3 ft)", "3 ft (0.9 m)"),
        (23, "kg", "", "23 kg (51 lb)", "51 lb (23 kg)"),
        (23, "kg", "less", "23 kg (50 lb)", "50 lb (23 kg)"),
        # One inch is 25.4 mm exactly, an exact figure is rounded neither way.
        (127, "mm", "more", "127 mm (5 in)", "5 in (127 mm)"),
        (2000, "psi", "", "138 bar (2000 psi)", "2000 psi (138 bar)"),
        (0, "kg", "more", "0 kg (0 lb)", "0 lb (0 kg)"),
        (-40, "°C", "", "-40 °C (-40 °F)", "-40 °F (-40 °C)"),
        # What has no other unit stays as it is quoted.
        (30, "min", "more", "30 min", "30 min"),
        (50, "µg/m³", "", "50 µg/m³", "50 µg/m³"),
        (87, "dB(A)", "", "87 dB(A)", "87 dB(A)"),
        (19.5, "%", "less", "19.5 %", "19.5 %"),
    ],
)
def test_both_units_the_folders_first(
    value: float, unit: str, safe: Safe, metric: str, imperial: str
) -> None:
    assert both(value, unit, "metric", safe) == metric
    assert both(value, unit, "imperial", safe) == imperial
