"""`crewboard begin`, `finish`, `reopen`, `hours-left`, `set-aside`: the course of a task."""

from __future__ import annotations

from crewboard.command import naming
from crewboard.command.exits import Exit
from crewboard.command.opened import DIR, TASK, open_bench, parse_moment, parse_number
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import DESPITE, NOTE, WHY, WRITING, write
from crewboard.logbook.acts import Begun, Finished, HoursLeft, Reopened, SetAside


def _begin(call: Call) -> Exit:
    bench = open_bench(call)
    task = naming.task(bench.plan, call.word("TASK"))
    crew = naming.people(bench.plan, call.every("who"))
    return write(call, bench, [Begun(task, crew, call.option("despite"), call.option("note"))])


def _finish(call: Call) -> Exit:
    bench = open_bench(call)
    task = naming.task(bench.plan, call.word("TASK"))
    clock = parse_moment(call.option("clock"), bench.plan) if call.given("clock") else None
    return write(call, bench, [Finished(task, clock, call.option("note"))])


def _reopen(call: Call) -> Exit:
    bench = open_bench(call)
    task = naming.task(bench.plan, call.word("TASK"))
    return write(call, bench, [Reopened(task, call.option("why"))])


def _hours_left(call: Call) -> Exit:
    bench = open_bench(call)
    task = naming.task(bench.plan, call.word("TASK"))
    left = parse_number(call.word("HOURS"), "hours")
    return write(call, bench, [HoursLeft(task, left, call.option("why"))])


def _set_aside(call: Call) -> Exit:
    bench = open_bench(call)
    task = naming.task(bench.plan, call.word("TASK"))
    return write(call, bench, [SetAside(task, call.option("why"), call.given("back"))])


begin = Command(
    _begin,
    "Begins work on a task. It is refused, with the reason, while something stands against it: "
    "earlier work, a hold, an unsigned check, a lapsed certificate, too few people.",
    (DIR, TASK),
    (Option("who", "the people on it", "WHO", many=True), DESPITE, NOTE, *WRITING),
    (
        "crewboard begin . bell-cord --who mirela",
        'crewboard begin . front-glue --who mirela --despite "dry run only" --by mirela',
    ),
)
finish = Command(
    _finish,
    "Says that the work of a task is done. The hold that the plan foresees starts now, or at "
    "--clock.",
    (DIR, TASK),
    (Option("clock", "when its hold started, where that was earlier", "MOMENT"), NOTE, *WRITING),
    (
        "crewboard finish . clean-lamps",
        "crewboard finish . strip-sashes --clock 08:55",
    ),
)
reopen = Command(
    _reopen,
    "Says that a finished task has to be worked on again. The hold its finish started is void.",
    (DIR, TASK),
    (WHY, *WRITING),
    ('crewboard reopen . prime-hidden --why "the primer lifted"',),
)
hours_left = Command(
    _hours_left,
    "Gives a new estimate of the person-hours still to do on a task.",
    (DIR, TASK, Word("HOURS", "person-hours still to do")),
    (WHY, *WRITING),
    ('crewboard hours-left . lay-boards 12 --why "two boards split"',),
)
set_aside = Command(
    _set_aside,
    "Puts a task off, with the reason, or takes it up again.",
    (DIR, TASK),
    (WHY, Option("back", "take it up again"), *WRITING),
    (
        'crewboard set-aside . awning-rail --why "the old pictures are still out"',
        "crewboard set-aside . awning-rail --back",
    ),
)
