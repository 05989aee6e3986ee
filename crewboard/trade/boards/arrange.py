"""The order in which boards are laid: wide and equal ones at the edges, the others well mixed."""

from collections.abc import Sequence
from fractions import Fraction

from crewboard.trade.boards.combine import Counts
from crewboard.trade.boards.wanted import Deck

Edges = tuple[Fraction | None, Fraction | None]
"""The widths to lie outermost, None where an old board already does."""
Laid = tuple[tuple[Fraction, bool], ...]


def edges_of(deck: Deck, widths: Sequence[Fraction], taken: Sequence[Counts]) -> Edges | None:
    """The best pair of edges that these boards allow: of one width, then wide; None where they
    allow none, or no mirrored layout where one is asked for."""
    if deck.mirrored and sum(count % 2 for count in taken[0]) > 1:
        return None
    may = [width not in deck.not_at_edge for width in widths]
    left, right = taken[0], taken[-1]
    if not deck.old:
        return _pair_of_one(widths, left, may, mirrored=deck.mirrored)
    at_left = [w for w, n, ok in zip(widths, left, may, strict=True) if n and ok]
    at_right = [w for w, n, ok in zip(widths, right, may, strict=True) if n and ok]
    if (any(left) and not at_left) or (any(right) and not at_right):
        return None
    both = set(at_left) & set(at_right)
    one, other = (max(both), max(both)) if both else (None, None)
    return one or max(at_left, default=None), other or max(at_right, default=None)


def _pair_of_one(
    widths: Sequence[Fraction], counts: Counts, may: Sequence[bool], *, mirrored: bool
) -> Edges | None:
    allowed = [(w, n) for w, n, ok in zip(widths, counts, may, strict=True) if n and ok]
    if sum(counts) == 1:
        return (allowed[0][0], None) if allowed else None
    pairs = [width for width, count in allowed if count > 1]
    if pairs:
        return max(pairs), max(pairs)
    if mirrored or len(allowed) < 2:
        return None
    wide = sorted((width for width, _ in allowed), reverse=True)
    return wide[0], wide[1]


def arranged(deck: Deck, widths: Sequence[Fraction], taken: Sequence[Counts], edges: Edges) -> Laid:
    """The boards from left to right, with the old ones in their places."""
    if not deck.old:
        return tuple((width, False) for width in _one_run(widths, taken[0], edges))
    laid: list[tuple[Fraction, bool]] = []
    for number, counts in enumerate(taken):
        at_left = edges[0] if number == 0 else None
        at_right = edges[1] if number == len(taken) - 1 else None
        inner = _without(widths, counts, (at_left, at_right))
        run = [*_some(at_left), *_mixed(widths, inner), *_some(at_right)]
        laid += [(width, False) for width in run]
        if number < len(deck.old):
            laid.append((deck.old[number].width, True))
    return tuple(laid)


def _one_run(widths: Sequence[Fraction], counts: Counts, edges: Edges) -> list[Fraction]:
    inner = _without(widths, counts, edges)
    left, right = _some(edges[0]), _some(edges[1])
    odd = [width for width, count in zip(widths, inner, strict=True) if count % 2]
    if (
        edges[0] == edges[1] and len(odd) <= 1
    ):  # the same from both sides, the odd one in the middle
        half = _mixed(widths, tuple(count // 2 for count in inner))
        return [*left, *half, *odd, *half[::-1], *right]
    return [*left, *_mixed(widths, inner), *right]


def _some(width: Fraction | None) -> list[Fraction]:
    return [] if width is None else [width]


def _without(widths: Sequence[Fraction], counts: Counts, edges: Edges) -> Counts:
    return tuple(
        count - sum(width == edge for edge in edges)
        for width, count in zip(widths, counts, strict=True)
    )


def _mixed(widths: Sequence[Fraction], counts: Counts) -> list[Fraction]:
    """Spread evenly: at each place the width that lies furthest behind its share."""
    total, placed = sum(counts), [0] * len(counts)
    run: list[Fraction] = []
    for place in range(1, total + 1):
        behind = [count * place - total * put for count, put in zip(counts, placed, strict=True)]
        most = max(range(len(counts)), key=behind.__getitem__)
        placed[most] += 1
        run.append(widths[most])
    return run
