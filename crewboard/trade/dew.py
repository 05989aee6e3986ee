"""The dew point of air.

Source: Magnus' formula with the constants of the World Meteorological Organization over water,
17.62 and 243.12 (from memory). The tests hold it against psychrolib and published examples; below
freezing it gives the dew point, psychrolib the frost point.
"""

from math import log

from crewboard.trade.reckoning import Source

MAGNUS = Source(
    "dew point by Magnus' formula, 17.62 and 243.12 °C over water",
    "World Meteorological Organization",
    "from memory",
)


def dew_point(celsius: float, humidity: float) -> float:
    """°C, of air of that temperature and relative humidity in % (more than nothing)."""
    gamma = log(humidity / 100) + 17.62 * celsius / (243.12 + celsius)
    return 243.12 * gamma / (17.62 - gamma)
