"""`crewboard briefing`: the day's safety talk."""

from __future__ import annotations

from crewboard.command import naming
from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, moment, open_bench
from crewboard.command.typed import Call, Command, Option
from crewboard.order.safety.briefing import briefing as talk_of
from crewboard.telling.briefing import briefing_lines, briefing_page


def _briefing(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    tasks = [naming.task(bench.plan, each) for each in call.every("task")] or None
    talk = talk_of(board, tasks)
    if call.given("html"):
        call.out.text(briefing_page(talk))
    else:
        call.out.lines(briefing_lines(talk, call.out.width))
    return Exit.FINE


briefing = Command(
    _briefing,
    "Prints the day's safety talk: dangers, gear, who may do what, who signs, what must end when, "
    "whom to call and where to meet. For all tasks ready or under way, or for those named.",
    (DIR,),
    (
        Option("task", "only for these tasks", "TASK", many=True),
        Option("html", "as a page to print"),
        AT,
    ),
    (
        "crewboard briefing sample_project --at 2026-05-02T09:00",
        "crewboard briefing . --task plumb-and-brace front-brakes --html > talk.html",
    ),
)
