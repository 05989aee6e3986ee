"""`days/2026/2026-05-02.toml`: one work day, one line an entry. Reading and spelling of entries."""

from collections.abc import Callable, Mapping
from datetime import date, datetime, time
from typing import Any, NamedTuple, cast

from crewboard.folder.read.fault import Misfit, nearest
from crewboard.folder.read.files import day_path
from crewboard.folder.read.table import Table, spoken_type
from crewboard.logbook.acts import Act
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import MANY, EntryField, has_own_reason
from crewboard.logbook.kinds import BY_WORD, KindOfEntry
from crewboard.plan.clock import FIRST_YEAR, LAST_YEAR, year_amiss
from crewboard.plan.duration import Duration


def decode_day(day: date, values: Mapping[str, Any]) -> tuple[Day | None, list[Misfit]]:
    """The day whose file is named for `day`, and every mistake. A faulty entry is left out; None
    where the file is named for a year that no crew works in."""
    amiss, hint = year_amiss(day)
    if amiss:
        return None, [Misfit((), "out-of-range", f"the file is named for a day {amiss}", hint)]
    misfits: list[Misfit] = []
    table = Table(values, (), misfits)
    written = table.day("date")
    if written is not None and written != day:
        sentence = f"the file is named {day} and says {written}"
        hint = f"crewboard fold DIR {day_path(day)} --day DATE makes it the file of that day"
        table.tell("date", "date", sentence, hint)
    opens, closes = table.clock("opens"), table.clock("closes")
    entries = []
    for entry_id, line in table.tables("entries"):
        before = len(misfits)
        entry = usual_entry(entry_id, line.values) or entry_of(entry_id, line)
        if entry is not None and len(misfits) == before:
            entries.append(entry)
    table.done()
    return Day(day, entries, opens, closes), misfits


# How a line looks where nothing can be wrong with it: the keys that its kind may have, the types of
# their values, and within what its numbers lie. Such a line is taken as it stands; any other goes
# the long way, which tells its mistakes.
class _Quick(NamedTuple):
    act: Callable[..., Act]
    types: Mapping[str, tuple[type, ...]]
    numbers: Mapping[str, tuple[float | None, float | None]]


_NOT_QUICK = MANY | {"one of", "span", "moment", "day", "time"}
_TYPES: dict[str, tuple[type, ...]] = {
    "flag": (bool,),
    "hours": (int, float),
    "number": (int, float),
}
_EVERY_LINE: dict[str, tuple[type, ...]] = {"at": (datetime,), "by": (str,), "kind": (str,)}
_MOST = 1e300  # a number beyond is none, see `Table.number`
_quick: dict[object, _Quick] = {}


def _quick_look(kind: KindOfEntry) -> _Quick:
    quick = [field for field in kind.fields if field.kind not in _NOT_QUICK]
    types = {field.name: _TYPES.get(field.kind, (str,)) for field in quick}
    numbers = {f.name: f.bounds() for f in quick if f.kind in ("hours", "number")}
    return _Quick(kind.act, {**_EVERY_LINE, **types}, numbers)


def usual_entry(entry_id: str, values: Mapping[str, Any]) -> Entry | None:
    """The entry where nothing can be wrong with it: what `_entry` gives, several times faster."""
    word = values.get("kind")
    look = _quick.get(word) if type(word) is str else None
    if look is None:
        kind = BY_WORD.get(word) if type(word) is str else None
        if kind is None:
            return None
        look = _quick[word] = _quick_look(kind)
    fields = dict(values)
    types = look.types
    for key, value in values.items():
        kind_of_value = type(value)
        if kind_of_value not in types.get(key, ()):
            return None
        if kind_of_value is str and not value.strip():
            return None
    for name, (least, most) in look.numbers.items():
        if name in fields:
            number = fields[name]
            if not -_MOST <= number <= _MOST or not _within(number, least, most):
                return None
            fields[name] = float(number)
    at, by, _ = fields.pop("at", None), fields.pop("by", ""), fields.pop("kind")
    if at is None or at.tzinfo is not None or not FIRST_YEAR <= at.year <= LAST_YEAR:
        return None
    try:
        return Entry(entry_id, at, look.act(**fields), by)
    except TypeError:  # something that is needed is missing
        return None


def _within(number: float, least: float | None, most: float | None) -> bool:
    return (least is None or number >= least) and (most is None or number <= most)


def entry_of(entry_id: str, table: Table) -> Entry | None:
    word = table.text("kind")
    kind = BY_WORD.get(word)
    if kind is None:
        if not word:
            table.tell(None, "missing", f'"kind" is missing in "{entry_id}"', 'add kind = "note"')
        else:
            sentence = f'"{word}" is no kind of entry'
            table.tell("kind", "unknown-word", sentence, nearest(word, BY_WORD))
        return None
    at = table.moment("at", needed=True)
    by = table.text("by")
    written = table.moment("written")
    replaces = table.text("replaces")
    despite = "" if has_own_reason(kind.act) else table.text("despite")
    act = kind.act(*(_value(table, field) for field in kind.fields))
    table.done()
    return Entry(entry_id, at, act, by, written, replaces, despite) if at is not None else None


def _value(table: Table, field: EntryField) -> object:
    """The value of a field of an entry, its default where it is not there or is wrong."""
    name, least_most = field.name, field.bounds()
    match field.kind:
        case "people" | "pieces" | "pictures" | "tasks" | "entries" | "texts" | "kept several":
            return table.names(name)
        case "hours" | "number":
            return _number(table, field, *least_most)
        case "span":
            return _there(table, field, table.span(name))
        case "moment":
            return table.moment(name, needed=field.needed)
        case "day":
            return _there(table, field, table.day(name))
        case "time":
            return _there(table, field, table.clock(name))
        case "flag":
            return table.flag(name, bool(field.default))
        case "one of":
            word = table.one_of(name, field.words)
            return word or table.text(name, field.default or "", needed=field.needed)
        case _:
            return table.text(name, field.default or "", needed=field.needed)


def _number(
    table: Table, field: EntryField, least: float | None, most: float | None
) -> float | None:
    number = table.number(field.name, least=least, most=most)
    if number is None and field.needed:
        return cast("float", _there(table, field, None) or 0.0)
    return number if number is not None else field.default


def _there(table: Table, field: EntryField, value: object) -> object:
    """The value; that one is missing which is needed is told."""
    if value is None and field.needed and field.name not in table:
        example = _EXAMPLES[field.kind]
        sentence = f'"{field.name}" is missing here'
        table.tell(None, "missing", sentence, f"add {field.name} = {example}")
    return value


_EXAMPLES = {
    "hours": "2.5",
    "number": "2.5",
    "span": '"2 days"',
    "day": "2026-05-02",
    "time": "10:30:00",
}


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
    if entry.despite:
        fields["despite"] = entry.despite
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
