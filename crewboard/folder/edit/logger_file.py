"""The file that a data logger gives: a table of text, read into a row for each hour at most."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from typing import NamedTuple

from crewboard.folder.edit.logged_months import one_each_moment, together
from crewboard.logbook.logged import LoggedRow
from crewboard.plan.clock import year_amiss
from crewboard.plan.units import as_kept, unit_here
from crewboard.plan.vehicle import LoggerColumns

MOST_BYTES = 50_000_000
_DATE = re.compile(r"(\d{1,4})([./-])(\d{1,2})\2(\d{1,4})(?:[T ]+(.*))?\Z")
_CLOCK = re.compile(r"(\d{1,2})[:.](\d\d)(?:[:.](\d\d))?(?:[.,]\d+)?\s*([AaPp])?\.?[Mm]?\.?\Z")
_NOTHING = frozenset({"", "-", "--", "---", "nan", "n/a", "null"})


class NotALoggersFile(ValueError):
    """The file cannot be taken; the message says why, `hint` what to do."""

    def __init__(self, sentence: str, hint: str = "") -> None:
        super().__init__(sentence)
        self.hint = hint


class _Line(NamedTuple):
    number: int
    moment: str
    celsius: float | None
    humidity: float | None


def rows_of(data: bytes, columns: LoggerColumns, units: str, now: datetime) -> list[LoggedRow]:
    """The rows of the file, one for each hour at most. Raises NotALoggersFile.

    Temperatures are in the unit that the column's head names, else in the crew's own. A value that
    is missing is passed over; one that cannot be is not.
    """
    table = _table(data)
    head, places = _head(table, columns)
    lines = list(_lines(table[head + 1 :], head + 1, places, _sign(columns, units)))
    day_first = _day_first([line.moment for line in lines])
    rows = []
    for line in lines:
        at = _moment(line.moment, day_first)
        if at is None:
            raise NotALoggersFile(
                f'line {line.number}: "{line.moment[:30]}" is no moment', "write 2026-05-02 09:00"
            )
        if at > now:
            raise NotALoggersFile(
                f"line {line.number}: {at:%Y-%m-%d %H:%M} is still to come",
                "look at the logger's clock",
            )
        rows.append(LoggedRow(at, line.celsius, line.celsius, line.humidity, line.humidity))
    if not rows:
        raise NotALoggersFile("there is no reading in the file")
    return _hourly(one_each_moment(rows))


def heads_of(data: bytes) -> list[str]:
    """The heads of the file's columns, as well as they can be told: its widest first line."""
    table = _table(data)
    widest = max(len(row) for row in table[:50])
    return next(([cell.strip() for cell in row] for row in table if len(row) == widest), [])


def _table(data: bytes) -> list[list[str]]:
    if len(data) > MOST_BYTES:
        raise NotALoggersFile("the file is larger than a data logger's", "remove a part of it")
    encoding = "utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig"
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError:
        text = data.decode("latin-1")
    if "\0" in text:
        raise NotALoggersFile("the file is no text", "let the logger's program write it as CSV")
    lines = text.splitlines()
    sample = "\n".join(lines[:50])
    delimiter = max(";\t,", key=sample.count)
    try:
        table = list(csv.reader(lines, delimiter=delimiter))
    except csv.Error as error:
        raise NotALoggersFile(f"the file is no table: {error}") from None
    if not any(len(row) > 1 for row in table):
        raise NotALoggersFile("the file is no table of several columns")
    return table


def _head(table: Sequence[Sequence[str]], columns: LoggerColumns) -> tuple[int, dict[str, int]]:
    """The number of the line with the heads, and where each column stands."""
    wanted = {name: head for name, head in columns._asdict().items() if head}
    for number, row in enumerate(table[:200]):
        heads = [cell.strip().casefold() for cell in row]
        if all(head.strip().casefold() in heads for head in wanted.values()):
            return number, {n: heads.index(h.strip().casefold()) for n, h in wanted.items()}
    named = ", ".join(f'"{head}"' for head in wanted.values())
    raise NotALoggersFile(f"no line of the file heads the columns {named}")


def _sign(columns: LoggerColumns, units: str) -> str:
    """The unit of the temperatures: as their head says, else the crew's own."""
    unit = re.search(r"°\s*([CF])|\(([CF])\)|\b([CF])\Z", columns.temperature)
    return f"°{next(filter(None, unit.groups()))}" if unit else unit_here("°C", units)


def _lines(
    table: Iterable[Sequence[str]], head: int, places: dict[str, int], sign: str
) -> Iterator[_Line]:
    for number, row in enumerate(table, head + 1):
        cells = {name: row[at].strip() if at < len(row) else "" for name, at in places.items()}
        if not cells["moment"]:
            continue
        celsius = _value(number, cells.get("temperature", ""), sign)
        humidity = _value(number, cells.get("humidity", "").rstrip("% "), "%")
        if celsius is not None or humidity is not None:
            yield _Line(number, cells["moment"], celsius, humidity)


def _value(number: int, cell: str, sign: str) -> float | None:
    if cell.casefold() in _NOTHING:
        return None
    figure = cell.rstrip("°CcFf ").replace(",", ".").replace("\u2212", "-")
    try:
        value = float(figure)
    except ValueError:
        raise NotALoggersFile(f'line {number}: "{cell[:30]}" is no number') from None
    if sign == "°F":
        value = as_kept(figure, "°C", "imperial")
    least, most = (0, 100) if sign == "%" else (-60, 100)
    if not least <= value <= most:
        raise NotALoggersFile(f'line {number}: "{cell[:30]}" cannot be the air of a shop')
    return value


def _day_first(moments: Iterable[str]) -> bool | None:
    """Whether 5/6 is the 5th of June, as far as the whole file tells; None where it does not."""
    for text in moments:
        figures = _DATE.match(text)
        if figures is None or len(figures[1]) == 4:
            continue
        if figures[2] == "." or int(figures[1]) > 12:
            return True
        if int(figures[3]) > 12:
            return False
    return None


def _moment(text: str, day_first: bool | None) -> datetime | None:
    figures = _DATE.match(text)
    if figures is None:
        return None
    one, two, three = int(figures[1]), int(figures[3]), int(figures[4])
    if len(figures[1]) == 4:
        year, month, day = one, two, three
    elif day_first is None:
        raise NotALoggersFile(
            f'"{text[:30]}": nothing in the file tells the day from the month',
            "let the logger write dates as 2026-05-02",
        )
    else:
        year, (day, month) = three, (one, two) if day_first else (two, one)
    clock = _CLOCK.match((figures[5] or "0:00").strip())
    if clock is None:
        return None
    hour, half = int(clock[1]), (clock[4] or "").lower()
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    try:
        at = datetime(year + (2000 if year < 100 else 0), month, day, hour, int(clock[2]))
    except ValueError:
        return None
    return None if year_amiss(at)[0] else at


def _hourly(rows: Iterable[LoggedRow]) -> list[LoggedRow]:
    """Of several rows in an hour one, with their lowest and highest."""
    hourly: list[LoggedRow] = []
    for row in rows:
        last = hourly[-1] if hourly else None
        if last is not None and last.at.replace(minute=0) == row.at.replace(minute=0):
            hourly[-1] = together(last, row)
        else:
            hourly.append(row)
    return hourly
