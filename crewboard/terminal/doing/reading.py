"""Write down what the thermometer and the hygrometer in the shop say."""

from __future__ import annotations

from crewboard.logbook.acts import Reading
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine


async def reading(app: BoardApp) -> None:
    """Ask for both in one line: "14 62" or "14" or "62 %"."""
    imperial = app.board.plan.vehicle.units == "imperial"
    degrees = "°F" if imperial else "°C"

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
        app.tell(f"reading kept: {in_words(found)}")


def parsed(text: str, *, imperial: bool = False) -> Reading | None:
    """ "14 62", "14,5 C", "62 %" as a reading; °F become °C. None where it is none."""
    celsius = humidity = None
    numbers = text.replace(",", ".").replace("%", " % ").split()
    words: list[tuple[float, bool]] = []
    for word in numbers:
        if word == "%" and words:
            words[-1] = (words[-1][0], True)
            continue
        try:
            words.append((float(word.rstrip("°CcFf")), False))
        except ValueError:
            if word.strip("°CcFf"):
                return None
    for number, percent in words:
        if not percent and celsius is None and humidity is None:
            celsius = round((number - 32) * 5 / 9, 1) if imperial else number
        elif humidity is None:
            humidity = number
        else:
            return None
    if celsius is None and humidity is None:
        return None
    fits = (celsius is None or -60 <= celsius <= 70) and (humidity is None or 0 <= humidity <= 100)
    return Reading(celsius, humidity) if fits else None


def in_words(found: Reading) -> str:
    """ "14 °C, 62 %"."""
    parts = [f"{found.celsius:g} °C"] if found.celsius is not None else []
    parts += [f"{found.humidity:g} %"] if found.humidity is not None else []
    return ", ".join(parts)
