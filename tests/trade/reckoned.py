"""Reckonings for tests, and one given for each kind that is worked out as it stands."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from crewboard.plan.length import INCH
from crewboard.trade.given import Given, Known
from crewboard.trade.kind import reckon
from crewboard.trade.kinds import kind_named
from crewboard.trade.reckoning import Reckoning
from crewboard.trade.springback import Bend, bend_of

# What is enough for each kind, in a folder with metric units.
ENOUGH: dict[str, dict[str, str]] = {
    "length": {"length": "3 x 7' 9 1/2 in, 2.4 m"},
    "area": {"length": "3 m", "width": "2 m", "less": "0.5 m2"},
    "timber": {"thickness": "2 in", "width": "8 in", "length": "10 ft"},
    "arc": {"chord": "96 in", "rise": "12 in", "every": "12 in"},
    "form": {
        "species": "white ash",
        "thickness": "1 in",
        "radius": "102 in",
        "test_form": "50 in",
        "test_came_to": "55 in",
    },
    "laminated": {"plies": "4", "thickness": "1 in", "chord": "96 in", "rise": "3 in"},
    "stretch": {"thickness": "1 in", "radius": "24.7 in"},
    "steaming": {"thickness": "26 mm", "rate": "25 min/cm"},
    "coats": {"area": "12.5 m2", "coats": "2", "rate": "8 m2/l", "tin": "2.5 l"},
    "film": {"solids": "65", "dry": "125 µm"},
    "may-we-coat": {"temperature": "16", "humidity": "71", "surface": "13"},
    "cure": {
        "label": "24 hours",
        "at": "20 °C",
        "least": "10 °C",
        "log": "6 h at 25 °C; 12 h at 12 °C; 6 h at 18 °C",
        "energy": "41.57",
    },
    "moisture": {"temperature": "20", "humidity": "65"},
    "movement": {"width": "6 in", "from": "12", "to": "7", "species": "white ash"},
    "drying": {"thickness": "1 in", "species": "white ash"},
    "fastenings": {"length": "96 in", "spacing": "1 in"},
    "nails": {"thickness": "3/4 in", "behind": "1 in"},
    "pilot": {"gauge": "10", "wood": "hardwood"},
    "canvas": {"length": "6 m", "chord": "96 in", "rise": "12 in", "tacks": "20 mm"},
    "spacing": {"length": "2400 mm", "count": "9", "width": "20 mm"},
    "ribs": {"chord": "96 in", "rise": "12 in", "count": "5"},
    "boards": {"width": "96 in", "stock": "12 x 3 7/8, 10 x 5 1/4, 6 x 7 1/2 in"},
    "chains": {"chains": "2.40 m ± 0.03 m; 2.45 m ± 0.03 m; 2.35 m ± 0.03 m"},
    "levels": {"steps": "A to B: -12 mm ± 1 mm; B to A: 13 mm ± 1 mm", "fixed": "A = 100 mm"},
    "moved": {"before": "1750 mm ± 3 mm", "after": "1759 mm ± 3 mm"},
    "photograph": {"a": "0 m", "b": "1 m", "c": "2 m", "image": "0, 83.3333, 142.8571, 222.2222"},
    "cutting": {"stock": "4 x 3600, 2400", "pieces": "7 x 1100, 5 x 800", "kerf": "3"},
}


def given(
    typed: Mapping[str, str],
    units: str = "metric",
    bends: tuple[str, ...] = (),
    known: Mapping[str, Known] | None = None,
) -> Given:
    return Given(dict(typed), units, known or {}, tuple(map(bend_of, bends)))


def answer(
    kind: str, units: str = "metric", bends: tuple[str, ...] = (), /, **typed: str
) -> Reckoning:
    """What a kind comes to; "from" is no name of Python's: `from_`."""
    named = {name.rstrip("_"): value for name, value in typed.items()}
    return reckon(kind_named(kind), given(named, units, bends))


def figure(kind: str, name: str, units: str = "metric", /, **typed: str) -> Any:
    return answer(kind, units, **typed).figures[name]


def inches(mm: Any) -> float:
    return float(Fraction(mm) / INCH)


def steamed(form: str, came_to: str, species: str = "white ash", thickness: str = "1 in") -> Bend:
    return bend_of(f"{species}, {thickness} thick, form {form}, came to {came_to}")


# A panel to varnish, as a component's file says it: what a reckoning can fill in from the plan.
PANEL_TO_VARNISH = """\
[pieces.panel]
name = "Panel"
extent = "7.5 m2"

[tasks.varnish]
title = "Varnish the panel"
pieces = ["panel"]
hold = { kind = "dry", lasts = "16 hours", source = "the label" }
"""
