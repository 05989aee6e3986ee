"""`crewboard crew`: the people, their hours, skills and certificates."""

from __future__ import annotations

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command
from crewboard.telling.crew import crew_lines


def _crew(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    if call.given("json"):
        from crewboard.command.json_plan import crew_form

        call.out.json(crew_form(board))
    else:
        call.out.lines(crew_lines(board, call.out.width))
    return Exit.FINE


crew = Command(
    _crew,
    "Lists the crew: who is here, hours this month, this year and in all, skills, certificates "
    "and which of them lapse before work that needs them.",
    (DIR,),
    (AT, JSON),
    ("crewboard crew sample_project --at 2026-05-02",),
)
