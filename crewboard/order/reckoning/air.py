"""The shop's air as it was last read, and over the weeks before."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from typing import NamedTuple

from crewboard.logbook.acts import Reading
from crewboard.logbook.logged import LoggedRow
from crewboard.order.board import Board
from crewboard.order.said import day_and_time, day_in_words, how_long
from crewboard.plan.units import temperature
from crewboard.trade.given import Known

_WEEKS, _FRESH = timedelta(weeks=6), timedelta(hours=2)


class _Air(NamedTuple):
    """°C and % relative humidity, each None where it was not measured."""

    at: datetime
    celsius: float | None
    humidity: float | None
    by: str


def air_of(board: Board) -> Iterator[tuple[str, Known]]:
    """The last of each, however old: where it stands is said; and a day's air for each of the
    weeks, by the data logger where it has the day."""
    units = board.plan.vehicle.units
    read = sorted([*_readings(board), *_logged(board)], key=lambda air: air.at)
    for name, at in (("temperature", 1), ("humidity", 2)):
        last = next((air for air in reversed(read) if air[at] is not None), None)
        if last is not None:
            read_off = last.celsius if at == 1 else last.humidity
            assert read_off is not None
            typed = temperature(read_off, units) if at == 1 else f"{read_off:.10g} %"
            yield (
                name,
                Known(typed, f"{last.by} of {day_and_time(last.at)}{_old(board.at - last.at)}"),
            )
    days = [air for air in read if air.celsius is not None and air.humidity is not None]
    since = board.at - _WEEKS
    told = list(_by_day([air for air in days if air.at > since], units))
    if told:
        yield "readings", Known("; ".join(told), f"shop's air since {day_in_words(since)}")


def _old(age: timedelta) -> str:
    """How old it is, where much may have changed since."""
    return f", {how_long(age)} old" if age > _FRESH else ""


def _readings(board: Board) -> Iterator[_Air]:
    for entry in board.logbook.counting():
        act = entry.act
        if isinstance(act, Reading) and entry.at <= board.at:
            yield _Air(entry.at, act.celsius, act.humidity, "shop reading")


def _logged(board: Board) -> Iterator[_Air]:
    for row in board.logbook.logged.rows(board.at - _WEEKS, board.at):
        yield _Air(row.at, _middle(row, 0), _middle(row, 1), "data logger")


def _middle(row: LoggedRow, measure: int) -> float | None:
    low, high = row.of("humidity" if measure else "temperature")
    return None if low is None or high is None else (low + high) / 2


def _by_day(read: list[_Air], units: str) -> Iterator[str]:
    """A day's mean, of the logger's rows where it has any."""
    days: dict[date, list[_Air]] = {}
    for air in read:
        days.setdefault(air.at.date(), []).append(air)
    for of_day in days.values():
        rows = [air for air in of_day if air.by == "data logger"] or of_day
        celsius = sum(air.celsius or 0 for air in rows) / len(rows)
        humidity = sum(air.humidity or 0 for air in rows) / len(rows)
        yield f"{temperature(round(celsius, 1), units)} {round(humidity, 1):g} %"
