"""What a person types, read the same way wherever it is typed: a form, a table, a command.

Each reader raises `Unread` for what it cannot read; an empty text is for the caller to judge.
"""

import re
from datetime import date, datetime, time
from typing import NamedTuple, TypeVar

from crewboard.plan.clock import year_amiss
from crewboard.plan.duration import Duration, NotADuration, parse_duration
from crewboard.plan.workdays import MONTHS, WorkDays

# Patterns as text: `re` compiles them when one is first used, not at every start.
_CLOCK = r"(\d{1,2})[:.](\d\d)(?::(\d\d))?"
_MONTH = r"([a-z]{3,9})\.?"
_WEEKDAY = r"(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+"
_DAY_MONTH = rf"(\d{{1,2}})\.?\s+{_MONTH}(?:,?\s+(\d{{4}}))?"
_MONTH_DAY = rf"{_MONTH}\s+(\d{{1,2}})(?:,?\s+(\d{{4}}))?"
_H, _MIN = r"(?:(?:hours?|hrs?|h)\.?)", r"(?:(?:minutes?|mins?|m)\.?)"
_HOURS = rf"(-?\d+(?:[.,]\d+)?|[.,]\d+)\s*{_H}?"
# A clock's minutes have two figures: "12:5" could be five minutes, half an hour or fifty minutes.
_HOURS_MINUTES = rf"(\d+)\s*(?:(?=:\s*\d\d):|{_H}\s*)\s*([0-5]?\d)\s*{_MIN}?"
_MINUTES = rf"(\d+)\s*{_MIN}"
_MOST = 1e9
Day = TypeVar("Day", bound=date)
_MONTHS = [month.lower() for month in MONTHS]


class Unread(ValueError):
    """What was typed cannot be read: a sentence that says so, and what could be written."""

    def __init__(self, sentence: str, hint: str = "") -> None:
        super().__init__(f"{sentence}: {hint}" if hint else sentence)
        self.sentence, self.hint = sentence, hint


class Today(NamedTuple):
    """What a typed day or moment is read against: the day it is typed, and the work days."""

    on: date
    work_days: WorkDays = WorkDays()

    def opening(self, day: date) -> datetime:
        """The moment that a day without a time means: when the shop opens, or would open."""
        openings = self.work_days.openings_on(day) or (self.work_days.usual,)
        return datetime.combine(day, openings[0].opens)


def number(typed: str) -> float:
    """ "3", "3.5" or "3,5". Raises Unread."""
    try:
        value = float(typed.strip().replace(",", ".").replace("−", "-"))
    except ValueError:
        raise Unread(f'"{typed}" is not a number', "write 3 or 3.5") from None
    if value != value or abs(value) > _MOST:
        raise Unread(f'"{typed}" is not a number that can be used here', "write 3 or 3.5")
    return value


def hours(typed: str) -> float:
    """ "2.5", "2,5", "2.5 h", "2:30", "2 h 30 min" or "150 min" as hours. Raises Unread."""
    words = " ".join(typed.casefold().split())
    if both := re.fullmatch(_HOURS_MINUTES, words):
        return round(int(both[1]) + int(both[2]) / 60, 4)
    if minutes := re.fullmatch(_MINUTES, words):
        return round(int(minutes[1]) / 60, 4)
    if (alone := re.fullmatch(_HOURS, words)) and words.isascii():
        return number(alone[1])
    raise Unread(f'"{typed}" is not a number of hours', "write 2.5, 2,5, 2:30 or 2 h 30 min")


def clock(typed: str) -> time:
    """ "9", "9:00", "9.00" or "16:30". Raises Unread."""
    figures = typed.strip()
    parts = re.fullmatch(_CLOCK, figures if not figures.isdecimal() else f"{figures}:00")
    try:
        assert parts is not None
        return time(int(parts[1]), int(parts[2]), int(parts[3] or 0))
    except (AssertionError, ValueError):
        raise Unread(f'"{typed}" is not a time of day', "write 9:00 or 16:30") from None


def day(typed: str, today: date) -> date:
    """ "2026-05-02", "2 May 2026", "Sat 2 May" or "May 2". Raises Unread.

    Without a year the date nearest to `today` is meant.
    """
    return _of_our_years(typed, _day(typed, today))


def _day(typed: str, today: date) -> date:
    words = re.sub(_WEEKDAY, "", typed.strip().casefold(), count=1)
    try:
        if re.fullmatch(r"\d{4}-\d\d?-\d\d?", words):
            return date(*map(int, words.split("-")))
        if parts := re.fullmatch(_DAY_MONTH, words):
            return _dated(int(parts[1]), parts[2], parts[3], today)
        if parts := re.fullmatch(_MONTH_DAY, words):
            return _dated(int(parts[2]), parts[1], parts[3], today)
        raise ValueError(typed)
    except ValueError:
        raise Unread(f'"{typed}" is not a date', "write 2026-05-02 or 2 May") from None


def _of_our_years(typed: str, read: Day) -> Day:
    amiss, hint = year_amiss(read)
    if amiss:
        raise Unread(f'"{typed}" is {amiss}', hint)
    return read


def _dated(day_of_month: int, month: str, year: str | None, today: date) -> date:
    number_of_month = [name[:3] for name in _MONTHS].index(month[:3]) + 1
    if not _MONTHS[number_of_month - 1].startswith(month) and month != "sept":
        raise ValueError(month)
    if year is not None:
        return date(int(year), number_of_month, day_of_month)
    near = [
        date(in_year, number_of_month, day_of_month)
        for in_year in range(today.year - 4, today.year + 5)
        if day_of_month < 29 or _is_a_day(in_year, number_of_month, day_of_month)
    ]
    return min(near, key=lambda that_day: abs(that_day - today))


def _is_a_day(year: int, month: int, day_of_month: int) -> bool:
    try:
        date(year, month, day_of_month)
    except ValueError:
        return False
    return True


def moment(typed: str, today: Today) -> datetime:
    """ "2026-05-02T09:00", "2 May 9:00", "10:05" (today), or a day: when the shop opens.

    Raises Unread, for an offset from UTC too: the shop's own clock is meant.
    """
    return _of_our_years(typed, _moment(typed, today))


def _moment(typed: str, today: Today) -> datetime:
    words = typed.strip()
    if re.fullmatch(_CLOCK, words):
        return datetime.combine(today.on, clock(words))
    try:
        if re.search(r"\d(?:Z|[+-]\d\d:?\d\d)$", words) and datetime.fromisoformat(words).tzinfo:
            raise Unread(f'"{typed}" has an offset from UTC', "write what the shop's clock shows")
        that_day, at = _parted(words)
        if not at:
            return today.opening(_day(that_day, today.on))
        return datetime.combine(_day(that_day, today.on), clock(at))
    except ValueError as error:
        if isinstance(error, Unread) and "offset" in error.sentence:
            raise
        hint = "write 2026-05-02T09:00, 2 May 9:00, 2 May or 09:00"
        raise Unread(f'"{typed}" is not a moment', hint) from None


def _parted(words: str) -> tuple[str, str]:
    """The day and the time of day, empty where there is none."""
    iso = re.fullmatch(r"(\d{4}-\d\d?-\d\d?)(?:[Tt ]\s*([\d:.]+))?", words)
    if iso:
        clock_time = iso[2] or ""
        # Parts of a second, as another program writes them, are not the shop's.
        return iso[1], re.sub(r"(:\d\d:\d\d)\.\d+$", r"\1", clock_time)
    at = re.search(r",?\s+(\d{1,2}[:.]\d\d(?::\d\d)?)$", words)
    return (words[: at.start()], at[1]) if at else (words, "")


def span(typed: str) -> Duration:
    """ "36 hours", "2 days", "1 month". Raises Unread."""
    try:
        return parse_duration(typed.strip())
    except NotADuration as error:
        sentence, _, hint = str(error).partition(": ")
        raise Unread(sentence, hint) from None


def names(typed: str) -> tuple[str, ...]:
    """Names with commas between, each once."""
    return tuple(dict.fromkeys(name.strip() for name in typed.split(",") if name.strip()))


def texts(typed: str) -> tuple[str, ...]:
    """Texts with semicolons between: "primer, grey; finish, green"."""
    return tuple(part.strip() for part in typed.split(";") if part.strip())
