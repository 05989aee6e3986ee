"""The commands that look at the work: `day`, `task`, `why`, `then`, `holds`, `vehicle`, `crew`,
`supplies`.

What one of them alone needs is imported when it is called.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, TASK, moment, open_bench
from crewboard.command.typed import Call, Command, Option, Word

if TYPE_CHECKING:
    from collections.abc import Iterable

    from crewboard.order.board import Board
    from crewboard.telling.line import Line


def _board(call: Call) -> Board:
    """The board at the moment asked for; what cannot be read is said before all else."""
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    if board.unreadable and not call.given("json"):
        from crewboard.telling.line import GAP
        from crewboard.telling.unreadable import unreadable_lines

        _tell(call, [*unreadable_lines(board), GAP])
    return board


def _task(call: Call, board: Board) -> str:
    """The id of the task, or of the series, that is named."""
    from crewboard.command import naming

    if not board.plan.series:
        return naming.task(board.plan, call.word("TASK"))
    from crewboard.command.naming_several import task_or_series

    return task_or_series(board.plan, call.word("TASK"))


def _tell(call: Call, lines: Iterable[Line]) -> None:
    from crewboard.paper.plain import plain_lines

    call.out.lines(plain_lines(lines, call.out.width))


def print_day(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    if call.given("json"):
        from crewboard.command.json_board import day_form

        call.out.json(day_form(board, bench.faults))
    else:
        call.out.lines(day_in_plain(board, call.out.width))
        if count := len(bench.faults):
            there = "is 1 mistake" if count == 1 else f"are {count} mistakes"
            call.out.line(f"There {there} in the folder: crewboard check {call.word('DIR')}")
    return Exit.FINE


def day_in_plain(board: Board, width: int) -> list[str]:
    """The day as lines: what stands over its rows, its rows, what waits, how far the work is."""
    from crewboard.paper.plain import plain_lines, plain_rows
    from crewboard.telling.day import day_head, finished_so_far, waiting_lines
    from crewboard.telling.line import GAP, Line
    from crewboard.telling.work_day import work_day_rows

    end = [*waiting_lines(board), GAP, Line(f"{finished_so_far(board)}.")]
    rows = plain_rows(work_day_rows(board), width)
    return [*plain_lines(day_head(board), width), "", *rows, *plain_lines(end, width)]


def _print_task(call: Call) -> Exit:
    board = _board(call)
    task_id = _task(call, board)
    if task_id in board.plan.series:
        return _of_series(call, board, task_id, "task")
    if call.given("json"):
        from crewboard.command.json_task import task_form

        call.out.json(task_form(board, task_id))
    else:
        from crewboard.telling.task import full_sheet

        _tell(call, full_sheet(board, task_id))
    return Exit.FINE


def _why(call: Call) -> Exit:
    board = _board(call)
    task_id = _task(call, board)
    if task_id in board.plan.series:
        return _of_series(call, board, task_id, "why")
    if call.given("json"):
        from crewboard.command.json_board import why_form
        from crewboard.order.reasons.why import why as why_chain

        call.out.json(why_form(board, why_chain(board, task_id)))
    else:
        from crewboard.telling.why import why_lines

        _tell(call, why_lines(board, task_id))
    return Exit.FINE


def _of_series(call: Call, board: Board, series: str, asked: str) -> Exit:
    """The same of all pieces of a series: each in short, or as JSON each with its own form."""
    if call.given("json"):
        from crewboard.command.json_task import series_form

        call.out.json(series_form(board, series, asked))
        return Exit.FINE
    from crewboard.telling.series_why import series_sheet, then_of_series, why_of_series

    lines = {"task": series_sheet, "why": why_of_series, "then": then_of_series}[asked]
    _tell(call, lines(board, series))
    return Exit.FINE


def _then(call: Call) -> Exit:
    board = _board(call)
    task_id = _task(call, board)
    if task_id in board.plan.series:
        return _of_series(call, board, task_id, "then")
    if call.given("json"):
        from crewboard.command.json_board import then_form

        call.out.json(then_form(board, task_id))
    else:
        from crewboard.telling.line import title
        from crewboard.telling.why import then_lines

        head = title(f'When "{board.plan.tasks[task_id].title}" is finished:')
        _tell(call, [head, *then_lines(board, task_id)])
    return Exit.FINE


def _holds(call: Call) -> Exit:
    board = _board(call)
    if call.given("json"):
        from crewboard.command.json_board import holds_form

        chosen = board.holds.values() if call.given("all") else board.stopping()
        call.out.json(holds_form(board, chosen))
    else:
        from crewboard.paper.plain import plain_rows
        from crewboard.telling.holds import hold_rows

        rows = hold_rows(board, over="all" if call.given("all") else "none", full=True)
        call.out.lines(plain_rows(rows, call.out.width) or ["No hold is running."])
    return Exit.FINE


def _vehicle(call: Call) -> Exit:
    board = _board(call)
    if call.given("json"):
        from crewboard.command.json_folder import vehicle_form

        call.out.json(vehicle_form(board, tasks=call.given("tasks")))
    else:
        from crewboard.paper.plain import plain_rows
        from crewboard.telling.vehicle import Tree, vehicle_title

        call.out.line(vehicle_title(board))
        rows = Tree(board).rows(tasks=call.given("tasks"))
        call.out.lines(plain_rows(rows, call.out.width))
    return Exit.FINE


def _crew(call: Call) -> Exit:
    board = _board(call)
    if call.given("json"):
        from crewboard.command.json_folder import crew_form

        call.out.json(crew_form(board))
    elif call.word("WHO"):
        from crewboard.command import naming
        from crewboard.telling.person import person_lines

        who = naming.person(board.plan, call.word("WHO"))
        _tell(call, person_lines(board, who, plain=call.out.plain))
    else:
        from crewboard.paper.plain import plain_rows
        from crewboard.telling.crew import crew_rows, lapse_lines
        from crewboard.telling.line import GAP, title

        call.out.lines(plain_rows(crew_rows(board, full=True), call.out.width))
        if lapsing := lapse_lines(board):
            head = title("Certificates that lapse before work that needs them")
            _tell(call, [GAP, head, *lapsing])
    return Exit.FINE


def _supplies(call: Call) -> Exit:
    board = _board(call)
    if call.given("json"):
        from crewboard.command.json_folder import supplies_form

        call.out.json(supplies_form(board))
    elif call.word("SUPPLY"):
        from crewboard.command import naming
        from crewboard.telling.supplies import supply_lines

        _tell(call, supply_lines(board, naming.supply(board.plan, call.word("SUPPLY"))))
    else:
        from crewboard.paper.plain import plain_rows
        from crewboard.telling.supplies import supply_rows

        call.out.lines(plain_rows(supply_rows(board), call.out.width))
    return Exit.FINE


day = Command(
    print_day,
    "Prints the work day: date and hours, who is here, what goes first and why, what is ready and "
    "what finishing it frees, what is under way, the holds, and what waits on what.",
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
    "where something can be done or waited for. In brackets: the entry of the logbook behind it.",
    (DIR, TASK),
    (AT, JSON),
    ("crewboard why sample_project lay-boards --at 2026-05-02T09:00",),
)
then = Command(
    _then,
    "Says what finishing a task frees, now and after its hold.",
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
