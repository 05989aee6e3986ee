"""Dates, spans and counts as the crew says them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, timedelta

from crewboard.plan.plan import Plan

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day_in_words(day: date) -> str:
    """ "Sat 2 May 2026", whatever the machine's language."""
    return f"{_DAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]} {day.year}"


def day_and_time(moment: datetime) -> str:
    """ "Sat 2 May 2026 16:00"."""
    return f"{day_in_words(moment)} {moment:%H:%M}"


def how_many(count: int, thing: str) -> str:
    """ "1 task", "3 tasks", "2 people"."""
    if count == 1:
        return f"1 {thing}"
    return f"{count} people" if thing == "person" else f"{count} {thing}s"


def how_long(span: timedelta) -> str:
    """A span in its two largest fitting words: "3 weeks", "2 days", "5 h", "40 min"."""
    minutes = int(span.total_seconds() // 60)
    if minutes >= 56 * 1440:
        return f"{round(minutes / 1440 / 30.44)} months"
    if minutes >= 14 * 1440:
        return f"{round(minutes / 1440 / 7)} weeks"
    if minutes >= 2 * 1440:
        return f"{round(minutes / 1440)} days"
    if minutes >= 120:
        return f"{round(minutes / 60)} h"
    return f"{max(0, minutes)} min"


def listed(words: Iterable[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    each = list(words)
    return " and ".join([", ".join(each[:-1]), each[-1]] if len(each) > 1 else each)


def person(plan: Plan, who: str) -> str:
    """A volunteer's name, or the id as written where the crew list does not know it."""
    known = plan.crew.get(who)
    return known.name if known else who


def by_whom(plan: Plan, people: Iterable[str]) -> str:
    """ ", by Ada and Tom", or nothing where nobody was named."""
    names = listed(person(plan, who) for who in people)
    return f", by {names}" if names else ""
