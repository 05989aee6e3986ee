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
from crewboard.logbook.fields import fields_of
from crewboard.logbook.kinds import kind_of
from crewboard.plan.clock import FIRST_YEAR, LAST_YEAR

# Without these the texts of a line are told by their quotes alone: control characters, which TOML
# knows in no text of one line, and the backslash, by which a text could hold a quote.
ODD_BYTES = bytes((*range(0x0A), *range(0x0B, 0x20), 0x5C, 0x7F))
_AT = len("2026-05-02T09:10:00")
_MOMENT = r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d"
_TIME = r"(?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d"
_KEY = r", ([a-z_]+) = \[?$"  # what stands before a text, where no other text of a list does
_MOST_FORMS = 5000  # a folder has some dozens


class _Texts(NamedTuple):
    """Where in a line of one form and kind stand the texts that matter: those that must not be
    blank, those that must be one of some words, the names of tasks and components."""

    needed: tuple[int, ...]
    words: tuple[tuple[int, frozenset[str]], ...]
    names: tuple[int, ...]


class _Form(NamedTuple):
    kind_at: int
    kinds: dict[str, _Texts]


_forms: dict[str, _Form] = {}
_times: set[str] = set()


def known_names(written: str, day: str) -> tuple[str, ...] | None:
    """The tasks and components that a line of a day's file names, where the line is known to be
    right and of the record alone; None of any other, which has to be read.

    `written` is what stands behind `at =`, without the line's end and without odd bytes; `day` how
    a moment of that day begins, "2026-05-02T".
    """
    parts = written.split('"')
    outside = '"'.join(parts[::2])[_AT:]
    form = _forms.get(outside) or _with_moments(outside)
    texts = form.kinds.get(parts[form.kind_at]) if form is not None else None
    if texts is None or not written.startswith(day):
        return None
    if written[11:_AT] not in _times and not _is_time(written[11:_AT]):
        return None
    for at in texts.needed:
        if not parts[at].strip():
            return None
    for at, words in texts.words:
        if parts[at] not in words:
            return None
    return tuple([parts[at] for at in texts.names]) if texts.names else ()


def learn(written: str, entry: Entry) -> None:
    """Remember the form of a line that was read without a mistake, where another of its form may
    be put off: one of the record that replaces nothing. `written` as for `known_names`."""
    kind = kind_of(entry.act)
    if not kind.of_record or entry.replaces:
        return
    outside = '"'.join(written.split('"')[::2])[_AT:]
    form, keys = _without_moments(outside), _keys(outside.split('"'))
    if form is None or len(_forms) >= _MOST_FORMS:
        return
    place = {key: 2 * number + 1 for number, key in enumerate(keys) if key}
    fields = [field for field in fields_of(kind.act) if field.name in place]
    texts = _Texts(
        tuple(place[field.name] for field in fields if field.needed),
        tuple((place[f.name], frozenset(f.words)) for f in fields if f.kind == "one of"),
        tuple(place[field.name] for field in fields if field.name in ("task", "component")),
    )
    _forms.setdefault(form, _Form(place["kind"], {})).kinds[kind.word] = texts


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
    """The key of each text, by what stands before it; "" of a later text of a list."""
    before = [re.search(_KEY, part) for part in between[:-1]]
    return [key[1] if key else "" for key in before]
