"""Tables for spreadsheets: CSV that no spreadsheet takes for a formula.

Form: RFC 4180. A cell that begins with one of = + - @, a tab or a carriage return is run as a
formula by common spreadsheets (OWASP, "CSV Injection"), some of which pass over blanks before it
and take wide, small or raised forms of the signs for the same; an apostrophe before it makes it a
text.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from crewboard.legible import legible

_FORMULA = frozenset("=+-@|%\N{MINUS SIGN}")


def csv_text(rows: Iterable[Sequence[object]]) -> str:
    """The rows as CSV: UTF-8 text, lines ended with CR LF."""
    return "".join(",".join(_cell(value) for value in row) + "\r\n" for row in rows)


def _cell(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return f"{value:.10g}"
    if isinstance(value, date):
        return value.isoformat()
    text = str(value)
    safe = legible(f"'{text}" if _is_formula(text) else text)
    return '"' + safe.replace('"', '""') + '"' if any(c in safe for c in ',"') else safe


def _is_formula(text: str) -> bool:
    """Whether a spreadsheet may run it: the first sign that can be seen is one of a formula's, or
    the text begins with a tab or a line's end."""
    from unicodedata import normalize

    if text.startswith(("\t", "\r", "\n")):
        return True
    seen = next((sign for sign in text if not _is_blank(sign)), "")
    return normalize("NFKC", seen)[:1] in _FORMULA and bool(seen)


def _is_blank(sign: str) -> bool:
    """Whether it leaves no mark of its own: separators, controls, joiners, accents of nothing."""
    from unicodedata import category

    return category(sign)[0] in "ZCM" or legible(sign) != sign


def json_rows(rows: Sequence[Sequence[object]]) -> str:
    """The rows as JSON: {"form": 1, "what": "rows", "rows": [...]}, each an object by the heads."""
    import json

    head, *body = rows
    by_head = [dict(zip(map(str, head), row, strict=True)) for row in body]
    form = {"form": 1, "what": "rows", "rows": by_head}
    return json.dumps(form, ensure_ascii=False, indent=2, default=str) + "\n"


def text_table(rows: Iterable[Sequence[object]], width: int) -> list[str]:
    """The rows as lines with columns; a table wider than the lines is told row by row."""
    from crewboard.telling.drawn import cells, padded

    table = list(rows)
    shown = [[as_text(value) for value in row] for row in table]
    if not shown:
        return []
    columns = range(len(shown[0]))
    wide = [max(cells(row[column]) for row in shown) for column in columns]
    if sum(wide) + 2 * len(wide) > max(width, 40) and len(shown) > 1:
        return _folded(table[0], table[1:], width)
    return ["  ".join(padded(row[c], wide[c]) for c in columns).rstrip() for row in shown]


def _folded(head: Sequence[object], rows: Iterable[Sequence[object]], width: int) -> list[str]:
    """Each row in a paragraph of its own; a number has the head of its column before it."""
    from crewboard.paper.plain import Paper

    paper = Paper(width)
    for row in rows:
        parts = []
        for name, value in zip(head, row, strict=True):
            number = isinstance(value, int | float)
            if shown := as_text(value):
                parts.append(f"{name} {shown}" if number else shown)
        paper.line(", ".join(parts), hang=4)
    return paper.lines


def as_text(value: object) -> str:
    """A value as a person reads it; nothing for nought."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        return f"{value:.10g}" if value else ""
    return legible(value.isoformat() if isinstance(value, date) else str(value))
