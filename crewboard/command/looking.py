"""The commands that look at the work: `day`, `task`, `why`, `then`, `holds`, `vehicle`.

What one of them alone needs is imported when it is called.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, TASK, moment, open_bench
from crewboard.command.typed import Call, Command, Option

if TYPE_CHECKING:
    from crewboard.order.board import Board


def _board(call: Call) -> Board:
    """The board at the moment asked for."""
    bench = open_bench(call)
    return bench.board(moment(call, bench.plan))


def _task(call: Call, board: Board) -> str:
    from crewboard.command import naming

    return naming.task(board.plan, call.word("TASK"))


def print_day(call: Call) -> Exit:
    from crewboard.telling.day_board import day_board

    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    if call.given("json"):
        from crewboard.command.json_form import day_form

        call.out.json(day_form(board, bench.faults))
    else:
        root = call.word("DIR")
        call.out.lines(day_board(board, call.out.width, mistakes=len(bench.faults), folder=root))
    return Exit.FINE


def _print_task(call: Call) -> Exit:
    from crewboard.telling.task_sheet import task_sheet

    board = _board(call)
    task_id = _task(call, board)
    if call.given("json"):
        from crewboard.command.json_form import task_form

        call.out.json(task_form(board, task_id))
    else:
        call.out.lines(task_sheet(board, task_id, call.out.width))
    return Exit.FINE


def _why(call: Call) -> Exit:
    from crewboard.order.reasons.why import why as why_chain
    from crewboard.paper.plain import Paper

    board = _board(call)
    reasons = why_chain(board, _task(call, board))
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
    board = _board(call)
    task_id = _task(call, board)
    if call.given("json"):
        from crewboard.command.json_form import then_form

        call.out.json(then_form(board, task_id))
    else:
        call.out.lines(_then_lines(board, task_id, call.out.width))
    return Exit.FINE


def _then_lines(board: Board, task_id: str, width: int) -> list[str]:
    from crewboard.order.reasons.onward import what_then
    from crewboard.order.said import how_many
    from crewboard.paper.plain import Paper

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


def _holds(call: Call) -> Exit:
    from crewboard.telling.holds import hold_lines

    board = _board(call)
    chosen = list(board.holds.values()) if call.given("all") else board.stopping()
    if call.given("json"):
        from crewboard.command.json_form import holds_form

        call.out.json(holds_form(board, chosen))
    else:
        call.out.lines(hold_lines(board, chosen, call.out.width))
    return Exit.FINE


def _vehicle(call: Call) -> Exit:
    from crewboard.telling.vehicle import vehicle_lines

    board = _board(call)
    if call.given("json"):
        from crewboard.command.json_plan import vehicle_form

        call.out.json(vehicle_form(board, tasks=call.given("tasks")))
    else:
        call.out.lines(vehicle_lines(board, call.out.width, tasks=call.given("tasks")))
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
task = Command(
    _print_task,
    "Prints a task's sheet: how it is done, what it needs, where it stands, and for each hazard "
    "the checks, gear, limits and cautions, each number with its source and mark.",
    (DIR, TASK),
    (AT, JSON),
    ("crewboard task sample_project strip-sashes --at 2026-05-02T09:00",),
)
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
    ("crewboard then sample_project coat-roof-hidden",),
)
holds = Command(
    _holds,
    "Lists the holds that run or are due for a look: since when, until when, how far, under which "
    "conditions, and what has to be left alone.",
    (DIR,),
    (Option("all", "also those that are over"), AT, JSON),
    ("crewboard holds sample_project --at 2026-05-02",),
)
vehicle = Command(
    _vehicle,
    "Prints the component tree: how far each component is and what it comes after.",
    (DIR,),
    (Option("tasks", "also every task, with where it stands"), AT, JSON),
    ("crewboard vehicle sample_project", "crewboard vehicle sample_project --tasks"),
)
