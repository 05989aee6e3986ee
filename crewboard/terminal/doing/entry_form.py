"""Forms for entries of the logbook, made from what the fields of their kind mean."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime, time
from functools import partial
from typing import Any

from crewboard.folder.edit.plan_edits import Key
from crewboard.logbook import measured
from crewboard.logbook.acts import Act
from crewboard.logbook.fields import EntryField
from crewboard.logbook.kinds import BY_WORD, KindOfEntry
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.hours.guests import guest_names
from crewboard.order.said import supply_name
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Today, Unread
from crewboard.plan.units import as_kept, bare, unit_here
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.choose import crew_choices
from crewboard.terminal.dialogs.pick import Choice
from crewboard.terminal.doing.to_cite import to_cite
from crewboard.terminal.forms.fields import Field, Typed, YesNo
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.picked import OneOf, SomeOf
from crewboard.terminal.forms.reading import A_DAY, needed, span, text, typed_number, words
from crewboard.terminal.planning import choices
from crewboard.workbench import Said


def record_here(
    app: BoardApp, *acts: Act, despite: str = "", by: str = "", at: time | None = None
) -> Sequence[Refusal]:
    """Write the acts, as of now or of a time `at` today; what stands against them goes back to the
    form, where nothing is lost."""
    now = app.now()
    when = now if at is None else datetime.combine(now.date(), at)
    lines = [Said(act, when, despite=despite) for act in acts]
    outcome = app.workbench.record(lines, by=by or app.by, now=now)
    app.look_now()
    return outcome.refused


async def write_entry(
    app: BoardApp,
    kind: KindOfEntry,
    preset: Mapping[str, Any],
    title: str = "",
    intro: str = "",
    *,
    spread: Callable[[Act], Sequence[Act]] = lambda act: [act],
    when: str = "",
    clock: str = "",
) -> bool:
    """Ask for what is not `preset` and write it; whether it was kept. `spread` gives the entries
    where one is said of several tasks or pieces. `when` asks for the time too, in these words;
    `clock` is one that was typed already."""
    fields = [f for f in kind.fields if f.name not in preset and not f.kept]
    asked = _asked_beside([f for f in fields if f.kind != "despite"], preset)
    blanks = [blank(app, field, field.default, app.now().date()) for field in asked]
    if when:
        blanks.append(Typed(_AT, when, clock, _or_none(as_typed.clock), "10:05; empty: now"))

    def keep(answers: Mapping[Key, Any], despite: str = "", by: str = "") -> Sequence[Refusal]:
        values = {str(key): value for key, value in answers.items() if value is not None}
        at = values.pop(_AT, None)
        missing = [field for field in asked if field.needed and field.name not in values]
        if missing:
            return [Refusal("empty", f"say {_in_a_sentence(field)}") for field in missing]
        try:
            act = measured.with_units(
                kind.act(**{**preset, **values}), app.board.plan.vehicle.units
            )
        except Unread as unread:
            return [Refusal("length", unread.sentence, unread.hint)]
        acts = spread(act)
        return record_here(app, *acts, despite=despite, by=by, at=at)

    form = Form(title or kind.title, blanks, keep, whole=True, intro=intro, insist=keep)
    kept = await app.push_screen_wait(form)
    return kept is True


async def write_of_supply(app: BoardApp, word: str, supply_id: str) -> None:
    """Write what became of a supply; `word` is that of the entry: ordered, arrived, sent back."""
    kind, name = BY_WORD[word], supply_name(app.board.plan, supply_id)
    if await write_entry(app, kind, {"supply": supply_id}, f"{kind.title}: {name}"):
        app.tell(f"{kind.word}: {name}")


def _in_a_sentence(field: EntryField) -> str:
    return f"which {field.names}" if field.names and not field.label else field.asked


def _asked_beside(fields: Sequence[EntryField], preset: Mapping[str, Any]) -> list[EntryField]:
    """Those that the form asks for, or may come to ask for: what decides that is `preset` and says
    so, or is still asked itself."""
    asked = []
    for field in fields:
        if field.only is None or field.only.field not in preset:
            asked.append(field)
        elif field.only.fits(preset[field.only.field]):
            asked.append(field._replace(only=None))
    return asked


def blank(app: BoardApp, field: EntryField, value: Any, day: date) -> Field:
    """The line of a form for one field of an entry of that day, with what stands in it."""
    line = _blank(app, field, value, day)
    line.only = field.only
    return line


def _blank(app: BoardApp, field: EntryField, value: Any, day: date) -> Field:
    board = app.board
    label, units = field.asked, board.plan.vehicle.units
    typed = partial(Typed, field.name)
    picks = _picked(board, field) or to_cite(app, field)
    if field.kind == "texts":
        return typed(label, "; ".join(value or ()), as_typed.texts, field.help)
    more = "another, by its path from the folder" if field.names == "picture" else ""
    if field.many:
        return (
            SomeOf(field.name, label, value or (), picks, new=more)
            if picks
            else typed(label, ", ".join(value or ()), words, field.help)
        )
    if picks is not None:
        return OneOf(field.name, label, value or "", picks, needed=field.needed, new=more)
    match field.kind:
        case "flag":
            return YesNo(field.name, label, bool(value))
        case "hours":
            return typed(label, typed_number(value), _within(field, as_typed.hours), field.help)
        case "number":
            sign = unit_here(field.unit, units)
            shown = "" if value is None else bare(value, field.unit, units)
            kept = _within(field, lambda number: as_kept(number, field.unit, units))
            return typed(f"{label}, {sign}" if sign else label, shown, _or_none(kept), field.help)
        case "length":
            return typed(label, value or "", _or_none(partial(_length, field, units)), field.help)
        case "span":
            return typed(label, str(value) if value else "", span, _SPAN)
        case "moment":
            shown = f"{value:%Y-%m-%d %H:%M}" if value else ""
            return typed(label, shown, _or_none(moments(board, day)), _MOMENT)
        case "day":
            shown = value.isoformat() if value else ""
            return typed(label, shown, _or_none(partial(as_typed.day, today=day)), A_DAY)
        case "time":
            shown = f"{value:%H:%M}" if value else ""
            return typed(label, shown, _or_none(as_typed.clock), "10:30")
        case _:
            return typed(label, value or "", needed if field.needed else text)


_AT = "~at"
_SPAN = "36 hours, 2 days, 1 month"
_MOMENT = "2026-05-02 12:00"


def moments(board: Board, day: date) -> Callable[[str], datetime]:
    """Reads a moment; a time alone is one of that day."""
    return partial(as_typed.moment, today=Today(day, board.plan.vehicle.work_days))


def _or_none(read: Callable[[str], Any]) -> Callable[[str], Any]:
    """Reads nothing where nothing is typed."""
    return lambda typed: read(typed) if typed.strip() else None


def _length(field: EntryField, units: str, typed: str) -> str:
    return measured.as_typed(field, typed, units)


def _within(field: EntryField, read: Callable[[str], float]) -> Callable[[str], float]:
    def number(typed: str) -> float:
        value = read(typed)
        if not field.takes(value):
            raise Unread(f'"{typed}" cannot be', f"write {field.bounds_in_words()}")
        return value

    return number


def _picked(board: Board, field: EntryField) -> Callable[[], Sequence[Choice]] | None:
    """The list that a field is picked from, where it names something of the plan."""
    plan = board.plan
    match field.kind:
        case "person" | "people":
            return lambda: crew_choices(board, only=plan.crew)
        case "task" | "tasks":
            return lambda: [c for c in choices.order_choices(board) if c.id not in plan.components]
        case "component":
            return lambda: [c for c in choices.order_choices(board) if c.id in plan.components]
        case "piece" | "pieces":
            return lambda: choices.piece_choices(board)
        case "guest":
            return lambda: [Choice(n, n) for n in guest_names(board.logbook).values()]
        case "other work":
            return lambda: [Choice(kind, kind) for kind in plan.vehicle.other_work]
        case "supply":
            return lambda: choices.supply_choices(board)
        case "place":
            return lambda: choices.place_choices(board)
        case "one of":
            return _WORDS.get(field.name) or (lambda: [Choice(word, word) for word in field.words])
    return None


# Words of which more is said than that they can be picked.
_WORDS: dict[str, Callable[[], Sequence[Choice]]] = {
    "hold": choices.kind_choices,
    "release": lambda: choices.RELEASES,
}
