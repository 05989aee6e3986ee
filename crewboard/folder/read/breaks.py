"""The breaks of a work day, as `vehicle.toml` says them: breaks = ["12:30-13:00 lunch"]."""

from __future__ import annotations

import re
from datetime import time

from crewboard.folder.read.fault import Misfit
from crewboard.folder.read.table import Table
from crewboard.plan.vehicle import Break

_SAID = re.compile(r"(\d?\d)[:.](\d\d)\s*(?:-|–|to)\s*(\d?\d)[:.](\d\d)(?:\s+(\S.*))?", re.DOTALL)
_HINT = 'write when it begins, when it ends and what it is, such as "12:30-13:00 lunch"'


def decode_breaks(table: Table) -> tuple[Break, ...]:
    """In the order of the day; one that lies over another is told, and left out."""
    read = [(said, _break(said)) for said in table.names("breaks")]
    kept: list[Break] = []
    for said, each in read:
        wrong = ""
        if each is None:
            wrong = f'"{said}" is no break'
        elif each.ends <= each.begins:
            wrong = f'the break "{said}" ends no later than it begins'
        elif other := next(
            (o for o in kept if each.begins < o.ends and o.begins < each.ends), None
        ):
            wrong = f'the break "{said}" lies over the one at {other.begins:%H:%M}'
        if wrong:
            _tell(table, said, wrong)
        elif each is not None:
            kept.append(each)
    return tuple(sorted(kept, key=lambda each: each.begins))


def _break(said: str) -> Break | None:
    match = _SAID.fullmatch(said.strip())
    if match is None:
        return None
    *clock, name = match.groups()
    begins_hour, begins_minute, ends_hour, ends_minute = map(int, clock)
    if max(begins_hour, ends_hour) > 23 or max(begins_minute, ends_minute) > 59:
        return None
    return Break(time(begins_hour, begins_minute), time(ends_hour, ends_minute), name or "")


def _tell(table: Table, said: str, sentence: str) -> None:
    value = table.values["breaks"]
    path = (*table.path, "breaks")
    if isinstance(value, list):
        path = (*path, value.index(said))
    table.misfits.append(Misfit(path, "not-a-break", sentence, _HINT))
