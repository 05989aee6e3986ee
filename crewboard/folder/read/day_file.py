"""`days/2026/2026-05-02.toml`: one work day, one line an entry. Reading and spelling of entries."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime, time
from typing import Any

from crewboard.folder.read.fault import Misfit, nearest
from crewboard.folder.read.table import Table, spoken_type
from crewboard.logbook.acts import (
    KIND,
    Act,
    Arrived,
    Begun,
    CheckSigned,
    ClosedDay,
    Expected,
    Extended,
    Finished,
    HoldStarted,
    HoursLeft,
    HoursWorked,
    Incident,
    Noted,
    Ordered,
    Reading,
    Released,
    Reopened,
    SetAside,
    SignIn,
    SignOut,
    TakenBack,
)
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.plan.duration import Duration
from crewboard.plan.hold import KINDS

MOST_HOURS = 10_000
_READ: dict[str, Callable[[Table], Act]] = {
    "sign-in": lambda t: SignIn(_needed(t, "who"), t.text("note")),
    "sign-out": lambda t: SignOut(_needed(t, "who"), t.text("note")),
    "expected": lambda t: Expected(_needed(t, "who"), t.flag("coming", True), t.text("note")),
    "hours": lambda t: HoursWorked(_needed(t, "who"), _hours(t), t.text("task"), t.text("note")),
    "begun": lambda t: Begun(
        _needed(t, "task"), t.names("crew"), t.text("despite"), t.text("note")
    ),
    "finished": lambda t: Finished(_needed(t, "task"), t.moment("clock"), t.text("note")),
    "reopened": lambda t: Reopened(_needed(t, "task"), t.text("why")),
    "hours left": lambda t: HoursLeft(_needed(t, "task"), _hours(t), t.text("why")),
    "hold": lambda t: HoldStarted(
        t.one_of("hold", KINDS) or _needed(t, "hold"),
        t.text("task"),
        t.text("component"),
        t.span("lasts"),
        t.one_of("release", ("time", "look")),
        t.flag("leave_alone"),
        t.text("why"),
    ),
    "extended": lambda t: Extended(
        _needed(t, "hold"), t.span("lasts"), t.moment("until"), t.text("why")
    ),
    "released": lambda t: Released(_needed(t, "hold"), t.text("why")),
    "check": lambda t: CheckSigned(
        _needed(t, "hazard"),
        _needed(t, "check"),
        _needed(t, "who"),
        t.text("task"),
        t.flag("applies", True),
        t.text("why"),
    ),
    "reading": lambda t: Reading(
        t.number("celsius", least=-60, most=100),
        t.number("humidity", least=0, most=100),
        t.text("note"),
    ),
    "arrived": lambda t: Arrived(_needed(t, "supply"), t.text("note")),
    "ordered": lambda t: Ordered(_needed(t, "supply"), t.day("due"), t.text("note")),
    "set aside": lambda t: SetAside(_needed(t, "task"), t.text("why"), t.flag("back")),
    "note": lambda t: Noted(t.text("text"), t.text("task"), t.text("component")),
    "incident": lambda t: Incident(
        _needed(t, "what"),
        t.flag("injury"),
        t.text("place"),
        t.text("task"),
        t.names("who"),
        t.names("seen_by"),
        t.text("done"),
    ),
    "day closed": lambda t: ClosedDay(t.text("despite"), t.text("note")),
    "taken back": lambda t: TakenBack(_needed(t, "entry"), t.text("why")),
}
assert set(_READ) == set(KIND.values())


def _needed(table: Table, key: str) -> str:
    return table.text(key, needed=True)


def _hours(table: Table) -> float:
    hours = table.number("hours", least=0, most=MOST_HOURS)
    if hours is None and "hours" not in table:
        table.tell(None, "missing", '"hours" is missing here', "add hours = 2.5")
    return hours or 0.0


def decode_day(day: date, values: Mapping[str, Any]) -> tuple[Day, list[Misfit]]:
    """The day whose file is named for `day`, and every mistake. A faulty entry is left out."""
    misfits: list[Misfit] = []
    table = Table(values, (), misfits)
    said = table.day("date")
    if said is not None and said != day:
        sentence = f"the file is named {day} and says {said}"
        table.tell("date", "date", sentence, "make the two the same")
    opens, closes = table.clock("opens"), table.clock("closes")
    entries = []
    for entry_id, each in table.tables("entries"):
        before = len(misfits)
        entry = _usual(entry_id, each.values) or _entry(entry_id, each)
        if entry is not None and len(misfits) == before:
            entries.append(entry)
    table.done()
    return Day(day, entries, opens, closes), misfits


# How most lines look: the kinds, and the keys each may have with the types of their values. A line
# that fits is taken as it stands; any other goes the long way, which tells its mistakes.
_TEXT, _FLAG, _NUMBER = (str,), (bool,), (int, float)
_EVERY_LINE: dict[str, tuple[type, ...]] = {"at": (datetime,), "by": _TEXT, "kind": _TEXT}
_USUAL: dict[str, tuple[Callable[..., Act], dict[str, tuple[type, ...]]]] = {
    kind: (act, {**_EVERY_LINE, **keys})
    for kind, act, keys in (
        ("sign-in", SignIn, {"who": _TEXT, "note": _TEXT}),
        ("sign-out", SignOut, {"who": _TEXT, "note": _TEXT}),
        ("expected", Expected, {"who": _TEXT, "coming": _FLAG, "note": _TEXT}),
        ("hours", HoursWorked, {"who": _TEXT, "hours": _NUMBER, "task": _TEXT, "note": _TEXT}),
        ("finished", Finished, {"task": _TEXT, "note": _TEXT}),
        (
            "check",
            CheckSigned,
            {"hazard": _TEXT, "check": _TEXT, "who": _TEXT, "task": _TEXT, "applies": _FLAG},
        ),
    )
}


def _usual(entry_id: str, values: Mapping[str, Any]) -> Entry | None:
    """The entry where nothing can be wrong with it: what `_entry` gives, several times faster."""
    act, types = _USUAL.get(str(values.get("kind")), (None, _EVERY_LINE))
    if act is None:
        return None
    fields = dict(values)
    for key, value in values.items():
        if type(value) not in types.get(key, ()) or (type(value) is str and not value.strip()):
            return None
    if "hours" in fields:
        hours = fields["hours"] = float(fields["hours"])
        if not 0 <= hours <= MOST_HOURS:
            return None
    at, by, _ = fields.pop("at", None), fields.pop("by", ""), fields.pop("kind")
    if at is None or at.tzinfo is not None:
        return None
    try:
        return Entry(entry_id, at, act(**fields), by)
    except TypeError:  # something that is needed is missing
        return None


def _entry(entry_id: str, table: Table) -> Entry | None:
    kind = table.text("kind")
    read = _READ.get(kind)
    if read is None:
        if not kind:
            table.tell(None, "missing", f'"kind" is missing in "{entry_id}"', 'add kind = "note"')
        else:
            table.tell(
                "kind", "unknown-word", f'"{kind}" is no kind of entry', nearest(kind, _READ)
            )
        return None
    at = table.moment("at", needed=True)
    by = table.text("by")
    written = table.moment("written")
    replaces = table.text("replaces")
    act = read(table)
    table.done()
    return Entry(entry_id, at, act, by, written, replaces) if at is not None else None


def entry_fields(entry: Entry) -> dict[str, Any]:
    """The keys and values of an entry's line, without its id: what `decode_day` reads back.

    Values that are as good as not said are left out.
    """
    fields: dict[str, Any] = {"at": entry.at}
    if entry.by:
        fields["by"] = entry.by
    fields["kind"] = entry.kind
    for name, value in zip(entry.act._fields, entry.act, strict=True):
        default = entry.act._field_defaults.get(name)
        if value == default and name in entry.act._field_defaults:
            continue
        fields[name] = _plain(value)
    if entry.written is not None:
        fields["written"] = entry.written
    if entry.replaces:
        fields["replaces"] = entry.replaces
    return fields


def _plain(value: object) -> object:
    if isinstance(value, Duration):
        return str(value)
    if isinstance(value, tuple):
        return list(value)
    if isinstance(value, float) and value == int(value):
        return int(value)
    assert isinstance(value, str | bool | int | float | date | datetime | time), spoken_type(value)
    return value
