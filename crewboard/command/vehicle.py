"""`crewboard vehicle`: the components and how far each is."""

from __future__ import annotations

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command, Option
from crewboard.telling.vehicle import vehicle_lines


def _vehicle(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    if call.given("json"):
        from crewboard.command.json_plan import vehicle_form

        call.out.json(vehicle_form(board))
    else:
        call.out.lines(vehicle_lines(board, call.out.width, tasks=call.given("tasks")))
    return Exit.FINE


vehicle = Command(
    _vehicle,
    "Prints the component tree: how far each component is and what it comes after.",
    (DIR,),
    (Option("tasks", "also every task, with where it stands"), AT, JSON),
    ("crewboard vehicle sample_project", "crewboard vehicle sample_project --tasks"),
)
