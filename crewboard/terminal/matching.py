"""Finding by a few letters: every word typed must occur, its letters in order."""

from __future__ import annotations


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
