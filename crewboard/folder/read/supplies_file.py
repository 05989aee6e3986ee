"""`supplies.toml`: what the tasks need to have, one table each."""

from __future__ import annotations

from typing import Any

from crewboard.folder.read.fault import Misfit
from crewboard.folder.read.files import HINT, is_id
from crewboard.folder.read.table import Table
from crewboard.plan.supply import Supply


def decode_supplies(values: dict[str, Any]) -> tuple[dict[str, Supply], list[Misfit]]:
    """The supplies by their short ids, and every mistake."""
    misfits: list[Misfit] = []
    table = Table(values, (), misfits)
    supplies = {}
    for supply_id, each in table.tables("supplies"):
        if not is_id(supply_id):
            each.tell(None, "bad-id", f'"{supply_id}" cannot be a short name', HINT)
        else:
            supplies[supply_id] = _supply(supply_id, each)
    table.done()
    return supplies, misfits


def _supply(supply_id: str, table: Table) -> Supply:
    supply = Supply(
        id=supply_id,
        name=table.text("name", supply_id, needed=True),
        in_stock=table.flag("in_stock"),
        lead_time=table.span("lead_time"),
        ordered=table.day("ordered"),
        due=table.day("due"),
        arrived=table.day("arrived"),
        quantity=_quantity(table),
        price=table.number("price", least=0),
        source=table.text("source"),
        note=table.text("note"),
    )
    table.done()
    return supply


def _quantity(table: Table) -> str:
    """quantity = "8 sheets", or quantity = 8 with unit = "sheets"."""
    unit = table.text("unit")
    if isinstance(table.values.get("quantity"), str):
        return table.text("quantity")
    number = table.number("quantity", least=0)
    return f"{number:.12g} {unit}".rstrip() if number is not None else ""
