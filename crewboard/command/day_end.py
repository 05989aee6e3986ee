"""`crewboard day-end`: the page at the end of a work day, as `close-day` prints it too."""

from __future__ import annotations

from datetime import datetime

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command
from crewboard.order.board import Board
from crewboard.paper.plain import plain_lines
from crewboard.telling.closing_page import closing_lines
from crewboard.workbench import Workbench


def print_day_end(call: Call, bench: Workbench, at: datetime) -> None:
    """What the day of that moment brought by then, and what comes first on the next work day."""
    lines = closing_lines(bench.board(at), _next_day(bench, at))
    call.out.lines(plain_lines(lines, call.out.width))


def _next_day(bench: Workbench, at: datetime) -> Board | None:
    opens = bench.plan.vehicle.work_days.next_after(at)
    return bench.board(opens) if opens else None


def _day_end(call: Call) -> Exit:
    bench = open_bench(call)
    at = moment(call, bench.plan)
    if call.given("json"):
        from crewboard.command.json_board import day_end_form

        call.out.json(day_end_form(bench.board(at), _next_day(bench, at)))
    else:
        print_day_end(call, bench, at)
    return Exit.FINE


day_end = Command(
    _day_end,
    "Prints what the day brought: hours per person, what began and finished, which clocks started "
    "and when to look, what took longer than was thought; and what comes first on the next work "
    "day. `crewboard close-day` prints it too.",
    (DIR,),
    (AT, JSON),
    ("crewboard day-end sample_project --at 2026-04-25T17:00",),
)
