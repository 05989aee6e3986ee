"""Weeks away as they are written: { from = 2026-12-20, until = 2027-01-06, each_year = true }."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.folder.read.table import Table, spoken_type
from crewboard.plan.time_away import TimeAway

_HINT = "write { from = 2026-12-20, until = 2027-01-06 }"


def times_away(table: Table, key: str) -> tuple[TimeAway, ...]:
    """The list under the key; every mistake is told, and what has one left out."""
    written = table.any(key)
    if written is None:
        return ()
    if not isinstance(written, list):
        table.tell(key, "wrong-type", f'"{key}" is {spoken_type(written)}', f"{_HINT} in a list")
        return ()
    return tuple(_times(table, key, written))


def _times(table: Table, key: str, written: list[object]) -> Iterator[TimeAway]:
    for place, value in enumerate(written):
        if not isinstance(value, dict):
            one = Table({}, (*table.path, key, place), table.misfits)
            one.tell(None, "wrong-type", f'"{key}" holds {spoken_type(value)}', _HINT)
            continue
        one = Table(value, (*table.path, key, place), table.misfits)
        since, until = one.day("from"), one.day("until")
        each_year, why = one.flag("each_year"), one.text("why")
        one.done()
        for end in ("from", "until"):
            if end not in one:
                one.tell(None, "missing", f'"{end}" is missing here', _HINT)
        if since is None or until is None:
            continue
        if until < since:
            says = f"it ends on {until}, before it begins on {since}"
            one.tell("until", "out-of-range", says, "write the later day as until")
        elif each_year and (until - since).days >= 365:
            one.tell("until", "out-of-range", "it is longer than a year", "leave each_year out")
        else:
            yield TimeAway(since, until, each_year, why)
