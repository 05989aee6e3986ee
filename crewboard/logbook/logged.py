"""What a data logger wrote down of the shop's air, hour by hour, kept beside the day files.

A folder may hold years of such rows, and few of them ever matter: so a month stays text until a
hold asks for its days.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Literal, NamedTuple

from crewboard.plan.clock import year_amiss


class LoggedRow(NamedTuple):
    """The lowest and the highest of one hour or less from `at` on: °C and % relative humidity.

    Where the logger wrote one value, lowest and highest are the same; None: not measured.
    """

    at: datetime
    lowest_c: float | None
    highest_c: float | None
    lowest_humidity: float | None
    highest_humidity: float | None

    def of(self, measure: Literal["temperature", "humidity"]) -> tuple[float | None, float | None]:
        """The lowest and highest of one measure."""
        if measure == "temperature":
            return self.lowest_c, self.highest_c
        return self.lowest_humidity, self.highest_humidity


class NotARow(ValueError):
    """The line is no row; the message says what one looks like."""


def parse_row(line: str) -> LoggedRow:
    """ "2026-05-02T09:00,14.5,15,62,64" as a row. Raises NotARow."""
    moment, *numbers = line.split(",")
    try:
        at = datetime.fromisoformat(moment)
        values = [float(number) if number.strip() else None for number in numbers]
    except ValueError:
        raise NotARow(f'"{line[:40]}" is no row of the shop\'s air') from None
    if len(values) != 4 or at.tzinfo is not None or year_amiss(at)[0]:
        raise NotARow(f'"{line[:40]}" is no row of the shop\'s air')
    return LoggedRow(at, *values)


def spelled(row: LoggedRow) -> str:
    """The row as its line, which `parse_row` reads back."""
    numbers = ("" if number is None else f"{number:g}" for number in row[1:])
    return ",".join([f"{row.at:%Y-%m-%dT%H:%M}", *numbers])


class Logged:
    """The rows of a data logger by month ("2026-05"): text, of which only what is asked is read.

    Lines that are no rows are passed over here; the check of the folder names them.
    """

    __slots__ = ("_days", "_rows", "_texts")

    def __init__(self, months: Mapping[str, str] = {}) -> None:
        self._texts = months
        self._days: dict[str, dict[str, list[str]]] = {}
        self._rows: dict[str, list[LoggedRow]] = {}

    @property
    def texts(self) -> Mapping[str, str]:
        """The months as their files have them."""
        return self._texts

    def __bool__(self) -> bool:
        return bool(self._texts)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Logged) and self._texts == other._texts

    __hash__ = None  # type: ignore[assignment]

    def rows(self, since: datetime, at: datetime) -> Iterator[LoggedRow]:
        """The rows up to `at` in order of time, from the last one at or before `since` on."""
        months = sorted(self._texts)
        day = f"{since:%Y-%m-%d}"
        last = self._last_before(months, since)
        if last is not None:
            yield last
        for month in months[bisect_left(months, day[:7]) :]:
            for name in sorted(self._lines(month)):
                if name < day:
                    continue
                for row in self._rows_of(month, name):
                    if row.at > at:
                        return
                    if row.at > since:
                        yield row

    def _last_before(self, months: list[str], since: datetime) -> LoggedRow | None:
        day = f"{since:%Y-%m-%d}"
        for month in reversed(months[: bisect_right(months, day[:7])]):
            for name in sorted(self._lines(month), reverse=True):
                if name <= day:
                    before = [row for row in self._rows_of(month, name) if row.at <= since]
                    if before:
                        return before[-1]
        return None

    def _lines(self, month: str) -> dict[str, list[str]]:
        """The lines of a month by day, not looked into yet."""
        days = self._days.get(month)
        if days is None:
            days = self._days[month] = {}
            for line in self._texts[month].splitlines():
                if line[:7] == month:
                    days.setdefault(line[:10], []).append(line)
        return days

    def _rows_of(self, month: str, day: str) -> list[LoggedRow]:
        rows = self._rows.get(day)
        if rows is None:
            rows = self._rows[day] = sorted(_read(self._lines(month)[day]), key=lambda row: row.at)
        return rows


def _read(lines: list[str]) -> Iterator[LoggedRow]:
    for line in lines:
        try:
            yield parse_row(line)
        except NotARow:
            continue
