"""The times in the vehicle's life, typed in one field, and the one that the restoration shows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from crewboard.folder.edit.plan_edits import Key
from crewboard.folder.read.files import id_from
from crewboard.plan.as_typed import texts
from crewboard.plan.vehicle import Period, Vehicle
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.forms.fields import Field, Typed
from crewboard.terminal.forms.picked import OneOf

_PERIODS = "~periods"


def period_fields(vehicle: Vehicle) -> list[Field]:
    """All times in one field, "first body, 1912 to 1931; second body, 1931"; which is shown."""
    shown = tuple(Choice(one.id, one.name, _years(one)) for one in vehicle.periods.values())
    typed = "; ".join(map(_typed, vehicle.periods.values()))
    rows: list[Field] = [
        Typed(_PERIODS, "times", typed, texts, "first body, 1912 to 1931; second body, 1931")
    ]
    if shown:
        rows.append(OneOf("shows", "shows", vehicle.shows, lambda: shown))
    return rows


def put_periods(values: dict[Key, Any], vehicle: Vehicle) -> None:
    """The typed times as values of their tables: those that are not there any more go."""
    if _PERIODS not in values:
        return
    kept = {period.name.casefold(): period.id for period in vehicle.periods.values()}
    taken = set(vehicle.periods)
    for typed in values.pop(_PERIODS) or ():
        name, _, years = (part.strip() for part in typed.partition(","))
        period = kept.pop(name.casefold(), None) or id_from(name, taken)
        taken.add(period)
        since, _, until = (part.strip() for part in years.partition(" to "))
        for key, value in (("name", name), ("since", since), ("until", until)):
            values["periods", period, key] = value or None
    for gone in kept.values():
        values["periods", gone] = None
        if vehicle.shows == gone:
            values["shows"] = None


def _years(period: Period) -> str:
    return " to ".join(filter(None, (period.since, period.until)))


def _typed(period: Period) -> str:
    return ", ".join(_parts(period))


def _parts(period: Period) -> Iterator[str]:
    yield period.name
    if years := _years(period):
        yield years
