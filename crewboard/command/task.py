"""`crewboard task`: one task's sheet."""

from __future__ import annotations

from crewboard.command import naming
from crewboard.command.chain import TASK
from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command
from crewboard.telling.task_sheet import task_sheet


def _task(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    task_id = naming.task(bench.plan, call.word("TASK"))
    if call.given("json"):
        from crewboard.command.json_form import task_form

        call.out.json(task_form(board, task_id))
    else:
        call.out.lines(task_sheet(board, task_id, call.out.width))
    return Exit.FINE


task = Command(
    _task,
    "Prints a task's sheet: how it is done, what it needs, where it stands, and for each hazard "
    "the checks, gear, limits and cautions, each number with its source and mark.",
    (DIR, TASK),
    (AT, JSON),
    ("crewboard task sample_project strip-roof --at 2026-05-02T09:00",),
)
