"""The moisture that wood comes to in this air."""

from crewboard.plan.as_typed import Unread
from crewboard.plan.units import temperature
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning
from crewboard.trade.wood import EMC, at_rest

_COLDEST, _WARMEST = -1.0, 95.0  # °C: about the table's 30 to 200 °F


def _answer(given: Given) -> Reckoning:
    air, humidity = given.celsius("temperature"), float(given.percent("humidity"))
    if not _COLDEST <= air <= _WARMEST or not 0 < humidity <= 99:
        raise Unread("the table does not go so far", "write -1 to 95 °C and up to 99 % humidity")
    moisture = at_rest(air, humidity)
    return Reckoning(
        (f"wood comes to about {moisture:.1f} % in this air",),
        (f"{temperature(air, given.units)} at {humidity:g} % relative humidity",),
        (EMC,),
        ("the air stays so for weeks: one reading is not the season",),
        ("how long it takes nobody can reckon: the meter says when it is there",),
        figures={"moisture_percent": moisture},
    )


KIND = KindOfReckoning(
    "moisture",
    "Moisture of wood",
    (
        Ask("temperature", "temperature of the air", "temperature", fills="temperature"),
        Ask("humidity", "its relative humidity, in %", "percent", fills="humidity"),
    ),
    _answer,
)
