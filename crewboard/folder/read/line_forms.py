"""The form of an entry's line: all of it but the texts in quotes.

    b7f3q2mh = { at = 2026-05-02T09:10:00, by = "mara", kind = "found", seen = "soft at the foot" }

Where one line of a form was read without a mistake, another of that form and kind can have one in
its texts alone, and of those only a few have to be looked at. So thousands of findings are known to
be right without being read.
"""

import re
from datetime import datetime
from typing import NamedTuple

from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import EntryField, fields_of
from crewboard.logbook.kinds import kind_of
from crewboard.plan.clock import FIRST_YEAR, LAST_YEAR

# Without these the texts of a line are told by their quotes alone: control characters, which TOML
# knows in no text of one line, and the backslash, by which a text could hold a quote.
ODD_BYTES = bytes((*range(0x0A), *range(0x0B, 0x20), 0x5C, 0x7F))
_AT = len("2026-05-02T09:10:00")
_MOMENT = r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d"
_TIME = r"(?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d"
_KEY = r", ([a-z_]+) = \[?$"  # what stands before a text, but for the later ones of a list
_MOST_FORMS = 5000  # a folder has some dozens


class _Texts(NamedTuple):
    """Where in a line of one form and kind stand the texts that matter: those that must not be
    blank, those that must be one of some words, and the names of pieces, tasks ..., each with the
    word of the kind and the thing."""

    needed: tuple[int, ...]
    words: tuple[tuple[int, frozenset[str]], ...]
    names: tuple[tuple[int, tuple[str, str]], ...]


class _Form(NamedTuple):
    kind_at: int
    kinds: dict[str, _Texts]


_forms: dict[str, _Form] = {}
_times: set[str] = set()


def is_known(written: str, day: str, names: dict[tuple[str, str], set[str]]) -> bool:
    """Whether a line of a day's file is known to be right and of the record alone; any other has to
    be read. What it names is put into `names`.

    `written` is what stands behind `at =`, without the line's end and without odd bytes; `day` how
    a moment of that day begins, "2026-05-02T".
    """
    parts = written.split('"')
    outside = '"'.join(parts[::2])[_AT:]
    form = _forms.get(outside) or _with_moments(outside)
    texts = form.kinds.get(parts[form.kind_at]) if form is not None else None
    if texts is None or not written.startswith(day):
        return False
    if written[11:_AT] not in _times and not _is_time(written[11:_AT]):
        return False
    for at in texts.needed:
        if not parts[at].strip():
            return False
    for at, words in texts.words:
        if parts[at] not in words:
            return False
    for at, thing in texts.names:
        names[thing].add(parts[at])
    return True


def learn(written: str, entry: Entry) -> None:
    """Remember the form of a line that was read without a mistake, where another of its form may
    be put off: one of the record that replaces nothing. `written` as for `is_known`."""
    kind = kind_of(entry.act)
    if not kind.of_record or entry.replaces:
        return
    outside = '"'.join(written.split('"')[::2])[_AT:]
    form, keys = _without_moments(outside), _keys(outside.split('"'))
    if form is None or len(_forms) >= _MOST_FORMS:
        return
    fields = {field.name: field for field in fields_of(kind.act)}
    texts = [(2 * at + 1, fields[key]) for at, key in enumerate(keys) if key in fields]
    kinds = _forms.setdefault(form, _Form(2 * keys.index("kind") + 1, {})).kinds
    kinds[kind.word] = _Texts(
        tuple(at for at, field in texts if field.needed),
        tuple((at, frozenset(field.words)) for at, field in texts if field.kind == "one of"),
        tuple((at, (kind.word, field.names)) for at, field in texts if _is_told(field)),
    )


def _is_told(field: EntryField) -> bool:
    """Whether it is known of a line that was put off what this field names."""
    return field.names in ("piece", "picture") or field.name in ("task", "component")


def _with_moments(outside: str) -> _Form | None:
    """The form of a line with moments in it; keys have small letters."""
    return _forms.get(_without_moments(outside) or "") if "T" in outside else None


def _without_moments(written: str) -> str | None:
    """The form with a "T" for each moment in it; None where one of them is none."""
    try:
        for moment in re.findall(_MOMENT, written, re.ASCII):
            if not FIRST_YEAR <= datetime.fromisoformat(moment).year <= LAST_YEAR:
                return None
            if not _is_time(moment[11:]):
                return None
    except ValueError:
        return None
    return re.sub(_MOMENT, "T", written, flags=re.ASCII)


def _is_time(written: str) -> bool:
    if not re.fullmatch(_TIME, written, re.ASCII):
        return False
    _times.add(written)
    return True


def _keys(between: list[str]) -> list[str]:
    """The key of each text, by what stands before it; of a later text of a list its list's."""
    keys: list[str] = []
    for before in between[:-1]:
        key = re.search(_KEY, before)
        keys.append(key[1] if key else keys[-1] if keys else "")
    return keys
