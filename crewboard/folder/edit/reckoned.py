"""The edits by which an answer becomes a part of the plan: boards as pieces, an amount needed."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from crewboard.folder.edit.adding_pieces import added_in_words, adding_pieces
from crewboard.folder.edit.plan_edits import Add, Change, Key
from crewboard.order.reckoning.asked import For
from crewboard.order.reckoning.laid import BoardLaid
from crewboard.order.reckoning.needed import Needed
from crewboard.order.said import component_name, quoted_title, supply_name
from crewboard.plan.as_typed import Unread
from crewboard.plan.plan import Plan
from crewboard.plan.supply import amount_in_words


def boards_as_pieces(
    plan: Plan, boards: Sequence[BoardLaid], of: For, called: str
) -> list[Add | Change]:
    """One table of pieces, numbered from the left, each with its width and where it lies. Raises
    Unread."""
    component = component_of(plan, of)
    if not component:
        raise Unread("say of which task or component the boards are", "write --task")
    added, *more = adding_pieces(f"{len(boards)} {called}", component, plan)
    if more or not isinstance(added, Add):
        raise Unread(f'"{called}" is there already', "give them another name")
    laid = (
        Change("piece", f"{added.id}/{number}", {"size": board.size, "place": board.place})
        for number, board in enumerate(boards, 1)
    )
    return [added, *laid]


def component_of(plan: Plan, of: For) -> str:
    """The component of what an answer is for, empty where it is for nothing of the plan."""
    task = plan.tasks.get(of.task) or (plan.written(of.task) if of.task else None)
    return of.component or (task.component if task is not None else "")


def added_to(plan: Plan, edits: list[Add | Change], of: For) -> str:
    """ "added to Deck: Board 1 to 17"."""
    return f"added to {component_name(plan, component_of(plan, of))}: {added_in_words(edits[:1])}"


def as_needed(needed: Needed) -> Change:
    """The amount in the plan, the supply among those of the task."""
    task, supply = needed.task, needed.supply
    named = tuple(dict.fromkeys((*task.supplies, supply.id)))
    amounts = {**task.amounts, supply.id: needed.each}
    values: dict[Key, object] = {"supplies": named, "amounts": amounts}
    return Change("task", task.id, values)


def needed_in_words(plan: Plan, needed: Needed) -> str:
    """'"Lay the deck" needs 17 boards: oak for the deck'."""
    supply = needed.supply
    much = amount_in_words(needed.amount, supply.unit)
    each = f", {needed.each:.4g} for each of its pieces" if needed.each != needed.amount else ""
    title = f'"{needed.task.title}"' if needed.of_series else quoted_title(plan, needed.task.id)
    return f"{title} needs {much}: {supply_name(plan, supply.id)}{each}"


def wanted_more(plan: Plan, needed: Needed) -> str:
    """That its tasks want more by now than is to be had of it in all; else empty."""
    supply = needed.supply
    sums = (Fraction(task.amounts.get(supply.id, 0.0)) for task in plan.tasks.values())
    wanted = float(sum(sums, Fraction(0)))
    if supply.needed is None or wanted <= supply.needed:
        return ""
    much = amount_in_words(wanted, supply.unit)
    return f"its tasks want {much}, supplies.toml says {supply.needed:g}: look at it"
