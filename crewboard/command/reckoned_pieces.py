"""The boards of a layout that was chosen become pieces of a component, each where it lies."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from crewboard.command.exits import Exit, Refused
from crewboard.command.opened import as_read, today
from crewboard.command.write import tell
from crewboard.folder.edit.adding_pieces import added_in_words, adding_pieces
from crewboard.folder.edit.plan_edits import Change
from crewboard.plan.length import shown

if TYPE_CHECKING:
    from crewboard.command.typed import Call
    from crewboard.order.reckoning.asked import For
    from crewboard.plan.plan import Plan
    from crewboard.trade.reckoning import Reckoning
    from crewboard.workbench import Workbench


def write_pieces(call: Call, bench: Workbench, answer: Reckoning, of: For) -> Exit:
    """One table of pieces, numbered from the left; old boards are pieces already and left out."""
    plan = bench.plan
    boards = [board for board in answer.laid if not board.old]
    if not boards:
        raise Refused("no new boards are laid in this", "crewboard reckon DIR boards")
    component = _component(plan, of)
    typed = f"{len(boards)} {call.option('pieces')}"
    (added,) = as_read(lambda: adding_pieces(typed, component, plan))
    laid = (
        Change(
            "piece",
            f"{added.id}/{number}",
            {"size": _wide(board.width, plan), "place": _from_left(board.at, plan)},
        )
        for number, board in enumerate(boards, 1)
    )
    words = added_in_words([added])
    outcome = bench.change(added, *laid, says=f"the pieces {words}", today=today(plan).on)
    return tell(call, bench, outcome, [f"added to {plan.components[component].name}: {words}"])


def _component(plan: Plan, of: For) -> str:
    task = plan.tasks.get(of.task) or (plan.written(of.task) if of.task else None)
    component = of.component or (task.component if task is not None else "")
    if not component:
        raise Refused("say of which task the boards are", "write --task")
    return component


def _wide(width: Fraction, plan: Plan) -> str:
    return f"{shown(width, plan.vehicle.units)} wide"


def _from_left(at: Fraction, plan: Plan) -> str:
    return f"{shown(at, plan.vehicle.units)} from the left edge"
