"""Tables for spreadsheets: CSV that no spreadsheet takes for a formula.

Form: RFC 4180. A cell that begins with one of = + - @, a tab or a carriage return is run as a
formula by common spreadsheets (OWASP, "CSV Injection"); an apostrophe before it makes it a text.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from crewboard.legible import legible

# The signs and their full-width forms, which East Asian spreadsheets take for the same.
_FORMULA = tuple("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20|%")


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
    safe = f"'{text}" if text.lstrip(" ").startswith(_FORMULA) else text
    safe = legible(safe)
    return '"' + safe.replace('"', '""') + '"' if any(c in safe for c in ',"') else safe


def text_table(rows: Iterable[Sequence[object]], width: int) -> list[str]:
    """The rows as lines with columns; a table wider than the lines is folded after each row."""
    from crewboard.reports.paper import cells, padded

    shown = [[_shown(value) for value in row] for row in rows]
    if not shown:
        return []
    columns = range(len(shown[0]))
    wide = [max(cells(row[each]) for row in shown) for each in columns]
    if sum(wide) + 2 * len(wide) > max(width, 40) and len(shown) > 1:
        return _folded(shown)
    return ["  ".join(padded(row[c], wide[c]) for c in columns).rstrip() for row in shown]


def _folded(rows: list[list[str]]) -> list[str]:
    """Each row under the next, with the heads of the columns before its cells."""
    head, *rest = rows
    lines = []
    for row in rest:
        told = [f"{name} {cell}" for name, cell in zip(head, row, strict=True) if cell]
        lines.append(", ".join(told))
    return lines


def _shown(value: object) -> str:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return f"{value:g}" if value else ""
    return legible(value.isoformat() if isinstance(value, date) else str(value))
