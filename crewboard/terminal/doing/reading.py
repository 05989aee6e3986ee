"""Write down what the thermometer and the hygrometer in the shop say."""

from __future__ import annotations

from crewboard.logbook.acts import Reading
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.plan.units import read_temperature, temperature, unit_here
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine


async def reading(app: BoardApp) -> None:
    """Ask for both in one line: "14 62" or "14" or "62 %"."""
    imperial = app.board.plan.vehicle.units == "imperial"
    degrees = unit_here("°C", app.board.plan.vehicle.units)

    def wrong(text: str) -> str | None:
        return None if parsed(text, imperial=imperial) else f"write {degrees} and %, such as 14 62"

    ask = AskLine(
        "Shop reading",
        f"temperature in {degrees}, then humidity in % (one of them may be left out)",
        hint="14 62   or   14   or   62%",
        check=wrong,
    )
    text = await app.push_screen_wait(ask)
    found = parsed(text, imperial=imperial) if text else None
    if found is not None and (await app.keep([found])).kept:
        app.tell(f"reading kept: {in_words(found, app.board.plan.vehicle.units)}")


def parsed(text: str, *, imperial: bool = False) -> Reading | None:
    """ "14 62", "14,5 C", "62 %" as a reading; °F become °C. None where it is none."""
    units = "imperial" if imperial else "metric"
    celsius = humidity = None
    try:
        for figure, percent in _figures(text):
            if not percent and celsius is None and humidity is None:
                celsius = read_temperature(figure, units)
            elif humidity is None:
                humidity = as_typed.number(figure)
            else:
                return None
    except Unread:
        return None
    if celsius is None and humidity is None:
        return None
    fits = (celsius is None or -60 <= celsius <= 70) and (humidity is None or 0 <= humidity <= 100)
    return Reading(celsius, humidity) if fits else None


def _figures(text: str) -> list[tuple[str, bool]]:
    """Each figure as it is typed, and whether it is a humidity by its sign."""
    figures: list[tuple[str, bool]] = []
    for word in text.replace("%", " % ").split():
        if word == "%" and figures:
            figures[-1] = (figures[-1][0], True)
        elif not word.strip("°CcFf") and figures:
            figures[-1] = (figures[-1][0] + word, False)
        else:
            figures.append((word, False))
    return figures


def in_words(reading: Reading, units: str = "metric") -> str:
    """ "14 °C, 62 %"."""
    parts = [temperature(reading.celsius, units)] if reading.celsius is not None else []
    parts += [f"{reading.humidity:g} %"] if reading.humidity is not None else []
    return ", ".join(parts)
