"""Correct a line of the logbook, or take it back: both with a new line that names the old one."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime
from typing import Any

from crewboard.folder.edit.plan_edits import Key
from crewboard.logbook.acts import Act, TakenBack
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import fields_of
from crewboard.logbook.measured import with_units
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.plan.as_typed import Unread
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.doing.entry_form import blank, moments
from crewboard.terminal.entry_lines import entry_text
from crewboard.terminal.forms.fields import Field, Typed
from crewboard.terminal.forms.form import Form

AT = "~at"
# What names another line or a sheet is not changed by a correction: take the line back instead.
_FIXED = frozenset({"entry", "hazard", "check", "hold", "kept", "kept several"})


async def correct(app: BoardApp, day: Day, entry: Entry) -> None:
    """Show the line's fields, as its last correction says them; what is changed is a new line."""
    entry = day.wording(entry)
    if not _counts(app, day, entry):
        return
    read_moment = _needed_moment(app.board, entry.at.date())
    fields = [
        Typed(AT, "when", f"{entry.at:%Y-%m-%d %H:%M}", read_moment, "2026-05-02 09:10"),
        *entry_fields_of(app, entry.act, entry.at.date()),
    ]

    def keep(answers: Mapping[Key, Any], despite: str = "", by: str = "") -> Sequence[Refusal]:
        at = answers.get(AT, entry.at)
        act = changed(entry.act, {k: v for k, v in answers.items() if k != AT})
        try:
            act = with_units(act, app.board.plan.vehicle.units)
        except Unread as unread:
            return [Refusal("length", unread.sentence, unread.hint)]
        outcome = app.workbench.correct(
            entry.id, act, at, by=by or app.by, now=app.now(), despite=despite
        )
        app.look_now()
        return outcome.refused

    intro = entry_text(app.board, entry, day)
    if await app.push_screen_wait(
        Form("Correct the entry", fields, keep, intro=intro, insist=keep)
    ):
        app.tell("corrected with a new entry")


async def take_back(app: BoardApp, day: Day, entry: Entry, *, wholly: bool = False) -> None:
    """Ask why; the line stays to be read and does not count any more. `wholly`: what corrected it
    is meant too."""
    says = day.wording(entry) if wholly else entry
    if not _counts(app, day, says):
        return
    intro = entry_text(app.board, says, day)
    ask = AskLine("Take the entry back", "why, for the logbook", intro=intro, needed=False)
    why = await app.push_screen_wait(ask)
    if why is None:
        return
    app.do(
        lambda: app.workbench.take_back(entry.id, by=app.by, now=app.now(), why=why),
        lambda _: app.tell("taken back with a new entry"),
    )


def _counts(app: BoardApp, day: Day, entry: Entry) -> bool:
    if entry.id in day.fate():
        app.tell("that entry does not count any more", warning=True)
        return False
    if isinstance(entry.act, TakenBack):
        app.tell(
            "that entry takes another back: u undoes it while this sitting lasts", warning=True
        )
        return False
    return True


def changed(act: Act, answers: Mapping[Key, Any]) -> Act:
    """The act with other values; what was emptied goes back to what is usual."""
    values: dict[str, Any] = {}
    for key, value in answers.items():
        name = str(key)
        if isinstance(getattr(act, name), bool):
            values[name] = bool(value)  # an answer of no is left empty
        else:
            values[name] = act._field_defaults.get(name, "") if value is None else value
    return act._replace(**values)


def entry_fields_of(app: BoardApp, act: Act, day: date | None = None) -> list[Field]:
    """A field for each thing that the entry says."""
    on = day or app.board.at.date()
    asked = (field for field in fields_of(type(act)) if field.kind not in _FIXED)
    return [blank(app, field, getattr(act, field.name), on) for field in asked]


def _needed_moment(board: Board, day: date) -> Callable[[str], datetime]:
    read = moments(board, day)

    def moment(typed: str) -> datetime:
        if not typed.strip():
            raise Unread("write when it happened, such as 2026-05-02 09:10")
        return read(typed)

    return moment
