"""`crewboard take-readings`: what a data logger says of the shop's air, hour by hour."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from crewboard.command.exits import Exit, Refused
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.order.said import day_and_time, how_many
from crewboard.plan.units import temperature
from crewboard.plan.vehicle import LoggerColumns

if TYPE_CHECKING:
    from crewboard.logbook.logged import LoggedRow
    from crewboard.workbench import Workbench


def _take_readings(call: Call) -> Exit:
    from crewboard.folder.edit.logger_file import NotALoggersFile, rows_of

    bench = open_bench(call)
    name, at = call.word("FILE"), moment(call, bench.plan)
    data = _bytes(name)
    try:
        columns = _columns(call, bench.plan.vehicle.shop.logger, data)
        rows = rows_of(data, columns, bench.plan.vehicle.units, at)
    except NotALoggersFile as error:
        raise Refused(f"{name}: {error}; nothing was taken", error.hint) from None
    return _taken(call, bench, columns, rows)


def _bytes(name: str) -> bytes:
    from crewboard.folder.disk.read import must_not_be_larger
    from crewboard.folder.edit.logger_file import MOST_BYTES

    try:
        with open(name, "rb") as file:
            must_not_be_larger(os.fstat(file.fileno()).st_size, MOST_BYTES, name)
            return file.read(MOST_BYTES + 1)
    except OSError as error:
        raise Refused(f"{name} cannot be read: {error.strerror}") from None


def _columns(call: Call, kept: LoggerColumns, data: bytes) -> LoggerColumns:
    """The columns as typed, else as the vehicle's file keeps them."""
    from crewboard.folder.edit.logger_file import heads_of

    columns = LoggerColumns(
        *(call.option(name) or kept_head for name, kept_head in kept._asdict().items())
    )
    if columns.moment and (columns.temperature or columns.humidity):
        return columns
    heads = ", ".join(f'"{head}"' for head in heads_of(data) if head)
    raise Refused(
        f"say which columns hold what; the file has {heads}",
        "--moment HEAD --temperature HEAD --humidity HEAD: they are saved in vehicle.toml",
    )


def _taken(call: Call, bench: Workbench, columns: LoggerColumns, rows: list[LoggedRow]) -> Exit:
    from crewboard.command.write import tell
    from crewboard.order.holds.clock_news import clock_news

    at = moment(call, bench.plan)
    before = bench.board(at)
    outcome = bench.take_rows(rows, today=at.date())
    if not outcome.kept:
        return tell(call, bench, outcome)
    _keep(bench, columns)
    form = None
    if call.given("json"):
        from crewboard.command.json_form import form_of

        new = bool(outcome.files)
        form = form_of("readings", rows=len(rows), first=rows[0].at, last=rows[-1].at, new=new)
    call.out.keeps([_in_words(rows, bench.plan.vehicle.units)], also=form)
    for news in (*outcome.remarks, *clock_news(before, bench.board(at))):
        call.out.talk(news)
    if not outcome.files:
        call.out.talk("They were all there already.")
    return Exit.FINE


def _keep(bench: Workbench, columns: LoggerColumns) -> None:
    """Keep the columns in the vehicle's file, where it does not say them yet."""
    if columns != bench.plan.vehicle.shop.logger:
        from crewboard.folder.edit.plan_edits import Change

        heads = {name: head for name, head in columns._asdict().items() if head}
        bench.change(Change("vehicle", "", {("shop", "logger"): heads}))


def _in_words(rows: list[LoggedRow], units: str) -> str:
    parts = [f"{how_many(len(rows), 'hour')} of the shop's air, {day_and_time(rows[0].at)} to "]
    parts.append(day_and_time(rows[-1].at))
    warm = [v for row in rows for v in (row.lowest_c, row.highest_c) if v is not None]
    damp = [v for row in rows for v in (row.lowest_humidity, row.highest_humidity) if v is not None]
    if warm:
        parts.append(f": {temperature(min(warm), units)} to {temperature(max(warm), units)}")
    if damp:
        parts.append(f"{', ' if warm else ': '}{min(damp):g} to {max(damp):g} % humidity")
    return "".join(parts)


take_readings = Command(
    _take_readings,
    "Takes the readings of a data logger from its CSV file, and saves them beside the day files. "
    "Which columns hold what is said once. Temperatures are in the unit that the column's head "
    "names, else in the crew's own. A file may be taken again: what is there stays.",
    (DIR, Word("FILE", "the data logger's file")),
    (
        Option("moment", "the head of the column with date and time", "HEAD"),
        Option("temperature", "the head of the column with the temperature", "HEAD"),
        Option("humidity", "the head of the column with the relative humidity", "HEAD"),
        AT,
        JSON,
    ),
    (
        "crewboard take-readings . from-the-logger.csv",
        'crewboard take-readings . from-the-logger.csv --moment Time --temperature "Air (°C)"',
    ),
)
