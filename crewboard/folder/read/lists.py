"""`crew.toml` and `supplies.toml`: the volunteers and what the tasks need, one table each."""

from __future__ import annotations

from datetime import date
from typing import Any

from crewboard.folder.read.fault import Misfit
from crewboard.folder.read.files import HINT, is_id
from crewboard.folder.read.table import Table, spoken_type
from crewboard.plan.supply import Supply
from crewboard.plan.volunteer import Certificate, Volunteer


def decode_crew(values: dict[str, Any]) -> tuple[dict[str, Volunteer], list[Misfit]]:
    """The people by their short ids, and every mistake."""
    misfits: list[Misfit] = []
    table = Table(values, (), misfits)
    crew = {}
    for who, person in table.tables("people"):
        if not is_id(who):
            person.tell(None, "bad-id", f'"{who}" cannot be a short name', HINT)
        else:
            crew[who] = _volunteer(who, person)
    table.done()
    return crew, misfits


def _volunteer(who: str, table: Table) -> Volunteer:
    volunteer = Volunteer(
        id=who,
        name=table.text("name", who, needed=True),
        skills=table.names("skills"),
        certificates=tuple(_certificates(table.table("certificates"))),
        lead=table.flag("lead"),
        under_18=table.flag("under_18"),
        eighteen_on=table.day("eighteen_on"),
        joined=table.day("joined"),
        left=table.day("left"),
        needs_beside=table.text("needs_beside"),
        note=table.text("note"),
    )
    table.done()
    return volunteer


def _certificates(table: Table | None) -> list[Certificate]:
    """ "hot work" = 2027-01-31, or { until = ..., since = ..., note = "..." }, or true."""
    certificates = []
    for kind, value in (table.values if table else {}).items():
        assert table is not None
        if type(value) is date:
            certificates.append(Certificate(kind, value))
        elif value is True:
            certificates.append(Certificate(kind))
        elif isinstance(value, dict):
            one = Table(value, (*table.path, kind), table.misfits)
            certificates.append(
                Certificate(kind, one.day("until"), one.day("since"), one.text("note"))
            )
            one.done()
        else:
            sentence = f'the certificate "{kind}" is {spoken_type(value)}'
            hint = "write the last day it is good for, such as 2027-01-31, or true"
            table.tell(kind, "wrong-type", sentence, hint)
    return certificates


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
