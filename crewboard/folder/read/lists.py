"""`crew.toml` and `supplies.toml`: the volunteers and what the tasks need, one table each."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any, TypeVar

from crewboard.folder.read.fault import Misfit
from crewboard.folder.read.table import Table, spoken_type
from crewboard.folder.read.times_away import times_away
from crewboard.plan.supply import Supply
from crewboard.plan.volunteer import Certificate, Volunteer

Listed = TypeVar("Listed", Volunteer, Supply)


def decode_crew(values: dict[str, Any]) -> tuple[dict[str, Volunteer], list[Misfit]]:
    """The people by their short ids, and every mistake."""
    return _by_short_id(values, "people", _volunteer)


def decode_supplies(values: dict[str, Any]) -> tuple[dict[str, Supply], list[Misfit]]:
    """The supplies by their short ids, and every mistake."""
    return _by_short_id(values, "supplies", _supply)


def _by_short_id(
    values: dict[str, Any], key: str, read: Callable[[str, Table], Listed]
) -> tuple[dict[str, Listed], list[Misfit]]:
    misfits: list[Misfit] = []
    table = Table(values, (), misfits)
    listed = {name: read(name, row) for name, row in table.tables(key) if row.well_named()}
    table.done()
    return listed, misfits


def _volunteer(who: str, table: Table) -> Volunteer:
    volunteer = Volunteer(
        id=who,
        name=table.text("name", who, needed=True),
        skills=table.names("skills"),
        certificates=tuple(_certificates(table.table("certificates"))),
        lead=table.flag("lead"),
        adult=_adult(table),
        eighteen_on=_eighteen_on(table),
        joined=table.day("joined"),
        left=table.day("left"),
        needs_beside=table.text("needs_beside"),
        note=table.text("note"),
        learning=table.names("learning"),
        was_guest=table.names("was_guest"),
        away=times_away(table, "away"),
    )
    table.done()
    return volunteer


def _adult(table: Table) -> bool | None:
    """Whether somebody said that they are an adult; older folders said `under_18`."""
    adult, under_18 = table.flag("adult"), table.flag("under_18")
    if "adult" in table:
        return adult
    return not under_18 if "under_18" in table else None


def _eighteen_on(table: Table) -> date | None:
    """The day an under-18 comes of age: by the date of birth, or written as that day."""
    born = table.day("born")
    coming_of_age = table.day("eighteen_on")
    if born is None:
        return coming_of_age
    # Born on 29 February: of age on 1 March, the later of the two days in question.
    leap = (born.month, born.day) == (2, 29)
    return date(born.year + 18, 3, 1) if leap else born.replace(year=born.year + 18)


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
                Certificate(
                    kind, one.day("until"), one.day("since"), one.text("note"), one.day("seen")
                )
            )
            one.done()
        else:
            sentence = f'the certificate "{kind}" is {spoken_type(value)}'
            hint = "write the last day it is good for, such as 2027-01-31, or true"
            table.tell(kind, "wrong-type", sentence, hint)
    return certificates


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
