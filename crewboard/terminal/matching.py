"""Finding by a few letters: every word typed must occur, its letters in order."""

from __future__ import annotations

from collections.abc import Sequence

from crewboard.telling.row import Row


def matches(query: str, text: str) -> int | None:
    """How well the text answers the query, less is better; None where it does not.

    A word that stands in the text as typed goes before one whose letters are only in order.
    """
    haystack = text.casefold()
    score = 0
    for word in query.casefold().split():
        at = haystack.find(word)
        if at >= 0:
            starts_word = at == 0 or not haystack[at - 1].isalnum()
            score += 0 if starts_word else 1
            continue
        spread = _spread(word, haystack)
        if spread is None or len(word) < 3:
            return None
        score += 10 + spread
    return score


def _spread(word: str, text: str) -> int | None:
    """How many letters lie between the letters of the word; None where they are not all there."""
    first = at = text.find(word[0])
    if at < 0:
        return None
    for letter in word[1:]:
        at = text.find(letter, at + 1)
        if at < 0:
            return None
    gap = at - first + 1 - len(word)
    return gap if gap <= 2 * len(word) else None


def filtered(rows: Sequence[Row], query: str) -> tuple[Row, ...]:
    """The rows that match, best first within their heading; headings with nothing left go."""
    kept: list[Row] = []
    group: list[tuple[int, Row]] = []
    head: Row | None = None
    under = 0  # rows under the heading

    def close() -> None:
        if group:
            if head is not None:
                kept.append(_counted_anew(head, len(group), under))
            kept.extend(row for _, row in sorted(group, key=lambda g: g[0]))
        group.clear()

    for row in rows:
        if not row.id:
            close()
            head, under = row, 0
            continue
        under += 1
        score = matches(query, " ".join((*row.cells, *row.below, row.find)))
        if score is not None:
            group.append((score, row))
    close()
    return tuple(kept)


def _counted_anew(head: Row, shown: int, of: int) -> Row:
    """A heading that says how many rows it has says how many of them are shown."""
    first, *more = head.cells
    count = f"({of})"
    if shown == of or not first.endswith(count):
        return head
    return head._replace(cells=(f"{first.removesuffix(count)}({shown} of {of})", *more))
