"""Text that was copied elsewhere, a table or a list, as the cells of a table."""

from __future__ import annotations

import re
from collections.abc import Sequence

_LIST_MARK = r"^(?:[-*•·–]|\d{1,3}[.)])\s+(?=\S)"


def pasted_cells(text: str, names: Sequence[str]) -> list[list[str | None]]:
    """The cells of each line, in the order of the columns' `names`; None where nothing is said.

    The names may stand above the cells, in another order too. Empty lines, and the dots and
    numbers of a list, are left out.
    """
    lines = [[printable(cell).strip() for cell in line.split("\t")] for line in text.splitlines()]
    lines = [line for line in lines if any(line)]
    head = [cell.casefold() for cell in lines[0]] if lines else []
    if len(head) > 1 and set(head) <= set(names):
        places = [head.index(name) if name in head else len(head) for name in names]
        return [[line[at] if at < len(line) else None for at in places] for line in lines[1:]]
    return [[re.sub(_LIST_MARK, "", line[0]), *line[1:]] for line in lines]


def printable(text: str) -> str:
    """Without what steers a terminal."""
    return "".join(filter(str.isprintable, text))
