"""`crewboard plan-day`: who does what and when, proposed for the people who are here."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, time
from typing import TYPE_CHECKING

from crewboard.command import naming
from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import (
    AT,
    BY,
    DIR,
    JSON,
    moment,
    open_bench,
    parse_number,
    written_by,
)
from crewboard.command.typed import Call, Command, Option

if TYPE_CHECKING:
    from crewboard.logbook.acts import Act
    from crewboard.order.board import Board
    from crewboard.order.day_plan.proposal import DayPlan, Fixed, Wish
    from crewboard.plan.plan import Plan
    from crewboard.workbench import Workbench


def _plan_day(call: Call) -> Exit:
    from crewboard.order.day_plan.plan_day import EFFORT, plan_day
    from crewboard.order.day_plan.taken_over import running_plan

    bench = open_bench(call)
    board = _board(bench, moment(call, bench.plan))
    effort = EFFORT
    if call.given("seconds"):
        effort = min(600.0, max(0.0, parse_number(call.option("seconds"), "seconds")))
    wish = _wish(call, bench.plan)
    if call.given("give-up"):
        return _give_up(call, bench, board)
    running = running_plan(board)
    goes_on = (running.placed, running.small) if running is not None else ()
    proposal = plan_day(board, wish, effort, *goes_on)
    if call.given("take"):
        return _take(call, bench, board, proposal)
    if call.given("json"):
        from crewboard.command.json_board import day_plan_form

        call.out.json(day_plan_form(proposal))
    else:
        from crewboard.paper.plain import plain_lines, plain_rows
        from crewboard.telling.day_plan import day_plan_lines, day_plan_rows

        width = call.out.width
        call.out.lines(plain_rows(day_plan_rows(board, proposal, wish, running), width))
        call.out.lines(["", *plain_lines(day_plan_lines(board, proposal, running), width)])
    return Exit.FINE


def _take(call: Call, bench: Workbench, board: Board, proposal: DayPlan) -> Exit:
    """Write the plan into the logbook: the day runs by it."""
    from crewboard.order.day_plan.taken_over import taking_over

    if not proposal.placed:
        raise Refused("nothing could be placed: there is no plan to take over")
    return _write(call, bench, board, taking_over(board, proposal, written_by(call, bench.plan)))


def _give_up(call: Call, bench: Workbench, board: Board) -> Exit:
    """Take back the plans that were taken over for the day."""
    from crewboard.logbook.acts import TakenBack
    from crewboard.order.day_plan.taken_over import planned_lines

    acts = [TakenBack(entry.id) for entry, _ in planned_lines(board)]
    if not acts:
        raise Refused("no plan was taken over for that day")
    return _write(call, bench, board, acts)


def _write(call: Call, bench: Workbench, board: Board, acts: Sequence[Act]) -> Exit:
    from crewboard.command.write import tell
    from crewboard.wall_clock import shop_now
    from crewboard.workbench import Said

    plan, at = bench.plan, moment(call, bench.plan)
    lines = [Said(act, at, day=board.at.date()) for act in acts]
    outcome = bench.record(lines, by=written_by(call, plan), now=shop_now(plan))
    return tell(call, bench, outcome)


def _board(bench: Workbench, at: datetime) -> Board:
    """The board at the moment; where the shop is closed then, when it next opens."""
    board = bench.board(at)
    if board.opening is not None and at.time() < board.opening.closes:
        return board
    opens = bench.plan.vehicle.work_days.next_after(at)
    return board if opens is None else bench.board(opens)


def _wish(call: Call, plan: Plan) -> Wish:
    from crewboard.order.day_plan.proposal import Wish

    apart = []
    pairs = call.every("not")
    if len(pairs) % 2:
        raise WrongCall("--not needs a person and a task", "write --not tom deck/caulk")
    for who, task in zip(pairs[::2], pairs[1::2], strict=True):
        apart.append((naming.person(plan, who), naming.task(plan, task)))
    return Wish(
        naming.people(plan, call.every("people")),
        tuple(_fixed(plan, call.every("fix"))),
        tuple(naming.task(plan, name) for name in call.every("leave-out")),
        tuple(apart),
    )


def _fixed(plan: Plan, words: tuple[str, ...]) -> list[Fixed]:
    """Tasks, each with the people and the beginning that stand behind it."""
    from crewboard.order.day_plan.proposal import Fixed

    fixed: list[Fixed] = []
    for word in words:
        start = _time(word)
        if start is None and word not in plan.crew:
            fixed.append(Fixed(naming.task(plan, word)))
        elif not fixed:
            raise WrongCall("--fix begins with a task", "write --fix deck/caulk ada tom 10:00")
        elif start is not None:
            fixed[-1] = fixed[-1]._replace(start=start)
        else:
            fixed[-1] = fixed[-1]._replace(people=(*fixed[-1].people, word))
    return fixed


def _time(word: str) -> time | None:
    """The time of day where it is one: "9:00", not a person's name."""
    from crewboard.plan import as_typed

    try:
        return as_typed.clock(word) if ":" in word else None
    except as_typed.Unread:
        return None


_EFFORT = (
    "how long a usual machine would look for a better plan; 0 for the plain rule. It is counted in "
    "steps, so that every machine finds the same plan"
)

plan_day = Command(
    _plan_day,
    "Proposes a plan for the day: who does what and when, for who is here or said that they come, "
    "by what goes first and within every rule of skills, certificates, places and hazards. What "
    "found no place says why. Fix a part of it and ask again. The lead decides: nothing is written "
    "unless --take is said. Then the day runs by it: what is now and next stands on the work day, "
    "and asked again the plan keeps what it can of it and names what is otherwise. It authorises "
    "nothing.",
    (DIR,),
    (
        Option("people", "plan for these people", "WHO", many=True),
        Option("fix", "a task that is to be done, with people and beginning", "TASK", many=True),
        Option("leave-out", "tasks that are not to be planned", "TASK", many=True),
        Option("not", "a person and a task that do not go together", "WHO TASK", many=True),
        Option("seconds", _EFFORT, "NUMBER"),
        Option("take", "take the plan over: it is written into the logbook"),
        Option("give-up", "take back what was taken over for the day"),
        BY,
        AT,
        JSON,
    ),
    (
        "crewboard plan-day sample_project",
        "crewboard plan-day . --leave-out bell-cord",
        "crewboard plan-day . --take --by mirela",
        "crewboard plan-day . --people mirela tomasz --fix front-brakes tomasz 13:00",
    ),
)
