"""What was reckoned becomes the amount that a task needs of a supply: a change of the plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from crewboard.command import naming
from crewboard.command.exits import Exit
from crewboard.command.opened import as_read, today
from crewboard.command.write import tell
from crewboard.folder.edit.reckoned import as_needed, needed_in_words, wanted_more
from crewboard.order.reckoning.needed import needed_for

if TYPE_CHECKING:
    from crewboard.command.typed import Call
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
    supply = plan.supplies[naming.supply(plan, call.option("need"))]
    needed = as_read(lambda: needed_for(plan, task_id, supply, kind.name, given, answer))
    outcome = bench.change(
        as_needed(needed), says="what a task needs of a supply", today=today(plan).on
    )
    told = [needed_in_words(plan, needed), wanted_more(bench.plan, needed)]
    return tell(call, bench, outcome, list(filter(None, told)))
