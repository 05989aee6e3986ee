"""`crewboard supplies`: what is here, what is short, what is to be ordered."""

from __future__ import annotations

from crewboard.command import naming
from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command, Word
from crewboard.paper.plain import plain_lines, plain_rows
from crewboard.telling.supplies import supply_lines, supply_rows


def _supplies(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    if call.given("json"):
        from crewboard.command.json_folder import supplies_form

        call.out.json(supplies_form(board))
    elif call.word("SUPPLY"):
        supply = naming.supply(bench.plan, call.word("SUPPLY"))
        call.out.lines(plain_lines(supply_lines(board, supply), call.out.width))
    else:
        call.out.lines(plain_rows(supply_rows(board), call.out.width))
    return Exit.FINE


supplies = Command(
    _supplies,
    "Lists the supplies: what is overdue, not ordered, ordered and here, how much of it, for when "
    "it is promised, and how many unfinished tasks need it. With a name, all about that one.",
    (DIR, Word("SUPPLY", "a supply: its id, or words of its name", optional=True)),
    (AT, JSON),
    (
        "crewboard supplies sample_project --at 2026-05-02",
        "crewboard supplies sample_project half-round --at 2026-05-02",
    ),
)
