"""`crewboard day`: the day's board, printed."""

from __future__ import annotations

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command
from crewboard.telling.day_board import day_board


def print_day(call: Call) -> Exit:
    """The board at the moment asked for."""
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    if call.given("json"):
        from crewboard.command.json_form import day_form

        call.out.json(day_form(board, bench.faults))
    else:
        root = call.word("DIR")
        call.out.lines(day_board(board, call.out.width, mistakes=len(bench.faults), folder=root))
    return Exit.FINE


day = Command(
    print_day,
    "Prints the work day: date and hours, who is here, what goes first and why, what is ready and "
    "what finishing it lets go, what is under way, the holds, and what waits on what.",
    (DIR,),
    (AT, JSON),
    (
        "crewboard day sample_project --at 2026-05-02T09:00",
        "crewboard day . --json",
    ),
)
