"""What a person types into a form's line, read; and values as a person would type them."""

from __future__ import annotations

import re
from datetime import date, datetime, time

from crewboard.legible import legible
from crewboard.plan.duration import Duration, NotADuration, parse_duration
from crewboard.plan.workdays import NotARule, parse_rule


class Wrong(ValueError):
    """What was typed cannot be read; the message is a sentence for the one who typed it."""


def restored(shown: str, original: str) -> str:
    """What was typed, with the unseen characters of the original in the place of their marks.

    A form shows the marks, so that nothing steers the terminal, and gives the characters back.
    """
    for character in set(original):
        mark = legible(character, lines=True)
        if mark != character:
            shown = shown.replace(mark, character)
    return shown


def text(typed: str) -> str | None:
    return typed.strip() or None


def needed(typed: str) -> str:
    if not typed.strip():
        raise Wrong("something has to be written here")
    return typed.strip()


def day(typed: str) -> date | None:
    if not typed.strip():
        return None
    try:
        return date.fromisoformat(typed.strip())
    except ValueError:
        raise Wrong(f'"{typed}" is not a date: write 2026-05-02') from None


def moment(typed: str) -> datetime | None:
    """ "2026-05-09 12:00"; a day alone means its end."""
    if not typed.strip():
        return None
    that_day, _, clock_time = typed.strip().replace("T", " ").partition(" ")
    found = day(that_day)
    assert found is not None
    return datetime.combine(found, clock(clock_time) if clock_time else time(23, 59))


def clock(typed: str) -> time:
    found = re.fullmatch(r"\s*(\d{1,2})(?:[:.](\d\d))?\s*", typed)
    if found is None or int(found[1]) > 23 or int(found[2] or 0) > 59:
        raise Wrong(f'"{typed}" is not a time of day: write 9:00 or 16:30')
    return time(int(found[1]), int(found[2] or 0))


def span(typed: str) -> Duration | None:
    if not typed.strip():
        return None
    try:
        return parse_duration(typed)
    except NotADuration as error:
        raise Wrong(str(error)) from None


def needed_span(typed: str) -> Duration:
    found = span(typed)
    if found is None:
        raise Wrong('write how long, such as "36 hours", "2 days" or "1 month"')
    return found


def number(typed: str) -> float | None:
    if not typed.strip():
        return None
    try:
        found = float(typed.strip().replace(",", "."))
    except ValueError:
        raise Wrong(f'"{typed}" is not a number') from None
    if found != found or abs(found) > 1e9:
        raise Wrong(f'"{typed}" is not a number that can be used here')
    return found


def hours(typed: str) -> float:
    found = number(typed)
    if found is None:
        raise Wrong("write hours, such as 3.5")
    return found


def estimate(typed: str) -> tuple[float, ...] | None:
    """ "4 6 12", "4, 6, 12" or "6": low, likely, high."""
    words = re.findall(r"[^\s,;]+", typed.replace(" to ", " "))
    if not words:
        return None
    found = [number(word) or 0.0 for word in words]
    if len(found) == 1:
        found *= 3
    if len(found) != 3 or not 0 <= found[0] <= found[1] <= found[2] or not found[2]:
        raise Wrong("write person-hours from low to high: 4 6 12")
    return tuple(found)


def people(typed: str) -> object:
    """ "2" for that many, "2-4" for the least and the most."""
    words = re.findall(r"\d+", typed)
    if not typed.strip():
        return None
    found = [int(word) for word in words]
    if re.fullmatch(r"[\d\s,;to-]*", typed) and len(found) in (1, 2) and 1 <= found[0] <= found[-1]:
        return found[0] if len(found) == 1 else tuple(found)
    raise Wrong("write the least and the most people: 2-4, or 2")


def words(typed: str) -> tuple[str, ...]:
    """Names with commas between."""
    return tuple(dict.fromkeys(word.strip() for word in typed.split(",") if word.strip()))


def day_rules(typed: str) -> tuple[str, ...]:
    """The days on which the crew meets: "first saturday, third saturday"."""
    rules = words(typed)
    for rule in rules:
        try:
            parse_rule(rule)
        except NotARule as error:
            raise Wrong(str(error)) from None
    return rules


# --- the other way round -------------------------------------------------------------------------


def typed_number(value: float | None) -> str:
    return "" if value is None else f"{value:.10g}"


def typed_estimate(value: tuple[float, ...] | None) -> str:
    if value is None:
        return ""
    return typed_number(value[0]) if len(set(value)) == 1 else " ".join(map(typed_number, value))


def typed_people(least: int, most: int | None) -> str:
    if most is None:
        return "" if least == 1 else str(least)
    return str(least) if least == most else f"{least}-{most}"
