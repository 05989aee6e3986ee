"""Write down what the thermometer and the hygrometer in the shop say."""

from __future__ import annotations

import re

from crewboard.logbook.acts import Reading
from crewboard.logbook.fields import EntryField, fields_of
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.plan.units import read_temperature, temperature, unit_here
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine

# "low 4" or "highest 19 70": the lowest and highest since the last reading.
_SINCE = re.compile(r"\b(low|high)(?:est)?\b([^a-z]*(?:[cf]\b[^a-z]*)?)", re.IGNORECASE)


async def reading(app: BoardApp) -> None:
    """Ask for both in one line: "14 62" or "14" or "62 %"."""
    imperial = app.board.plan.vehicle.units == "imperial"
    degrees = unit_here("°C", app.board.plan.vehicle.units)

    def wrong(text: str) -> str | None:
        return None if parsed(text, imperial=imperial) else f"write {degrees} and %, such as 14 62"

    ask = AskLine(
        "Shop reading",
        f"temperature in {degrees}, then % humidity, then low and high since the last",
        hint="14 62   or   14   or   62%   or   14 low 4 high 19",
        check=wrong,
    )
    text = await app.push_screen_wait(ask)
    taken = parsed(text, imperial=imperial) if text else None
    outcome = await app.keep([taken]) if taken is not None else None
    if taken is not None and outcome is not None and outcome.kept:
        kept = f"reading saved: {in_words(taken, app.board.plan.vehicle.units)}"
        app.tell("; ".join([kept, *outcome.remarks]), warning=bool(outcome.remarks))


def parsed(text: str, *, imperial: bool = False) -> Reading | None:
    """ "14 62", "14,5 C", "62 %", "14 low 4 high 19" as a reading; °F become °C. None where it is
    none."""
    units = "imperial" if imperial else "metric"
    now, since = _SINCE.sub(" ", text), {}
    try:
        read = _pair(_figures(now), units)
        units = _unit_said(now) or units  # meant for the lowest and highest too
        for side, figures in _SINCE.findall(text):
            if side[0] in since or (pair := _pair(_figures(figures), units)) is None:
                return None
            since[side[0]] = pair
    except Unread:
        return None
    lowest, highest = since.get("l", (None, None)), since.get("h", (None, None))
    if read is None or read == (None, None):
        return None
    kept = Reading(*read, "", lowest[0], highest[0], lowest[1], highest[1])
    return kept if _fits(kept) else None


def _unit_said(now: str) -> str:
    """The units of a temperature typed with its sign, "" without one."""
    signs = [figure[-1].casefold() for figure, _ in _figures(now)]
    return "metric" if "c" in signs else "imperial" if "f" in signs else ""


def _pair(figures: list[tuple[str, bool]], units: str) -> tuple[float | None, float | None] | None:
    """Temperature and humidity of at most one figure each; None where there are more."""
    celsius = humidity = None
    for figure, percent in figures:
        if not percent and celsius is None and humidity is None:
            celsius = read_temperature(figure, units)
        elif humidity is None:
            humidity = as_typed.number(figure)
        else:
            return None
    return celsius, humidity


def _fits(read: Reading) -> bool:
    """Whether each figure can be at all; what hardly can is asked about when it is written."""
    return all(_can_be(field, getattr(read, field.name)) for field in fields_of(Reading))


def _can_be(field: EntryField, value: object) -> bool:
    least, most = field.bounds()
    if not isinstance(value, float) or least is None or most is None:
        return True
    return least <= value <= most


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
    for word, celsius in (("lowest", reading.lowest_c), ("highest", reading.highest_c)):
        parts += [f"{word} {temperature(celsius, units)}"] if celsius is not None else []
    return ", ".join(parts)
