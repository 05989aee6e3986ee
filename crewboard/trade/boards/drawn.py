"""A deck drawn to scale: in characters for a terminal, as SVG for paper and pages."""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from html import escape
from itertools import pairwise
from typing import NamedTuple

from crewboard.plan.length import rounded, shown
from crewboard.trade.boards.layout import Lay

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_ASCII = str.maketrans("┌┬┐│└┴┘─°", "+++|+++-o")
_LEAST = 2  # columns for the narrowest board: its letter and an edge


class DrawnBoard(NamedTuple):
    """A board with its letter and where it lies, mm from the left edge of the deck."""

    letter: str
    at: Fraction
    width: Fraction
    old: bool


def drawn_boards(lay: Lay, gap: Fraction) -> list[DrawnBoard]:
    """From left to right, each beginning where its neighbour and the gap end; what a way is over or
    under by lies at the right edge, or before the next old board."""
    letters = letters_of(lay)
    boards: list[DrawnBoard] = []
    at, stretch = Fraction(0), 0
    for width, old in lay.boards:
        if old:
            at -= lay.off[stretch]
            stretch += 1
        boards.append(DrawnBoard(letters[width], at, width, old))
        at += width + gap
    return boards


def letters_of(lay: Lay) -> dict[Fraction, str]:
    """Each width's letter: A the widest."""
    widths = sorted({width for width, _ in lay.boards}, reverse=True)
    return {w: LETTERS[n % 26] + ("" if n < 26 else str(n // 26)) for n, w in enumerate(widths)}


def drawn_in_characters(boards: Sequence[DrawnBoard], columns: int = 76) -> tuple[str, ...]:
    """Boxes to scale, in as many rows as the narrowest board needs to be seen; a ring marks an old
    board. No line is longer than `columns`."""
    narrowest = min(board.width for board in boards)
    for count in range(1, len(boards) + 1):
        rows = _rows(boards, count)
        scale = (columns - 1) / max(_long(row) for row in rows)
        if narrowest * scale >= _LEAST:
            break
    heads = ("from the left edge:", *("on to the right:" for _ in rows[1:]))
    lines = [[head, *_boxes(row, scale)] for head, row in zip(heads, rows, strict=True)]
    return tuple(line for row in lines for line in row[len(rows) == 1 :])


def _rows(boards: Sequence[DrawnBoard], count: int) -> list[list[DrawnBoard]]:
    """The boards in so many rows of about one length, none empty."""
    end = boards[-1].at + boards[-1].width
    rows: list[list[DrawnBoard]] = [[] for _ in range(count)]
    for board in boards:
        rows[int((board.at + board.width / 2) / end * count)].append(board)
    return [row for row in rows if row]


def _long(row: Sequence[DrawnBoard]) -> Fraction:
    return row[-1].at + row[-1].width - row[0].at


def _boxes(boards: Sequence[DrawnBoard], scale: Fraction) -> Iterator[str]:
    """Three lines; `scale` columns a millimetre."""
    start = boards[0].at
    edges = [0]
    for board in boards:
        right = rounded((board.at + board.width - start) * scale)
        edges.append(max(edges[-1] + _LEAST, right))
    rooms = [right - left - 1 for left, right in pairwise(edges)]
    names = [
        (f"{board.letter}°" if board.old and room > 1 else board.letter[:room]).center(room)
        for board, room in zip(boards, rooms, strict=True)
    ]
    yield "┌" + "┬".join("─" * room for room in rooms) + "┐"
    yield "│" + "│".join(names) + "│"
    yield "└" + "┴".join("─" * room for room in rooms) + "┘"


def drawn_with_widths(
    boards: Sequence[DrawnBoard], units: str, columns: int = 76
) -> tuple[str, ...]:
    """The drawing, and below it each letter's width and how many there are of it, as many to a line
    as there is room for."""
    widths = {board.letter: board.width for board in sorted(boards)}
    counts = Counter(board.letter for board in boards)
    told = [f"{letter} {shown(w, units)} x {counts[letter]}" for letter, w in widths.items()]
    if any(board.old for board in boards):
        told.append("° an old board in its place")
    lines: list[str] = []
    for one in told:
        both = f"{lines[-1]}   {one}" if lines else one
        if len(both) <= columns:
            lines[-1:] = [both]
        else:
            lines.append(one)
    return (*drawn_in_characters(boards, columns), *lines)


def in_ascii(lines: Sequence[str]) -> tuple[str, ...]:
    """The drawing for a terminal without line characters."""
    return tuple(line.translate(_ASCII) for line in lines)


_WIDE, _HIGH, _SIDE = 720, 150, 20
_INK, _FAINT, _NEW, _OLD = "#1a1a1a", "#6a6a6a", "#ffffff", "#dcd3c0"


def drawn_as_svg(boards: Sequence[DrawnBoard], units: str, says: str) -> str:
    """One drawing in SVG 1.1, to scale and readable without colour: an old board says so."""
    end = boards[-1].at + boards[-1].width
    scale = Fraction(_WIDE - 2 * _SIDE) / end
    parts = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDE} {_HIGH}" '
        f'width="{_WIDE}" height="{_HIGH}" font-family="sans-serif" role="img">',
        "<title>What lies where</title>",
        f"<desc>{escape(says)}</desc>",
        f'<rect width="{_WIDE}" height="{_HIGH}" fill="#ffffff"/>',
        _words(_SIDE, 20, says, "start", 12),
    ]
    for board in boards:
        x, wide = _SIDE + float(board.at * scale), float(board.width * scale)
        fill = _OLD if board.old else _NEW
        parts.append(
            f'<rect x="{x:.2f}" y="40" width="{wide:.2f}" height="60" fill="{fill}" '
            f'stroke="{_INK}" stroke-width="0.8"/>'
        )
        parts.append(_words(x + wide / 2, 75, board.letter, "middle", 11))
        if board.old:
            parts.append(_words(x + wide / 2, 92, "old", "middle", 8))
    widths = {board.letter: board.width for board in boards}
    legend = ", ".join(
        f"{letter} {shown(width, units)}" for letter, width in sorted(widths.items())
    )
    parts.append(_words(_SIDE, 120, legend, "start", 11))
    parts.append(_words(_WIDE - _SIDE, 138, f"all of it {shown(end, units)}", "end", 10, _FAINT))
    return "\n".join((*parts, "</svg>")) + "\n"


def _words(x: float, y: float, text: str, anchor: str, size: int, ink: str = _INK) -> str:
    return (
        f'<text x="{x:.2f}" y="{y:g}" font-size="{size}" fill="{ink}" '
        f'text-anchor="{anchor}">{escape(text)}</text>'
    )
