"""`crewboard why` and `crewboard then`: the chain before a task, and what lies behind it."""

from __future__ import annotations

from crewboard.command import naming
from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command, Word
from crewboard.order.board import Board
from crewboard.order.reasons.onward import what_then
from crewboard.order.reasons.why import why as why_chain
from crewboard.order.said import how_many
from crewboard.paper.plain import Paper

TASK = Word("TASK", "a task: its id, the end of its id, or words of its title")


def _why(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    reasons = why_chain(board, naming.task(bench.plan, call.word("TASK")))
    if call.given("json"):
        from crewboard.command.json_form import why_form

        call.out.json(why_form(board, reasons))
        return Exit.FINE
    paper = Paper(call.out.width)
    for reason in reasons:
        mark = "-> " if reason.root else ""
        entry = f"  [{reason.entry}]" if reason.entry else ""
        paper.line(f"{mark}{reason.says}{entry}", indent=2 * min(reason.depth, 12), hang=3)
    call.out.lines(paper.lines)
    return Exit.FINE


def _then(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    task_id = naming.task(bench.plan, call.word("TASK"))
    if call.given("json"):
        from crewboard.command.json_form import then_form

        call.out.json(then_form(board, task_id))
    else:
        call.out.lines(_then_lines(board, task_id, call.out.width))
    return Exit.FINE


def _then_lines(board: Board, task_id: str, width: int) -> list[str]:
    onward = what_then(board, task_id)
    paper = Paper(width)
    paper.line(f"When {board.plan.tasks[task_id].title} is finished:", hang=2)
    for heading, tasks in (
        ("Ready at once", onward.now),
        ("Ready after its hold, or when what else stands before them is over", onward.after_hold),
        ("A step closer, still waiting for other work", onward.closer),
    ):
        if tasks:
            paper.line(f"{heading}:", indent=2, hang=2)
            paper.items((f"{board.plan.tasks[each].title}  [{each}]" for each in tasks), indent=4)
    behind = how_many(onward.behind, "task")
    paper.line(
        f"{behind} behind it in all." if onward.behind else "Nothing waits for it.", indent=2
    )
    return paper.lines


why = Command(
    _why,
    "Says why a task stands where it stands: each step of what blocks it, down to the roots (->), "
    "where something can be done or waited for. In brackets: the line of the logbook behind it.",
    (DIR, TASK),
    (AT, JSON),
    ("crewboard why sample_project lay-boards --at 2026-05-02T09:00",),
)
then = Command(
    _then,
    "Says what finishing a task lets go, now and after its hold.",
    (DIR, TASK),
    (AT, JSON),
    ("crewboard then sample_project bend-arches",),
)
