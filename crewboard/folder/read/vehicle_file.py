"""`vehicle.toml`: the vehicle, the shop and the work days."""

from __future__ import annotations

from datetime import date, time
from typing import Any

from crewboard.folder.read.breaks import decode_breaks
from crewboard.folder.read.fault import Misfit, nearest
from crewboard.folder.read.table import Table, spoken_type
from crewboard.folder.read.times_away import times_away
from crewboard.plan.hold import Conditions
from crewboard.plan.vehicle import (
    FIRST_FORMAT,
    FORMAT,
    WRITTEN_FOR,
    Jig,
    LoggerColumns,
    Period,
    Shop,
    Vehicle,
)
from crewboard.plan.workdays import MeetingRule, NotARule, Opening, WorkDays, parse_rule

NEWER = "newer-format"


def decode_vehicle(values: dict[str, Any]) -> tuple[Vehicle, list[Misfit]]:
    """The vehicle as far as it can be read, and every mistake."""
    misfits: list[Misfit] = []
    table = Table(values, (), misfits)
    vehicle = Vehicle(
        name=table.text("name", "Unnamed vehicle", needed=True),
        what=table.text("what"),
        units=table.one_of("units", ("metric", "imperial"), "metric"),
        jurisdiction=_jurisdiction(table.text("jurisdiction")),
        currency=table.text("currency"),
        timezone=_timezone(table),
        work_days=_work_days(table.table("work_days")),
        shop=_shop(table.table("shop")),
        shown_at=table.moment("shown_at"),
        copies_days=table.whole("copies_days", 30, most=3650),
        format=_format(table),
        jigs={name: _jig(name, row) for name, row in table.tables("jigs") if row.well_named()},
        other_work=table.names("other_work"),
        periods=_periods(table),
        shows=_shown_period(table),
        standard=table.text("standard"),
        shares_crew_with=table.names("shares_crew_with"),
    )
    table.done()
    return vehicle, misfits


def _jurisdiction(said: str) -> str:
    """As the sheets spell it; any other stays as it is written: they quote no law for it."""
    name = said.strip()
    known = {**{each: each for each in WRITTEN_FOR}, "UK": "GB", "USA": "US"}
    return known.get(name.upper().replace(".", ""), name)


def _jig(name: str, table: Table) -> Jig:
    jig = Jig(
        id=name,
        name=table.text("name", name, needed=True),
        number=table.whole("count", 1, least=1, most=100),
        kept=table.text("kept"),
    )
    table.done()
    return jig


def _periods(table: Table) -> dict[str, Period]:
    """[periods.second]: name = "second body", since = "about 1931", until = "1948"."""
    periods = {}
    for name, row in table.tables("periods"):
        if row.well_named():
            called = row.text("name", name, needed=True)
            periods[name] = Period(name, called, row.text("since"), row.text("until"))
        row.done()
    return periods


def _shown_period(table: Table) -> str:
    """The period that the restoration shows: a name under [periods]."""
    shows, known = table.text("shows"), table.values.get("periods", {})
    if shows and shows not in known:
        sentence = f'there is no period "{shows}"'
        mend = nearest(shows, known) or f"write [periods.{shows}] with its name, or leave shows out"
        table.tell("shows", "unknown-name", sentence, mend)
        return ""
    return shows


def _room(table: Table | None) -> dict[str, int]:
    """[shop.room]: "paint tent" = 1."""
    if table is None:
        return {}
    return {name: table.whole(name, 1, least=1, most=100) for name in table.values}


def _format(table: Table) -> int:
    number = table.whole("format", FIRST_FORMAT, least=1)  # the first folders need not say so
    if number > FORMAT:
        table.tell(
            "format",
            NEWER,
            f"the folder has format {number}, this program knows up to {FORMAT}",
            "it is only shown, nothing is written; bring the program up to date",
        )
    return number


def _timezone(table: Table) -> str:
    name = table.text("timezone")
    if not name:
        return ""
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        hint = "write a zone such as CET, or leave it out"
        table.tell("timezone", "unknown-word", f'"{name}" is no known time zone', hint)
        return ""
    return name


def _work_days(table: Table | None) -> WorkDays:
    if table is None:
        return WorkDays()
    usual = _opening(table, Opening(time(9), time(16)))
    work_days = WorkDays(
        rules=tuple(_rules(table)),
        usual=usual,
        also=tuple(_extra_days(table, usual)),
        closed=tuple(_days_left_out(table)),
        since=table.day("since"),
        holidays=times_away(table, "holidays"),
    )
    table.done()
    return work_days


def _opening(table: Table, usual: Opening) -> Opening:
    opens = table.clock("opens") or usual.opens
    closes = table.clock("closes") or usual.closes
    if closes <= opens:
        table.tell(
            "closes",
            "out-of-range",
            f"the shop closes at {closes:%H:%M}, not after it opens at {opens:%H:%M}",
            "write a closing time later than the opening time",
        )
        return usual
    return Opening(opens, closes)


def _rules(table: Table) -> list[MeetingRule]:
    rules = []
    for place, text in enumerate(table.names("every")):
        try:
            rules.append(parse_rule(text))
        except NotARule as error:
            sentence, _, hint = str(error).partition(": ")
            several = isinstance(table.values["every"], list)
            path = (*table.path, "every", place) if several else (*table.path, "every")
            table.misfits.append(Misfit(path, "not-a-rule", sentence, hint))
    return rules


def _list(table: Table, key: str) -> list[tuple[int, Any]]:
    value = table.any(key)
    if value is None:
        return []
    if isinstance(value, list):
        return list(enumerate(value))
    table.tell(key, "wrong-type", f'"{key}" is {spoken_type(value)}', "write a list of dates")
    return []


def _days_left_out(table: Table) -> list[tuple[date, str]]:
    """A date, or { date = ..., why = "..." }."""
    days = []
    for place, value in _list(table, "closed"):
        if type(value) is date:
            days.append((value, ""))
        elif isinstance(value, dict):
            one = Table(value, (*table.path, "closed", place), table.misfits)
            day, why = one.day("date"), one.text("why")
            one.done()
            if day is not None:
                days.append((day, why))
            elif "date" not in one:
                one.tell(None, "missing", '"date" is missing here', "add date = 2026-08-01")
        else:
            _no_date(table, "closed", place, value)
    return days


def _no_date(table: Table, key: str, place: int, value: object) -> None:
    sentence = f'"{key}" holds {spoken_type(value)}'
    hint = "write dates without quotes, such as [2026-08-01]"
    table.misfits.append(Misfit((*table.path, key, place), "wrong-type", sentence, hint))


def _extra_days(table: Table, usual: Opening) -> list[tuple[date, Opening | None]]:
    """A date, or { date = ..., opens = ..., closes = ... }."""
    days: list[tuple[date, Opening | None]] = []
    for place, value in _list(table, "also"):
        if type(value) is date:
            days.append((value, None))
        elif isinstance(value, dict):
            one = Table(value, (*table.path, "also", place), table.misfits)
            day = one.day("date")
            opening = _opening(one, usual)
            one.done()
            if day is None:
                one.tell(None, "missing", '"date" is missing here', "add date = 2026-05-09")
            else:
                days.append((day, opening))
        else:
            _no_date(table, "also", place, value)
    return days


def _shop(table: Table | None) -> Shop:
    if table is None:
        return Shop()
    shop = Shop(
        emergency=table.text("emergency"),
        hospital=table.text("hospital"),
        address=table.text("address"),
        meeting_place=table.text("meeting_place"),
        first_aid=table.text("first_aid"),
        places=table.names("places"),
        conditions=decode_conditions(table.table("conditions")),
        readings_good_for=table.span("readings_good_for") or Shop().readings_good_for,
        logger=_logger(table.table("logger")),
        room=_room(table.table("room")),
        breaks=decode_breaks(table),
        small_jobs=tuple(job for job in table.names("small_jobs") if job.strip()),
    )
    table.done()
    return shop


def _logger(table: Table | None) -> LoggerColumns:
    if table is None:
        return LoggerColumns()
    columns = LoggerColumns(table.text("moment"), table.text("temperature"), table.text("humidity"))
    table.done()
    return columns


def decode_conditions(table: Table | None) -> Conditions:
    """{ at_least_c = 10, at_most_humidity = 85 }"""
    if table is None:
        return Conditions()
    conditions = Conditions(
        table.number("at_least_c", least=-60, most=100),
        table.number("at_most_c", least=-60, most=100),
        table.number("at_least_humidity", least=0, most=100),
        table.number("at_most_humidity", least=0, most=100),
    )
    table.done()
    return conditions
