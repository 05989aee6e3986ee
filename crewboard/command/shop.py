"""`crewboard reading`, `arrived`, `ordered`, `note`, `close-day`: the shop and the day."""

from __future__ import annotations

from crewboard.command import naming
from crewboard.command.exits import Exit
from crewboard.command.opened import DIR, as_read, moment, open_bench, parse_day, parse_number
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import DESPITE, NOTE, WRITING, write
from crewboard.logbook.acts import Arrived, ClosedDay, Noted, Ordered, Reading
from crewboard.plan.units import read_temperature

_SUPPLY = Word("SUPPLY", "a supply: its id, or words of its name")


def _reading(call: Call) -> Exit:
    bench = open_bench(call)
    typed = call.option("celsius")
    if call.given("fahrenheit"):
        typed = f"{call.option('fahrenheit')} °F"
    celsius = as_read(lambda: read_temperature(typed, "metric")) if typed else None
    humidity = parse_number(call.option("humidity"), "percent") if call.given("humidity") else None
    return write(call, bench, [Reading(celsius, humidity, call.option("note"))])


def _arrived(call: Call) -> Exit:
    bench = open_bench(call)
    supply = naming.supply(bench.plan, call.word("SUPPLY"))
    return write(call, bench, [Arrived(supply, call.option("note"))])


def _ordered(call: Call) -> Exit:
    bench = open_bench(call)
    supply = naming.supply(bench.plan, call.word("SUPPLY"))
    due = parse_day(call.option("due"), bench.plan) if call.given("due") else None
    return write(call, bench, [Ordered(supply, due, call.option("note"))])


def _note(call: Call) -> Exit:
    bench = open_bench(call)
    plan = bench.plan
    act = Noted(
        call.word("TEXT"),
        naming.task(plan, call.option("task")) if call.given("task") else "",
        naming.component(plan, call.option("component")) if call.given("component") else "",
    )
    return write(call, bench, [act])


def _close_day(call: Call) -> Exit:
    from crewboard.order.safety.closing import closing_acts

    bench = open_bench(call)
    closed = ClosedDay(call.option("despite"), call.option("note"))
    return write(call, bench, closing_acts(bench.board(moment(call, bench.plan)), closed))


reading = Command(
    _reading,
    "Writes down what the thermometer and the hygrometer in the shop say. It holds good until the "
    "next reading; a hold with conditions counts only the hours within them.",
    (DIR,),
    (
        Option("celsius", "the temperature in °C", "DEGREES"),
        Option("fahrenheit", "or in °F", "DEGREES"),
        Option("humidity", "relative humidity in %", "PERCENT"),
        NOTE,
        *WRITING,
    ),
    ("crewboard reading . --celsius 18.5 --humidity 62",),
)
arrived = Command(
    _arrived,
    "Says that a supply came.",
    (DIR, _SUPPLY),
    (NOTE, *WRITING),
    ("crewboard arrived . roof-canvas",),
)
ordered = Command(
    _ordered,
    "Says that a supply was ordered, and for when it is promised.",
    (DIR, _SUPPLY),
    (Option("due", "the day it is promised for", "DATE"), NOTE, *WRITING),
    ("crewboard ordered . roof-canvas --due 2026-06-20",),
)
note = Command(
    _note,
    "Keeps a note on the day, on a task or on a component.",
    (DIR, Word("TEXT", "what is to be kept, in quotes")),
    (
        Option("task", "the task it is on", "TASK"),
        Option("component", "or the component it is on", "COMPONENT"),
        *WRITING,
    ),
    ('crewboard note . "old screw holes under the sill" --component body-frame',),
)
close_day = Command(
    _close_day,
    "Closes the work day and signs out whoever is still here. It is refused while a check after "
    "the work is unsigned or a fire watch runs, unless a named person gives the reason. A past day "
    "that was forgotten is closed with --at and when it ended.",
    (DIR,),
    (DESPITE, NOTE, *WRITING),
    (
        'crewboard close-day . --despite "the heating failed" --by mirela',
        'crewboard close-day . --at 2026-05-02T16:30 --despite "left early" --by mirela',
    ),
)
