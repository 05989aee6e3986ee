"""What was typed, kept with the unit that was meant: the same ever after, whatever the folder's."""

import re

from crewboard.plan.as_typed import Unread
from crewboard.plan.length import length
from crewboard.plan.units import unit_here
from crewboard.trade.given import Reads, unit_of

# What stands between lengths in one blank; the signs stay as they were typed.
_BETWEEN = re.compile(r"(\s*(?:;|,(?=\s)|±|\+/?-|give or take)\s*|\s+(?:\+|at)\s+)")
_NAMED = re.compile(r"([:=]\s*[-+−]?\s*)")  # "A to B: -12", "A = 100"


def with_its_unit(reads: Reads, typed: str, units: str) -> str:
    """What was typed, with the folder's unit where none was. What is no measure stays as it is.
    Raises Unread where a length is none."""
    match reads:
        case "length":
            return length(typed, units).text
        case "lengths":
            unit = "" if unit_of(typed) else f" {'in' if units == 'imperial' else 'mm'}"
            return f"{typed}{unit}"
        case "temperature":
            return _temperature(typed, units)
        case "measures":
            return _measures(typed, units)
        case "heights":
            return ";".join(_height(part, units) for part in typed.split(";"))
        case "log":
            return "; ".join(_hours(part.strip(), units) for part in typed.split(";"))
        case "air":
            return "; ".join(_reading(part.strip(), units) for part in typed.split(";"))
        case _:
            return typed


def _temperature(typed: str, units: str) -> str:
    return typed if typed[-1:].isalpha() else f"{typed} {unit_here('°C', units)}"


def _measures(typed: str, units: str) -> str:
    return "".join(_measure(part, units) for part in _BETWEEN.split(typed))


def _measure(part: str, units: str) -> str:
    try:
        return length(part, units).text if part.strip() else part
    except Unread:
        return part


def _height(part: str, units: str) -> str:
    """Behind the names, which may be numbers."""
    name, *rest = _NAMED.split(part, maxsplit=1)
    return f"{name}{rest[0]}{_measures(rest[1], units)}" if rest else part


def _hours(part: str, units: str) -> str:
    """ "6 h at 25"."""
    hours, mark, degrees = part.partition(" at ")
    return f"{hours} at {_temperature(degrees.strip(), units)}" if mark else part


def _reading(part: str, units: str) -> str:
    """ "18 62 %": degrees and humidity."""
    degrees, blank, humidity = part.removesuffix("%").strip().rpartition(" ")
    if not blank:
        return part
    return f"{_temperature(degrees, units)} {humidity} %"
