"""`crewboard holds`: what sets, cures or is awaited."""

from __future__ import annotations

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command, Option
from crewboard.telling.holds import hold_lines


def _holds(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    chosen = list(board.holds.values()) if call.given("all") else board.stopping()
    if call.given("json"):
        from crewboard.command.json_form import holds_form

        call.out.json(holds_form(board, chosen))
    else:
        call.out.lines(hold_lines(board, chosen, call.out.width))
    return Exit.FINE


holds = Command(
    _holds,
    "Lists the holds that run or are due for a look: since when, until when, how far, under which "
    "conditions, and what has to be left alone.",
    (DIR,),
    (Option("all", "also those that are over"), AT, JSON),
    ("crewboard holds sample_project --at 2026-05-02",),
)
