"""The moisture that wood comes to in this air."""

from crewboard.plan.as_typed import Unread
from crewboard.plan.units import as_kept, how_many, temperature
from crewboard.trade.given import Ask, Given, exact
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.reckoning import Reckoning
from crewboard.trade.wood import EMC, at_rest

_COLDEST, _WARMEST = -1.2, 93.4  # °C: the table's 30 to 200 °F


def _answer(given: Given) -> Reckoning:
    now = _moisture(given.celsius("temperature"), float(given.percent("humidity")))
    weeks = given.each("readings", lambda part: _of_reading(part, given.units))
    result = [f"wood comes to about {now:.1f} % in this air"]
    if weeks:
        mean = sum(weeks) / len(weeks)
        span = f"{min(weeks):.1f} to {max(weeks):.1f} %"
        count = how_many(len(weeks), "reading")
        result.append(f"by {count} over the weeks about {mean:.1f} %, from {span}")
    return Reckoning(
        tuple(result),
        (
            f"{temperature(given.celsius('temperature'), given.units)} at "
            f"{float(given.percent('humidity')):g} % relative humidity",
        ),
        (EMC,),
        ("the air stays so for weeks: one reading is not the season",),
        ("how long it takes nobody can reckon: the meter says when it is there",),
        figures={
            "moisture_percent": now,
            "readings": len(weeks),
            "mean_percent": sum(weeks) / len(weeks) if weeks else None,
        },
    )


def _moisture(air: float, humidity: float) -> float:
    if not _COLDEST <= air <= _WARMEST or not 0 < humidity <= 99:
        raise Unread(
            "the table does not go so far",
            "write -1 to 93 °C (30 to 200 °F), and from 1 to 99 % humidity",
        )
    return at_rest(air, humidity)


def _of_reading(typed: str, units: str) -> float:
    """ "18.5 °C 62 %"."""
    degrees, _, humidity = typed.strip().removesuffix("%").strip().rpartition(" ")
    return _moisture(as_kept(degrees, "°C", units), float(exact(humidity)))


KIND = KindOfReckoning(
    "moisture",
    "Moisture of wood",
    (
        Ask("temperature", "temperature of the air", "temperature", fills="temperature"),
        Ask("humidity", "its relative humidity, in %", "percent", fills="humidity"),
        Ask(
            "readings",
            'readings of the weeks before: "18 °C 62 %; ..."',
            "air",
            False,
            fills="readings",
        ),
    ),
    _answer,
)
