"""How long a hold lasts, written as people say it: "1 month", "36 hours", "90 min", "2 days"."""

import re
from datetime import timedelta
from typing import NamedTuple

# Words people write, and what each adds: (months, days, minutes).
_UNITS: dict[str, tuple[int, int, int]] = {
    "year": (12, 0, 0),
    "month": (1, 0, 0),
    "week": (0, 7, 0),
    "day": (0, 1, 0),
    "hour": (0, 0, 60),
    "minute": (0, 0, 1),
}
# In short, as narrow columns show them too; "m" could be months or minutes.
_SHORT = {
    "y": "year",
    "yr": "year",
    "mo": "month",
    "mon": "month",
    "w": "week",
    "wk": "week",
    "d": "day",
    "h": "hour",
    "hr": "hour",
    "min": "minute",
}
_PART = re.compile(r"\s*(\d{1,6}(?:[.,]\d{1,4})?)\s*([A-Za-z]+)\.?\s*(?:,|and\b)?", re.ASCII)
MOST_MONTHS = 12 * 100


class Duration(NamedTuple):
    """A span of calendar time.

    Months and days follow the calendar (a month after 31 January is the last day of February, a
    day keeps the wall-clock time across a clock change); minutes are elapsed time.
    """

    months: int = 0
    days: int = 0
    minutes: int = 0

    def __str__(self) -> str:
        return spoken(self)

    @property
    def about(self) -> timedelta:
        """Its length where it does not matter from when on it is counted; a month is 30 days."""
        return timedelta(days=self.months * 30 + self.days, minutes=self.minutes)


class NotADuration(ValueError):
    """The text is no duration; the message says what a duration looks like."""


def parse_duration(text: str) -> Duration:
    """Read "1 month", "36 hours", "1 week 2 days", "1.5 hours", "2d".

    Raises NotADuration for anything else, for a fraction of a day or of a longer unit that is not
    whole minutes or days, for nought and for more than a hundred years.
    """
    at, months, days, minutes = 0, 0, 0, 0
    while at < len(text):
        part = _PART.match(text, at)
        if part is None:
            raise _not_one(text)
        word = part[2].lower().removesuffix("s")
        word = _SHORT.get(word, word)
        unit = _UNITS.get(word)
        if unit is None:
            raise _not_one(text)
        amount = float(part[1].replace(",", "."))
        if unit[2] == 0 and amount != int(amount):
            raise NotADuration(f'"{text}" has a part of a {word}: write whole days, or hours')
        months += int(amount) * unit[0]
        days += int(amount) * unit[1]
        minutes += round(amount * unit[2])
        at = part.end()
    span = Duration(months, days, minutes)
    if span == Duration():
        raise _not_one(text)
    if months > MOST_MONTHS or days > MOST_MONTHS * 31 or minutes > MOST_MONTHS * 31 * 1440:
        raise NotADuration(f'"{text}" is more than a hundred years')
    return span


def _not_one(text: str) -> NotADuration:
    return NotADuration(f'"{text}" is not a time span: write "36 hours", "2 days" or "1 month"')


def spoken(span: Duration) -> str:
    """The duration in words that parse_duration reads back to the same value."""
    years, months = divmod(span.months, 12)
    weeks, days = divmod(span.days, 7) if span.days % 7 == 0 else (0, span.days)
    hours, minutes = divmod(span.minutes, 60)
    if span.minutes < 120 and minutes:
        hours, minutes = 0, span.minutes
    counted = ((years, "year"), (months, "month"), (weeks, "week"), (days, "day"), (hours, "hour"))
    words = [f"{n} {word}{'s' if n != 1 else ''}" for n, word in counted if n]
    if minutes:
        words.append(f"{minutes} min")
    return " ".join(words) or "0 min"
