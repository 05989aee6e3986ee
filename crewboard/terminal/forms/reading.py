"""What a person types into a form's line, read; and values as a person would type them."""

from __future__ import annotations

import re
from contextvars import ContextVar
from datetime import date, time

from crewboard.legible import legible
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Today, Unread
from crewboard.plan.duration import Duration
from crewboard.plan.workdays import NotARule, parse_rule

# What was typed cannot be read; the message is a sentence for the one who typed it.
Wrong = Unread
# The day and the work days against which "2 May" and "12:00" are read, while a form is kept.
AS_OF: ContextVar[Today] = ContextVar("as of")


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
    """ "2026-05-02" or "2 May"; None where nothing is typed."""
    return as_typed.day(typed, AS_OF.get().on) if typed.strip() else None


def clock(typed: str) -> time:
    return as_typed.clock(typed)


def span(typed: str) -> Duration | None:
    return as_typed.span(typed) if typed.strip() else None


def number(typed: str) -> float | None:
    return as_typed.number(typed) if typed.strip() else None


def count(typed: str) -> int | None:
    """A whole number; None where nothing is typed, or nought."""
    if not typed.strip():
        return None
    if not (typed.strip().isascii() and typed.strip().isdigit()):
        raise Wrong(f'"{typed}" is not a whole number: write 9')
    return int(typed) or None


def estimate(typed: str) -> tuple[float, ...] | None:
    """ "4 6 12", "4, 6, 12" or "6": low, likely, high. "4-6": the likely lies in the middle."""
    if both := re.fullmatch(r"\s*([\d.,]+)\s*[-–]\s*([\d.,]+)\s*", typed):
        low, high = number(both[1]) or 0.0, number(both[2]) or 0.0
        typed = f"{low} {(low + high) / 2} {high}"
    words = re.findall(r"[^\s,;]+", typed.replace(" to ", " "))
    if not words:
        return None
    hours = [number(word) or 0.0 for word in words]
    if len(hours) == 1:
        hours *= 3
    if len(hours) != 3 or not 0 <= hours[0] <= hours[1] <= hours[2] or not hours[2]:
        raise Wrong("write person-hours from low to high: 4 6 12, or 4-6")
    return tuple(hours)


def people(typed: str) -> object:
    """ "2" for that many, "2-4" for the least and the most."""
    words = re.findall(r"\d+", typed)
    if not typed.strip():
        return None
    counts = [int(word) for word in words]
    if (
        re.fullmatch(r"[\d\s,;to-]*", typed)
        and len(counts) in (1, 2)
        and 1 <= counts[0] <= counts[-1]
    ):
        return counts[0] if len(counts) == 1 else tuple(counts)
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


A_DAY = "2026-05-02"  # how a day is written, where nothing is typed yet


# --- the other way round -------------------------------------------------------------------------


def typed_number(value: float | None) -> str:
    return "" if value is None else f"{value:.10g}"


def typed_day(value: object) -> str:
    """A day, or what stands in a file in its place."""
    return "" if value is None else str(value)


def typed_estimate(value: tuple[float, ...] | None) -> str:
    if value is None:
        return ""
    return typed_number(value[0]) if len(set(value)) == 1 else " ".join(map(typed_number, value))


def typed_people(least: int, most: int | None) -> str:
    if most is None:
        return "" if least == 1 else str(least)
    return str(least) if least == most else f"{least}-{most}"
