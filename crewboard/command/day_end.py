"""`crewboard day-end`: the page at the end of a work day, as `close-day` prints it too."""

from __future__ import annotations

from datetime import datetime

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, moment, open_bench
from crewboard.command.typed import Call, Command
from crewboard.paper.plain import plain_lines
from crewboard.telling.closing_page import closing_lines
from crewboard.workbench import Workbench


def print_day_end(call: Call, bench: Workbench, at: datetime) -> None:
    """What the day of that moment brought by then, and what comes first on the next work day."""
    opens = bench.plan.vehicle.work_days.next_after(at)
    lines = closing_lines(bench.board(at), bench.board(opens) if opens else None)
    call.out.lines(plain_lines(lines, call.out.width))


def _day_end(call: Call) -> Exit:
    bench = open_bench(call)
    print_day_end(call, bench, moment(call, bench.plan))
    return Exit.FINE


day_end = Command(
    _day_end,
    "Prints what the day brought: hours per person, what began and finished, which clocks started "
    "and when to look, what took longer than was thought; and what comes first on the next work "
    "day. `crewboard close-day` prints it too. As JSON it stands in `crewboard day --json`.",
    (DIR,),
    (AT,),
    ("crewboard day-end sample_project --at 2026-04-25T17:00",),
)
