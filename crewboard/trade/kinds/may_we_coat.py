"""May we coat now? Surface against dew point, and the limits of the label."""

from collections.abc import Iterator
from math import ceil

from crewboard.plan.as_typed import Unread
from crewboard.plan.units import temperature
from crewboard.trade.dew import MAGNUS, PSYCHROMETER, dew_point, humidity_by_wet_bulb
from crewboard.trade.given import Ask, Given, Known
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning, Source

_ABOVE, _AT_MOST = 3.0, 85.0  # °C above the dew point, % relative humidity
RULE = Source(
    f"surface at least {_ABOVE:g} °C (5 °F) above the dew point, humidity at most {_AT_MOST:g} %",
    "coating guides citing ISO 8502-4 and ISO 12944-7; written for steel, the clause not seen",
    "second-hand",
)
TOGETHER = "both thermometers read together, the wick wet and in a draught, near sea level"
_WARMEST, _COLDEST = 60, -40
_HOTTEST = 100  # °C, of a surface
_FREEZES = 0.0


def _answer(given: Given) -> Reckoning:
    air, surface = given.celsius("temperature"), given.celsius("surface")
    by_wet = given.has("wet_bulb")
    humidity = _by_wet_bulb(given, air) if by_wet else float(given.percent("humidity"))
    if not humidity or not _COLDEST <= air <= _WARMEST:
        raise Unread("that is no air of a shop", "write what thermometer and hygrometer say")
    if not _COLDEST <= surface <= _HOTTEST:
        raise Unread("no surface that is coated is so cold or hot", "write what it was read to be")
    dew = dew_point(air, humidity)
    against = _against(air, surface, dew, humidity, given.units)
    first = (
        "not in this air: " + "; ".join(against)
        if against
        else "by this rule the air is no hindrance"
    )
    old = next((known.age for known in _read(given) if known.age), "")
    apart = abs(surface - dew)
    side = "above" if surface >= dew else "below"
    return Reckoning(
        (
            f"{first} (air read {old} ago)" if old else first,
            f"dew point {temperature(round(dew, 1), given.units)}, the surface "
            f"{_degrees(apart, given.units)} {side} it",
        ),
        (
            f"air {temperature(air, given.units)} at {humidity:g} %, surface "
            f"{temperature(surface, given.units)}",
            *(
                (f"wet bulb {temperature(given.celsius('wet_bulb'), given.units)}",)
                if by_wet
                else ()
            ),
        ),
        (*((PSYCHROMETER,) if by_wet else ()), MAGNUS, RULE),
        (
            *((TOGETHER,) if by_wet else ()),
            "air and surface stay so until the coat is dry: dew falls in the evening",
        ),
        (
            *((f"the air was read {old} ago: read it again before you coat",) if old else ()),
            "the rule is for steel: on wood measure the moisture too, by the label",
            "what the label says of temperature, humidity and moisture goes before this",
            "this asks the air and nothing else: the task's checks stand as they are",
        ),
        ("spray-coating",),
        {"dew_point_c": dew, "above_c": surface - dew, "hindered": bool(against)},
    )


def _read(given: Given) -> Iterator[Known]:
    """What of the air the folder knows, and nobody typed."""
    for name in ("temperature", "humidity"):
        if name in given.known and not given.typed.get(name, "").strip():
            yield given.known[name]


def _by_wet_bulb(given: Given, air: float) -> float:
    """% to a tenth, of the two thermometers; it goes before a humidity that the folder knows."""
    wet = given.celsius("wet_bulb")
    if given.typed.get("humidity", "").strip():
        raise Unread("the wet bulb says the humidity already", "write one of the two")
    if not 0 < wet <= air:
        shown = temperature(wet, given.units)
        raise Unread(
            f"no wet bulb reads {shown} in this air", "above freezing, and at most the air"
        )
    humidity = round(humidity_by_wet_bulb(air, wet), 1)
    if humidity <= 0:
        raise Unread("no air is that dry", "read both thermometers again, the wick wet")
    return humidity


def _against(air: float, surface: float, dew: float, humidity: float, units: str) -> list[str]:
    said = []
    if min(air, surface) <= _FREEZES:
        said.append(f"at {temperature(_FREEZES, units)} or below what is damp freezes on")
    if surface - dew < _ABOVE:
        wanted = ceil((dew + _ABOVE) * 10) / 10
        said.append(
            f"the surface wants {temperature(wanted, units)} or more (dew point "
            f"and {_degrees(_ABOVE, units)})"
        )
    if humidity > _AT_MOST:
        said.append(f"{humidity:g} % humidity is more than {_AT_MOST:g} %")
    return said


def _degrees(apart: float, units: str) -> str:
    """A difference of temperatures."""
    return f"{apart * 9 / 5:.1f} °F" if units == "imperial" else f"{apart:.1f} °C"


KIND = KindOfReckoning(
    "may-we-coat",
    "May we coat now",
    (
        Ask("temperature", "temperature of the air", "temperature", fills="temperature"),
        Ask(
            "humidity",
            "its relative humidity, in %",
            "percent",
            False,
            "",
            (),
            "humidity",
            "wet_bulb",
        ),
        Ask("wet_bulb", "or its wet bulb, swung or fanned", "temperature", False),
        Ask("surface", "temperature of the surface", "temperature"),
    ),
    _answer,
)
