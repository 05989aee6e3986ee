"""`crewboard take-back` and `crewboard correct`: new lines that mend old ones."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from crewboard.command import naming
from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import BY, DIR, JSON, open_bench, written_by
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import WHY, tell
from crewboard.logbook.entry import Entry
from crewboard.wall_clock import shop_now

_ENTRY = Word("ENTRY", "an entry's id, as crewboard log shows it; its beginning is enough")
_KEPT = ("by", "written", "replaces", "kind")  # keys of a line that a correction cannot set


def _take_back(call: Call) -> Exit:
    bench = open_bench(call)
    _, entry = naming.entry(bench, call.word("ENTRY"))
    by, now = written_by(call, bench.plan), shop_now(bench.plan)
    return tell(call, bench, bench.take_back(entry.id, by=by, now=now, why=call.option("why")))


def _correct(call: Call) -> Exit:
    bench = open_bench(call)
    day, entry = naming.entry(bench, call.word("ENTRY"))
    corrected = _corrected(day.date, entry, call.every("set"))
    by, now = written_by(call, bench.plan), shop_now(bench.plan)
    outcome = bench.correct(entry.id, corrected.act, corrected.at, by=by, now=now)
    return tell(call, bench, outcome)


def _corrected(day: Any, entry: Entry, settings: tuple[str, ...]) -> Entry:
    """The entry as it should have been, read back as a day's file is read."""
    from crewboard.folder.read.day_file import decode_day, entry_fields

    if not settings:
        raise WrongCall("say what it should have said", "write --set hours=4.5")
    fields = entry_fields(entry)
    for setting in settings:
        key, given, said = setting.partition("=")
        key = key.strip()
        if not given or key in _KEPT:
            raise WrongCall(f'"{setting}" cannot be set', "write --set hours=4.5")
        if said:
            fields[key] = _value(key, said, entry)
        else:
            fields.pop(key, None)
    read, misfits = decode_day(day, {"entries": {entry.id: fields}})
    if misfits:
        raise Refused(misfits[0].sentence, misfits[0].hint)
    return read.entries[0]


def _value(key: str, said: str, entry: Entry) -> object:
    """What was typed, as the value that a file would hold: a date, a number, a list, or text."""
    if key in ("crew", "seen_by") or (key == "who" and entry.kind == "incident"):
        return [each.strip() for each in said.split(",")]
    if key in ("at", "clock", "until"):
        try:
            return datetime.fromisoformat(said)
        except ValueError:
            raise WrongCall(f'"{said}" is not a moment', "write 2026-05-02T09:00") from None
    if key in ("text", "note", "why", "what", "done", "place", "despite"):
        return said
    from crewboard.folder.toml.decode import parse_text
    from crewboard.folder.toml.text import BrokenText

    found = parse_text(f"value = {said}")  # a number, true or false, a date
    return said if isinstance(found, BrokenText) else found.get("value", said)


take_back = Command(
    _take_back,
    "Takes an entry back: it does not count any more. Both lines stay readable in the day's file.",
    (DIR, _ENTRY),
    (WHY, BY, JSON),
    ('crewboard take-back . p6jrjm3a --why "entered twice" --by mirela',),
)
correct = Command(
    _correct,
    "Corrects an entry: a new line takes its place, the old one stays readable. KEY is a key of "
    "the entry's line in the day's file; an empty value takes the key out.",
    (DIR, _ENTRY),
    (Option("set", "what it should have said", "KEY=VALUE", many=True), BY, JSON),
    (
        "crewboard correct . b2zdyksh --set hours=4.5",
        'crewboard correct . b2zdyksh --set task=doors/front-glue note="a dry run"',
    ),
)
