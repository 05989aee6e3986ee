"""`crewboard crew`: the people, their hours, skills and certificates."""

from __future__ import annotations

from crewboard.command import naming
from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command, Word
from crewboard.paper.plain import plain_lines, plain_rows
from crewboard.telling.crew import crew_rows, lapse_lines
from crewboard.telling.line import GAP, title
from crewboard.telling.person import person_lines


def _crew(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    if call.given("json"):
        from crewboard.command.json_plan import crew_form

        call.out.json(crew_form(board))
    elif call.word("WHO"):
        who = naming.person(bench.plan, call.word("WHO"))
        call.out.lines(plain_lines(person_lines(board, who, plain=call.out.plain), call.out.width))
    else:
        call.out.lines(plain_rows(crew_rows(board, full=True), call.out.width))
        if lapsing := lapse_lines(board):
            head = (GAP, title("Certificates that lapse before work that needs them"))
            call.out.lines(plain_lines([*head, *lapsing], call.out.width))
    return Exit.FINE


crew = Command(
    _crew,
    "Lists the crew: who is here, hours this month, this year and in all, skills, certificates "
    "and which of them lapse before work that needs them. With a name, that person's sheet: the "
    "next work days, hours by month and by task.",
    (DIR, Word("WHO", "a person: short id, or a part of the name", optional=True)),
    (AT, JSON),
    (
        "crewboard crew sample_project --at 2026-05-02",
        "crewboard crew sample_project mirela --at 2026-05-02",
    ),
)
