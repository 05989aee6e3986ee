"""The form of the vehicle itself: its name, the work days, the shop."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from functools import partial
from typing import Any

from crewboard.folder.edit.as_written import written_table
from crewboard.folder.edit.plan_edits import Change, Key
from crewboard.order.admit.refusal import Refusal
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.forms.fields import Field, Typed
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.paired import Paired
from crewboard.terminal.forms.picked import OneOf
from crewboard.terminal.forms.reading import Wrong, clock, count, day, day_rules, needed, words
from crewboard.terminal.planning import choices
from crewboard.terminal.planning.hold_fields import degrees_range, read_range, typed_range
from crewboard.terminal.planning.jig_form import Jigs
from crewboard.terminal.planning.period_fields import period_fields, put_periods
from crewboard.terminal.planning.written import change_here, changed_meanwhile


async def edit_vehicle(app: BoardApp) -> None:
    """Edit vehicle.toml; extra days with hours of their own stay as they are."""
    fields = _fields(app)
    folder = app.workbench.folder
    shown = written_table(folder, "vehicle", "")

    def keep(answers: Mapping[Key, Any]) -> Sequence[Refusal]:
        values = dict(answers)
        warm, damp = values.pop("~c", None), values.pop("~humidity", None)
        for limits, names in ((warm, ("at_least_c", "at_most_c")), (damp, _HUMIDITY)):
            if limits is not None:
                for name, limit in zip(names, limits, strict=True):
                    values["shop", "conditions", name] = limit
        put_periods(values, app.board.plan.vehicle)
        if new := changed_meanwhile(folder, "vehicle", "", shown, values):
            return new
        return change_here(app, [Change("vehicle", "", values)], "the vehicle's settings")

    if await app.push_screen_wait(Form("Vehicle, work days and shop", fields, keep)):
        app.tell("saved in vehicle.toml")


_HUMIDITY = ("at_least_humidity", "at_most_humidity")


def _fields(app: BoardApp) -> list[Field | str]:
    vehicle = app.board.plan.vehicle
    table = written_table(app.workbench.folder, "vehicle", "")
    days = table.get("work_days")
    days = days if isinstance(days, dict) else {}
    usual, shop, limits = vehicle.work_days.usual, vehicle.shop, vehicle.shop.conditions
    units = (Choice("metric", "metric"), Choice("imperial", "imperial"))
    rows: list[Field | str] = [
        Typed("name", "name", vehicle.name, needed),
        Typed("what", "what it is", vehicle.what),
        OneOf("units", "units", vehicle.units, lambda: units, needed=True),
        Typed("currency", "currency", vehicle.currency),
        Typed("jurisdiction", "whose law", vehicle.jurisdiction, hint="US, GB, EU or another"),
        Typed(
            "timezone", "time zone", vehicle.timezone, hint="CET; empty: the clock never changes"
        ),
        "Its times, and the finish agreed on",
        *period_fields(vehicle),
        Typed("standard", "finish", vehicle.standard, hint="as it ran, worn but whole"),
        "Work days",
        Typed(("work_days", "every"), "every", _listed(days.get("every")), day_rules, "wednesday"),
        Typed(("work_days", "opens"), "opens at", f"{usual.opens:%H:%M}", clock),
        Typed(("work_days", "closes"), "closes at", f"{usual.closes:%H:%M}", clock),
    ]
    also = days.get("also", [])
    if all(type(on) is date for on in also):
        rows.append(Typed(("work_days", "also"), "also on", _listed(also), _days, _DAYS))
    return [
        *rows,
        Typed(
            ("work_days", "closed"),
            "not on",
            _listed([day for day, _ in vehicle.work_days.closed]),
            partial(_left_out, dict(vehicle.work_days.closed)),
            _DAYS,
        ),
        "The shop",
        Typed(("shop", "emergency"), "emergency call", shop.emergency),
        Typed(("shop", "address"), "address to say", shop.address),
        Typed(("shop", "meeting_place"), "meeting place", shop.meeting_place),
        Typed(("shop", "first_aid"), "first-aid kit", shop.first_aid),
        Typed(("shop", "places"), "places", ", ".join(shop.places), words, "bench, pit, yard"),
        Paired(
            ("shop", "room"),
            "room for jobs",
            shop.room,
            lambda: choices.place_choices(app.board),
            read=count,
            asks="how many jobs can go on there at a time; empty: not said",
            hint="1",
        ),
        Jigs(app),
        Typed(
            "other_work", "other work", ", ".join(vehicle.other_work), words, "driving, meetings"
        ),
        degrees_range("~c", "{} from-to", limits[:2], vehicle.units),
        Typed("~humidity", "humidity %", typed_range(limits[2:]), read_range, "-85"),
        "Another vehicle of the same crew",
        Typed(
            "shares_crew_with",
            "its folder",
            ", ".join(vehicle.shares_crew_with),
            words,
            "../other-bus",
        ),
    ]


_DAYS = "2026-05-09, 2026-06-13"


def _days(typed: str) -> tuple[date, ...]:
    days: list[date] = []
    for word in words(typed):
        on = day(word)
        if on is None:
            raise Wrong("write dates with commas between")
        days.append(on)
    return tuple(days)


def _left_out(why: Mapping[date, str], typed: str) -> tuple[object, ...]:
    """The days with the reasons that were given for them."""
    return tuple({"date": on, "why": why[on]} if why.get(on) else on for on in _days(typed))


def _listed(value: object) -> str:
    if isinstance(value, str):
        return value
    return ", ".join(map(str, value)) if isinstance(value, list) else ""
