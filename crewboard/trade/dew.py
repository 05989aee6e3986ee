"""The dew point of air.

Source: Magnus' formula with the constants of the World Meteorological Organization over water,
17.62 and 243.12 (from memory). The tests hold it against psychrolib and published examples; below
freezing it gives the dew point, psychrolib the frost point.
"""

from math import exp, log

from crewboard.trade.reckoning import Source

MAGNUS = Source(
    "dew point by Magnus' formula, 17.62 and 243.12 °C over water",
    "World Meteorological Organization",
    "from memory",
)


PSYCHROMETER = Source(
    "humidity of a wet bulb: e = es(wet) - 0.000653 (1 + 0.000944 wet) x 1013 hPa x (dry - wet)",
    "World Meteorological Organization, for a wet bulb with a draught at sea level",
    "from memory",
)
_SEA_LEVEL = 1013.25  # hPa


def dew_point(celsius: float, humidity: float) -> float:
    """°C, of air of that temperature and relative humidity in % (more than nothing)."""
    gamma = log(humidity / 100) + 17.62 * celsius / (243.12 + celsius)
    return 243.12 * gamma / (17.62 - gamma)


def humidity_by_wet_bulb(celsius: float, wet: float) -> float:
    """% relative humidity, by a thermometer and one with a wet wick in a draught, above freezing.
    Nothing or less where no air is that dry."""
    drop = 0.000653 * (1 + 0.000944 * wet) * _SEA_LEVEL * (celsius - wet)
    return 100 * (_saturated(wet) - drop) / _saturated(celsius)


def _saturated(celsius: float) -> float:
    """hPa of vapour over water."""
    return 6.112 * exp(17.62 * celsius / (243.12 + celsius))
