"""`crewboard take-back`, `correct` and `undo`: new lines that mend old ones."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from crewboard.command import naming
from crewboard.command.entry_values import TypedValues
from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import BY, DIR, JSON, open_bench, parse_moment, written_by
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import DESPITE, WHY, tell
from crewboard.folder.read.fault import nearest
from crewboard.logbook.acts import Act
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import EntryField, fields_of
from crewboard.plan import as_typed
from crewboard.wall_clock import shop_now

_ENTRY = Word("ENTRY", "an entry's id, as crewboard log shows it; its beginning is enough")
_KEPT = ("by", "written", "replaces", "kind")  # keys of a line that a correction cannot set


def _take_back(call: Call) -> Exit:
    bench = open_bench(call)
    _, entry = naming.entry(bench, call.word("ENTRY"))
    by, now = written_by(call, bench.plan), shop_now(bench.plan)
    return tell(call, bench, bench.take_back(entry.id, by=by, now=now, why=call.option("why")))


def _undo(call: Call) -> Exit:
    bench = open_bench(call)
    by, now = written_by(call, bench.plan), shop_now(bench.plan)
    return tell(call, bench, bench.undo_last_of(by, now=now))


def _correct(call: Call) -> Exit:
    bench = open_bench(call)
    day, entry = naming.entry(bench, call.word("ENTRY"))
    by, now = written_by(call, bench.plan), shop_now(bench.plan)
    last = day.wording(entry)
    why = call.option("despite")
    act, at = _corrected(TypedValues(bench, last.at), last, call.every("set"))
    return tell(call, bench, bench.correct(entry.id, act, at, by=by, now=now, despite=why))


def _corrected(
    values: TypedValues, entry: Entry, settings: tuple[str, ...]
) -> tuple[Act, datetime]:
    """The act as it should have been, and when it happened. Raises `WrongCall` or `Refused`."""
    if not settings:
        raise WrongCall("say what it should have said", "write --set hours=4.5")
    act, at = entry.act, entry.at
    fields = {field.name: field for field in fields_of(type(act)) if not field.kept}
    for setting in settings:
        key, given, typed = setting.partition("=")
        key = key.strip()
        if not given or key in _KEPT:
            raise WrongCall(f'"{setting}" cannot be set', "write --set hours=4.5")
        if key == "at":
            at = parse_moment(typed, values.plan, at.date())
        elif key in fields:
            act = act._replace(**{key: _value(values, fields[key], typed)})
        else:
            raise Refused(f'"{key}" is not known here', nearest(key, [*fields, "at"]))
    return values.with_units(act), at


def _value(values: TypedValues, field: EntryField, typed: str) -> Any:
    """What was typed behind the "=": names with commas between; nothing is as good as not said."""
    if typed:
        return values.value(field, as_typed.names(typed) if field.many else (typed,))
    if field.needed:
        raise Refused(f'"{field.name}" is needed', f"write {field.name}=...")
    return field.default


take_back = Command(
    _take_back,
    "Takes an entry back: it does not count any more. Both entries stay readable in the day's "
    "file.",
    (DIR, _ENTRY),
    (WHY, BY, JSON),
    ('crewboard take-back . p6jrjm3a --why "entered twice" --by mirela',),
)
correct = Command(
    _correct,
    "Corrects an entry: a new entry takes its place, the old one stays readable. KEY is a key of "
    "the entry's line in the day's file; an empty value removes the key.",
    (DIR, _ENTRY),
    (Option("set", "what it should have said", "KEY=VALUE", many=True), DESPITE, BY, JSON),
    (
        "crewboard correct . b2zdyksh --set hours=4.5",
        'crewboard correct . b2zdyksh --set task=doors/front-glue note="a dry run"',
    ),
)
undo = Command(
    _undo,
    "Takes back what you put into the logbook last: all its entries that still count. "
    "Called again it goes on with the one before. Both entries stay readable. A change of the plan "
    "is undone on the screen that made it, or by hand.",
    (DIR,),
    (BY, JSON),
    ("crewboard undo . --by mirela",),
)
