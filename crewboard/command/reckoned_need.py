"""What was reckoned becomes the amount that a task needs of a supply: a change of the plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from crewboard.command import naming
from crewboard.command.exits import Exit
from crewboard.command.opened import as_read, today
from crewboard.command.write import tell
from crewboard.folder.edit.plan_edits import Change, Key
from crewboard.order.reckoning.needed import amount_of, task_that_needs
from crewboard.order.said import quoted_title, supply_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from crewboard.command.typed import Call
    from crewboard.plan.plan import Plan
    from crewboard.plan.supply import Supply
    from crewboard.trade.given import Given
    from crewboard.trade.kind import KindOfReckoning
    from crewboard.trade.reckoning import Reckoning
    from crewboard.workbench import Workbench


def write_need(
    call: Call,
    bench: Workbench,
    kind: KindOfReckoning,
    given: Given,
    answer: Reckoning,
    task_id: str,
) -> Exit:
    """Refused where the supply is counted in something else; the supply is named among those of
    the task where it was not yet."""
    plan = bench.plan
    task = as_read(lambda: task_that_needs(plan, task_id))
    supply = plan.supplies[naming.supply(plan, call.option("need"))]
    amount = as_read(lambda: amount_of(supply, kind.name, given, answer))
    named = tuple(dict.fromkeys((*task.supplies, supply.id)))
    values: dict[Key, object] = {"supplies": named, "amounts": {**task.amounts, supply.id: amount}}
    outcome = bench.change(
        Change("task", task.id, values), says="what a task needs of a supply", today=today(plan).on
    )
    what = " ".join(filter(None, (f"{amount:g}", supply.unit)))
    needs = f"{quoted_title(plan, task.id)} needs {what}: {supply_name(plan, supply.id)}"
    return tell(call, bench, outcome, [needs, *_more(bench.plan, supply)])


def _more(plan: Plan, supply: Supply) -> Iterator[str]:
    """That its tasks want more by now than is to be had of it in all."""
    wanted = sum(task.amounts.get(supply.id, 0.0) for task in plan.tasks.values())
    if supply.needed is not None and wanted > supply.needed:
        unit = f" {supply.unit}" if supply.unit else ""
        yield f"its tasks want {wanted:g}{unit}, supplies.toml says {supply.needed:g}: look at it"
