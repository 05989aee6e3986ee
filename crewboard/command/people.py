"""`crewboard sign-in`, `sign-out`, `expect`, `hours`: who is here and who worked how long."""

from __future__ import annotations

from crewboard.command import naming
from crewboard.command.exits import Exit
from crewboard.command.opened import DIR, open_bench, parse_number
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import NOTE, WRITING, write
from crewboard.logbook.acts import Expected, HoursWorked, SignIn, SignOut

WHO = Word("WHO", "a person: short id, or a part of the name")
_EVERYBODY = Word("WHO", "people: short ids, or parts of their names", many=True)


def _sign_in(call: Call) -> Exit:
    bench = open_bench(call)
    crew = naming.people(bench.plan, call.each("WHO"))
    return write(call, bench, [SignIn(who, call.option("note")) for who in crew])


def _sign_out(call: Call) -> Exit:
    bench = open_bench(call)
    crew = naming.people(bench.plan, call.each("WHO"))
    return write(call, bench, [SignOut(who, call.option("note")) for who in crew])


def _expect(call: Call) -> Exit:
    bench = open_bench(call)
    crew = naming.people(bench.plan, call.each("WHO"))
    coming = not call.given("not-coming")
    return write(call, bench, [Expected(who, coming, call.option("note")) for who in crew])


def _hours(call: Call) -> Exit:
    bench = open_bench(call)
    who = naming.person(bench.plan, call.word("WHO"))
    hours_worked = parse_number(call.word("HOURS"), "hours")
    task = naming.task(bench.plan, call.word("TASK")) if call.word("TASK") else ""
    return write(call, bench, [HoursWorked(who, hours_worked, task, call.option("note"))])


sign_in = Command(
    _sign_in,
    "Signs people in.",
    (DIR, _EVERYBODY),
    (NOTE, *WRITING),
    (
        "crewboard sign-in . aiko kwame",
        "crewboard sign-in . aiko --at 2026-05-02T08:55 --by mirela",
    ),
)
sign_out = Command(
    _sign_out,
    "Signs people out.",
    (DIR, _EVERYBODY),
    (NOTE, *WRITING),
    ("crewboard sign-out . mirela",),
)
expect = Command(
    _expect,
    "Writes down who will come on the day of --at, or will not.",
    (DIR, _EVERYBODY),
    (Option("not-coming", "they will not come"), NOTE, *WRITING),
    (
        "crewboard expect . aiko kwame --at 2026-05-16",
        "crewboard expect . wei --at 2026-05-16 --not-coming",
    ),
)
hours = Command(
    _hours,
    "Writes down the hours that one person worked, on a task or, without one, on something else.",
    (
        DIR,
        WHO,
        Word("HOURS", "person-hours, such as 3 or 3.5"),
        Word("TASK", "a task; leave it out for other work", optional=True),
    ),
    (NOTE, *WRITING),
    (
        "crewboard hours . mirela 3.5 strip-sashes",
        'crewboard hours . mirela 1 --note "swept the shop"',
    ),
)
