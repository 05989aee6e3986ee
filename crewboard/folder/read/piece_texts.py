"""The tables of pieces in a component's file as they are written a thousand times over: a heading,
and texts in quotes. They are told by their form, which is read once, and not by a TOML reader.

    [pieces.board-7]
    name = "Board 7 from the front"
    as_found = "original"

A run of such tables can be taken out of the text where a TOML reader takes the first of it for a
table: it stays in, and what follows stands at the same level.
"""

import re
from typing import Any, NamedTuple

from crewboard.folder.read.files import is_id
from crewboard.folder.toml.decode import parse_text
from crewboard.folder.toml.text import BrokenText

FEWEST = 100  # tables: fewer are read as quickly the usual way
_HEAD = "pieces."
_NEXT = "\n["  # before each table but the first
_FORM = re.compile(r'[a-z_]+ = "(?:\n+[a-z_]+ = ")*\n*')
_KEY = re.compile(r"[a-z_]+")
_MARKS = ('"""', "'''", "\\")  # of texts that are not told by their quotes alone
_forms: dict[str, tuple[str, ...]] = {}
_MOST_FORMS = 5000  # a folder has some dozens


class TableOfTexts(dict[str, Any]):
    """A table of texts alone, under keys that each stand once."""


def parse_component(text: str) -> dict[str, Any] | BrokenText:
    """What `parse_text` gives, the tables of pieces as `TableOfTexts` where there are many."""
    if text.count(_NEXT + _HEAD) < FEWEST or any(mark in text for mark in _MARKS):
        return parse_text(text)
    if not text.replace("\n", "").isprintable():
        return parse_text(text)
    first, *chunks = text.split(_NEXT)
    tables = [_table(chunk) for chunk in chunks]
    runs: dict[str, list[tuple[str, TableOfTexts]]] = {}
    stays, of_run = [first], list[tuple[str, TableOfTexts]]()
    for before, table, chunk in zip([None, *tables], tables, chunks, strict=False):
        if table is None or before is None:
            stays.append(chunk)
            if table is not None:
                of_run = runs.setdefault(table[0], [table])
        else:
            of_run.append(table)
    values = parse_text(_NEXT.join(stays))
    names = [table[0] for table in tables if table is not None]
    if isinstance(values, BrokenText) or len(set(names)) < len(names):
        return parse_text(text)
    return _with_runs(values, runs) or parse_text(text)


class RunOfTables(NamedTuple):
    """Tables of texts one after the other: the name of the first, which stays in the text, and the
    others, which stand from one character to another."""

    behind: str
    start: int
    end: int
    tables: list[tuple[str, TableOfTexts]]


def runs_in(text: str) -> list[RunOfTables]:
    """What `parse_component` takes out of a text in which it found no mistake, in order."""
    runs, before, end = list[RunOfTables](), None, -len(_NEXT)
    for chunk in text.split(_NEXT):
        start, end = end, end + len(_NEXT) + len(chunk)
        table = _table(chunk)
        if table is not None and before is not None:
            if not (runs and runs[-1].end == start):
                runs.append(RunOfTables(before[0], start, end, []))
            runs[-1].tables.append(table)
            runs[-1] = runs[-1]._replace(end=end)
        before = table
    return runs


def _table(chunk: str) -> tuple[str, TableOfTexts] | None:
    """The name and the texts of a table, None of any other part of a file."""
    head, _, body = chunk.partition("]\n")
    if not head.startswith(_HEAD):
        return None
    parts = body.split('"')
    outside = '"'.join(parts[::2])
    keys = _keys(outside)
    name = head[len(_HEAD) :]
    if not keys or not is_id(name) or body.count("\n") != outside.count("\n"):
        return None  # or a text goes over the end of its line, and is none
    return name, TableOfTexts(zip(keys, parts[1::2], strict=True))


def _keys(outside: str) -> tuple[str, ...]:
    """The keys of a table of that form, none where it is any other: `outside` is what stands
    outside of its texts, with a quote for each."""
    known = _forms.get(outside)
    if known is None:
        known = tuple(_KEY.findall(outside)) if _FORM.fullmatch(outside) else ()
        known = known if len(set(known)) == len(known) else ()
        if len(_forms) < _MOST_FORMS:
            _forms[outside] = known
    return known


def _with_runs(
    values: dict[str, Any], runs: dict[str, list[tuple[str, TableOfTexts]]]
) -> dict[str, Any] | None:
    """The values with each run in the place of its first table; None where the reader took that for
    something else, or more is said of one of them."""
    pieces = values.get("pieces")
    if not isinstance(pieces, dict):
        return None
    if any(pieces.get(name) != run[0][1] for name, run in runs.items()):
        return None
    whole: dict[str, Any] = {}
    for name, table in pieces.items():
        whole.update(runs.get(name) or ((name, table),))
    if len(whole) != len(pieces) + sum(len(run) - 1 for run in runs.values()):
        return None
    return {**values, "pieces": whole}
