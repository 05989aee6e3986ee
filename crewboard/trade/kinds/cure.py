"""How far something has cured in the cold: what its hours count for. Never less than the label."""

from fractions import Fraction
from math import exp, log
from typing import NamedTuple

from crewboard.plan.as_typed import Unread
from crewboard.plan.units import as_kept
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.kinds.laminated import RATIO_OF_GLUE
from crewboard.trade.measures import hours, number_shown
from crewboard.trade.reckoning import Reckoning, Source

GAS = 8.314462618e-3  # kJ/(mol K), exact by the definitions of 2019 (value from memory)
_KELVIN, _TEN, _MOST = 273.15, 10, 200
EQUIVALENT = Source(
    "an hour at T counts exp(-E/R x (1/T - 1/Ts)) hours at Ts (equivalent age)",
    "ASTM C1074, written for cement: here with E of the product's own sheet",
    "from memory",
)
SHEET = Source("E, or how much faster for 10 °C", "the product's sheet, as given", "crew's rule")
DEGREES = Source(
    "degrees above 0 °C times hours (Nurse and Saul)", "ASTM C1074, for cement", "second-hand"
)
LABEL = Source("time, temperature and least temperature", "the label, as given", "crew's rule")


class AtDegrees(NamedTuple):
    """So many hours at so many °C."""

    hours: Fraction
    celsius: float


def counts_for(celsius: float, at: float, energy: float) -> float:
    """How many hours at `at` °C an hour at `celsius` counts for, `energy` in kJ/mol."""
    return exp(-energy / GAS * (1 / (celsius + _KELVIN) - 1 / (at + _KELVIN)))


def energy_of(q10: float, at: float) -> float:
    """kJ/mol by which 10 °C more, from `at` on, are `q10` times as fast."""
    apart = 1 / (at + _KELVIN) - 1 / (at + _TEN + _KELVIN)
    return GAS * log(q10) / apart


def _answer(given: Given) -> Reckoning:
    at, least = given.celsius("at"), given.celsius("least")
    energy = _energy(given, at)
    wanted = Fraction(given.span("label").about.total_seconds()) / 3600
    stretches = given.each("log", lambda part: _stretch(part, given.units))
    good = [one for one in stretches if one.celsius >= least]
    clock = sum((one.hours for one in stretches), Fraction(0))
    factors = [counts_for(one.celsius, at, energy) for one in good]
    equal = sum(float(s.hours) * f for s, f in zip(good, factors, strict=True))
    # Warmth never makes an hour count for more: the label's time is the least.
    counted = sum(float(s.hours) * min(1.0, f) for s, f in zip(good, factors, strict=True))
    left = max(0.0, float(wanted) - counted)
    cold = clock - sum((one.hours for one in good), Fraction(0))
    return Reckoning(
        (
            f"{_h(left)} still to go at the label's temperature"
            if left
            else "the label's time has passed, also counted in the cold",
            f"{_h(counted)} of {_h(float(wanted))} count, of {_h(float(clock))} by the clock",
            *((f"{_h(float(cold))} below the label's least count nothing",) if cold else ()),
        ),
        (f"{_h(equal)} at the label's temperature, where warmth may count for more",),
        (EQUIVALENT, SHEET, LABEL, DEGREES, RATIO_OF_GLUE),
        ("the stuff was as warm as the air",),
        ("look before it is loaded: what the label says goes before this",),
        figures={
            "counted_hours": counted,
            "equivalent_hours": equal,
            "degree_hours": sum(float(s.hours) * max(0.0, s.celsius) for s in stretches),
            "left_hours": left,
        },
    )


def _energy(given: Given, at: float) -> float:
    if given.has("energy") == given.has("q10"):
        raise Unread("say E or how much faster, as the product's sheet does", "write one of them")
    if given.has("energy"):
        energy = float(given.number("energy"))
    else:
        faster = float(given.number("q10"))
        energy = energy_of(faster, at) if faster > 1 else 0.0
    if not 0 < energy <= _MOST:
        raise Unread("no such energy", "write E in kJ/mol, about 30 to 100")
    return energy


def _stretch(typed: str, units: str) -> AtDegrees:
    """ "6 h at 25 °C", "90 min at 12 °C"."""
    lasted, mark, degrees = typed.partition(" at ")
    if not mark:
        raise Unread(f'"{typed}" is no time at a temperature', "write 6 h at 25 °C")
    celsius = as_kept(degrees.strip(), "°C", units)
    if celsius <= -_KELVIN:
        raise Unread(f'"{typed}" is colder than can be', "write 6 h at 25 °C")
    return AtDegrees(hours(lasted), celsius)


def _h(hours: float) -> str:
    return f"{number_shown(hours, 1)} h"


KIND = KindOfReckoning(
    "cure",
    "Cure in the cold",
    (
        Ask("label", "cured after, as the label says", "span", fills="cure"),
        Ask("at", "the temperature at which that holds", "temperature"),
        Ask("least", "the least that the label allows", "temperature"),
        Ask("log", 'hours by temperature: "6 h at 25 °C; 12 h at 12 °C"', "log"),
        Ask("energy", "E on the product's sheet, in kJ/mol", "number", needed=False),
        Ask("q10", "or how many times faster for 10 °C more", "number", needed=False),
    ),
    _answer,
)
