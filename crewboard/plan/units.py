"""Measures as the crew reads and types them.

The folder keeps one unit for each measure, °C, mm and kg, whatever the crew's own units are
(`units` in vehicle.toml). Here are the only two ways between: `shown` and `as_kept`.
"""

import math
import re
from typing import Literal, NamedTuple

# Which way a converted figure is rounded: a distance to keep is rounded up ("more" is safe), the
# most that is allowed is rounded down ("less"); empty: to the nearest.
Safe = Literal["", "more", "less"]


class Unit(NamedTuple):
    """A unit by its sign: `times` the kept value plus `plus` is the value in this unit."""

    sign: str
    times: float = 1.0
    plus: float = 0.0
    also: tuple[str, ...] = ()  # other ways to type the sign


# Kept unit -> the unit of a folder with imperial units. An inch is 25.4 mm, a pound 0.45359237 kg
# (the international yard and pound, 1959): both exact.
_IMPERIAL = {
    "°C": Unit("°F", 9 / 5, 32.0, ("f",)),
    "mm": Unit("in", 1 / 25.4, also=('"', "inch", "inches")),
    "kg": Unit("lb", 1 / 0.45359237, also=("lbs", "pound", "pounds")),
}
_KEPT = {
    "°C": Unit("°C", also=("c",)),
    "mm": Unit("mm"),
    "kg": Unit("kg"),
}


def unit_here(kept: str, units: str) -> str:
    """The sign in which a measure kept in `kept` is shown and typed: "°F" for "°C"."""
    return _here(kept, units).sign


def _here(kept: str, units: str) -> Unit:
    own = _KEPT.get(kept, Unit(kept))
    return _IMPERIAL.get(kept, own) if units == "imperial" else own


def shown(value: float, kept: str, units: str) -> str:
    """The value with its unit, as this crew reads it: "18.5 °C", "65 °F", "62 %"."""
    unit = "day" if kept == "days" and value == 1 else unit_here(kept, units)
    return f"{bare(value, kept, units)} {unit}".rstrip()


def bare(value: float, kept: str, units: str) -> str:
    """As `shown`, without the unit; one decimal where the unit is not the kept one."""
    unit = _here(kept, units)
    if unit.sign == kept:
        return f"{value:.10g}"
    return f"{round(value * unit.times + unit.plus, 1) + 0.0:.10g}"


def as_kept(typed: str, kept: str, units: str) -> float:
    """The kept value of what was typed: "65", "65 F", "18,5 °C". Raises Unread.

    Without a sign the crew's own unit is meant; with one, that unit.
    """
    from crewboard.plan.as_typed import Unread, number  # only where something is typed

    unit, figure = _here(kept, units), typed.strip()
    for other in (_KEPT.get(kept, Unit(kept)), _IMPERIAL.get(kept, unit)):
        for sign in (other.sign, *other.also):
            signed = re.fullmatch(rf"(.*[\d.])\s*°?\s*{re.escape(sign)}", figure, re.IGNORECASE)
            if signed:
                unit, figure = other, signed[1]
                break
    if not figure:
        raise Unread(f'"{typed}" is not a number', f"write a number of {unit.sign}")
    value = number(figure)
    # Two decimals: what was typed in whole degrees is shown as it was typed.
    return value if unit.sign == kept else round((value - unit.plus) / unit.times, 2)


def temperature(celsius: float, units: str) -> str:
    """ "18.5 °C", in a folder with imperial units "65.3 °F"."""
    return shown(celsius, "°C", units)


def read_temperature(typed: str, units: str) -> float:
    """Degrees Celsius of "18,5", "18.5 C" or "65 F". Raises Unread."""
    return as_kept(typed, "°C", units)


# Metric unit, imperial unit, and what one of the imperial is in the metric: all exact by the
# international yard and pound of 1959, the US gallon of 231 cubic inches, and standard gravity
# (9.80665 m/s2, 3rd CGPM 1901) for the psi.
_PAIRS = (
    ("m", "ft", 0.3048),
    ("mm", "in", 25.4),
    ("cm", "in", 2.54),
    ("kg", "lb", 0.45359237),
    ("bar", "psi", 0.45359237 * 9.80665 / 0.0254**2 / 1e5),
    ("m/s", "ft/min", 0.3048 / 60),
    ("km/h", "mph", 1.609344),
    ("litres", "US gallons", 3.785411784),
)


def how_many(count: int, thing: str, things: str = "") -> str:
    """ "1 task", "3 tasks", "2 people"; `things` where no s makes the plural."""
    if count == 1 or things:
        return f"{count} {thing if count == 1 else things}"
    return f"{count} people" if thing == "person" else f"{count} {thing}s"


def both(value: float, unit: str, units: str, safe: Safe = "") -> str:
    """A quoted figure in metric and imperial units, those of the folder first: "11 m (35 ft)".

    The quoted figure stays as it is. The other is rounded to two figures, never more coarsely than
    to whole units, whichever way `safe` says; a temperature to whole degrees, metres and feet to
    tenths: nobody paces off a hundredth.
    """
    quoted = f"{value:.10g} {unit}".rstrip()
    other = _other(value, unit, safe)
    if not other:
        return quoted
    metric = unit == "°C" or any(unit == pair[0] for pair in _PAIRS)
    return f"{quoted} ({other})" if metric == (units != "imperial") else f"{other} ({quoted})"


def _other(value: float, unit: str, safe: Safe) -> str:
    """The figure in the unit of the other kind; empty where it has none."""
    if unit == "°C":
        return f"{_rounded(value * 9 / 5 + 32, 0, safe)} °F"
    if unit == "°F":
        return f"{_rounded((value - 32) * 5 / 9, 0, safe)} °C"
    for metric, imperial, one in _PAIRS:
        if unit in (metric, imperial):
            there = value / one if unit == metric else value * one
            places = 1 - math.floor(math.log10(abs(there))) if there else 0
            sign = imperial if unit == metric else metric
            places = min(1, places) if sign in ("m", "ft") else places
            return f"{_rounded(there, max(0, places), safe)} {sign}"
    return ""


def _rounded(value: float, places: int, safe: Safe) -> str:
    whole = round(value * 10**places, 6)  # what the reckoning itself adds at the end goes first
    steps = {"more": math.ceil(whole), "less": math.floor(whole), "": round(whole)}
    return f"{steps[safe] / 10**places:.10g}"
