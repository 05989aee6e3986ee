"""Correct a line of the logbook, or take it back: both with a new line that names the old one."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime
from typing import Any

from crewboard.folder.edit.plan_edits import Key
from crewboard.logbook.acts import Act, HoldStarted, TakenBack
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.refusal import Refusal
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.entry_told import entry_told
from crewboard.terminal.forms.fields import Field, Typed, YesNo
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.picked import OneOf, SomeOf
from crewboard.terminal.forms.reading import (
    Wrong,
    hours,
    moment,
    number,
    span,
    text,
    typed_number,
)
from crewboard.terminal.forms.reading import (
    day as read_day,
)
from crewboard.terminal.people import crew_choices
from crewboard.terminal.planning import choices

AT = "~at"
# What names another line or a sheet is not changed by a correction: take the line back instead.
_FIXED = frozenset({"entry", "hazard", "check"})
_LABELS = {
    "seen_by": "seen by",
    "celsius": "°C",
    "humidity": "humidity %",
    "lowest_c": "lowest °C",
    "highest_c": "highest °C",
    "lowest_humidity": "lowest %",
    "highest_humidity": "highest %",
    "leave_alone": "leave alone",
    "clock": "clock starts",
    "despite": "all the same, why",
    "back": "taken up again",
    "hold": "kind",
}


async def correct(app: BoardApp, day: Day, entry: Entry) -> None:
    """Show the line's fields; what is changed becomes a new line."""
    if not _counts(app, day, entry):
        return
    fields = [
        Typed(AT, "when", f"{entry.at:%Y-%m-%d %H:%M}", _needed_moment, "2026-05-02 09:10"),
        *entry_fields_of(app.board, entry.act),
    ]

    def keep(said: Mapping[Key, Any]) -> Sequence[Refusal]:
        at = said.get(AT, entry.at)
        act = changed(entry.act, {k: v for k, v in said.items() if k != AT})
        outcome = app.workbench.correct(entry.id, act, at, by=app.by, now=app.now())
        app.look_now()
        return outcome.refused

    says = entry_told(app.board, entry, day)
    if await app.push_screen_wait(Form("Correct the line", fields, keep, says=says)):
        app.tell("corrected with a new line")


async def take_back(app: BoardApp, day: Day, entry: Entry) -> None:
    """Ask why; the line stays to be read and does not count any more."""
    if not _counts(app, day, entry):
        return
    says = entry_told(app.board, entry, day)
    ask = AskLine("Take the line back", "why (kept in the logbook)", says=says, needed=False)
    why = await app.push_screen_wait(ask)
    if why is None:
        return
    app.do(
        lambda: app.workbench.take_back(entry.id, by=app.by, now=app.now(), why=why),
        lambda _: app.tell("taken back with a new line"),
    )


def _counts(app: BoardApp, day: Day, entry: Entry) -> bool:
    if entry.id in day.fate():
        app.tell("that line does not count any more", warning=True)
        return False
    if isinstance(entry.act, TakenBack):
        app.tell("that line takes another back: u undoes it while this sitting lasts", warning=True)
        return False
    return True


def changed(act: Act, said: Mapping[Key, Any]) -> Act:
    """The act with other values; what was emptied goes back to what is usual."""
    values: dict[str, Any] = {}
    for key, value in said.items():
        name = str(key)
        if isinstance(getattr(act, name), bool):
            values[name] = bool(value)  # an answer of no is left empty
        else:
            values[name] = act._field_defaults.get(name, "") if value is None else value
    return act._replace(**values)


def entry_fields_of(board: Board, act: Act) -> list[Field]:
    """A field for each thing that the entry says."""
    return [
        _field(board, act, name, getattr(act, name))
        for name in act._fields
        if name not in _FIXED and not (name == "hold" and not isinstance(act, HoldStarted))
    ]


def _field(board: Board, act: Act, name: str, value: Any) -> Field:
    label = _LABELS.get(name, name)
    picks = _picked(board, name)
    if isinstance(value, tuple) and not hasattr(value, "_fields"):
        return SomeOf(name, label, value, picks or (lambda: ()))
    if picks is not None:
        return OneOf(name, label, value, picks, needed=name not in act._field_defaults)
    if isinstance(value, bool):
        return YesNo(name, label, value)
    if name == "hours":
        return Typed(name, label, typed_number(value), hours)
    if name in ("celsius", "humidity") or name.startswith(("lowest_", "highest_")):
        return Typed(name, label, typed_number(value), number)
    if name == "lasts":
        return Typed(name, label, str(value) if value else "", span, "36 hours, 2 days, 1 month")
    if name in ("clock", "until"):
        typed = f"{value:%Y-%m-%d %H:%M}" if isinstance(value, datetime) else ""
        return Typed(name, label, typed, moment, "2026-05-02 12:00")
    if name == "due":
        typed = value.isoformat() if isinstance(value, date) else ""
        return Typed(name, label, typed, read_day, "2026-05-02")
    return Typed(name, label, str(value), text)


def _picked(board: Board, name: str) -> Callable[[], Sequence[Choice]] | None:
    """The list that a field is picked from, where it names something of the plan."""
    plan = board.plan
    match name:
        case "who" | "crew" | "seen_by":
            return lambda: crew_choices(board, only=plan.crew)
        case "task":
            return lambda: [c for c in choices.order_choices(board) if c.id not in plan.components]
        case "component":
            return lambda: [c for c in choices.order_choices(board) if c.id in plan.components]
        case "supply":
            return lambda: choices.supply_choices(board)
        case "hold":
            return choices.kind_choices
        case "release":
            return lambda: choices.RELEASES
    return None


def _needed_moment(typed: str) -> datetime:
    found = moment(typed)
    if found is None:
        raise Wrong("write when it happened, such as 2026-05-02 09:10")
    return found
