"""A sketch as pixels and as a PNG: flat colours, no smoothing, so that it is the same everywhere.

A PNG is written as ISO/IEC 15948 says: a signature, then chunks of length, name, data and CRC.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil, floor

from tests.sample.sketch import HEIGHT, PAPER, Point, Shape, Sketch

SCALE = 2  # pixels to the sketch's unit
_SIGNATURE = b"\x89PNG\r\n\x1a\n"
Pixels = tuple[tuple[str, ...], ...]


def pixels(sketch: Sketch) -> Pixels:
    """The colours of the sketch row by row, its words left out."""
    rows = [[PAPER] * (sketch.width * SCALE) for _ in range(HEIGHT * SCALE)]
    for shape in sketch.shapes:
        points = [(x * SCALE, y * SCALE) for x, y in shape.points]
        if shape.fill:
            _fill(rows, points, shape.fill)
        closed = [*points, points[0]] if shape.closed else points
        for x, y in _stroke(closed, shape):
            if 0 <= y < len(rows) and 0 <= x < len(rows[0]):
                rows[y][x] = shape.stroke
    return tuple(map(tuple, rows))


def as_png(of: Pixels) -> bytes:
    """A PNG of these pixels, each a number in a table of the colours."""
    colours = sorted({colour for row in of for colour in row})
    number = {colour: place for place, colour in enumerate(colours)}
    data = b"".join(b"\0" + bytes(number[colour] for colour in row) for row in of)
    head = struct.pack(">IIBBBBB", len(of[0]), len(of), 8, 3, 0, 0, 0)
    table = b"".join(bytes.fromhex(colour[1:]) for colour in colours)
    chunks = ((b"IHDR", head), (b"PLTE", table), (b"IDAT", zlib.compress(data, 9)), (b"IEND", b""))
    return _SIGNATURE + b"".join(_chunk(name, content) for name, content in chunks)


def read_png(png: bytes) -> Pixels:
    """The pixels of a PNG of `as_png`'s. Two versions of zlib pack the same ones otherwise."""
    chunks = dict(_chunks(png))
    width = struct.unpack(">I", chunks[b"IHDR"][:4])[0]
    table, data = chunks[b"PLTE"], zlib.decompress(chunks[b"IDAT"])
    colours = [f"#{table[at : at + 3].hex()}" for at in range(0, len(table), 3)]
    starts = range(1, len(data), width + 1)
    return tuple(tuple(colours[one] for one in data[at : at + width]) for at in starts)


def _chunk(name: bytes, content: bytes) -> bytes:
    checked = struct.pack(">I", zlib.crc32(name + content))
    return struct.pack(">I", len(content)) + name + content + checked


def _chunks(png: bytes) -> Iterator[tuple[bytes, bytes]]:
    at = len(_SIGNATURE)
    while at < len(png):
        size = struct.unpack(">I", png[at : at + 4])[0]
        yield png[at + 4 : at + 8], png[at + 8 : at + 8 + size]
        at += size + 12


def _fill(rows: list[list[str]], points: Sequence[Point], colour: str) -> None:
    """The inside, line by line: between each two crossings of the outline."""
    for y, row in enumerate(rows):
        crossings = sorted(_crossings(points, y + 0.5))
        for left, right in zip(crossings[::2], crossings[1::2], strict=True):
            first, last = max(0, ceil(left - 0.5)), min(len(row) - 1, floor(right - 0.5))
            row[first : last + 1] = [colour] * max(0, last - first + 1)


def _crossings(points: Sequence[Point], level: float) -> Iterator[float]:
    for (x, y), (to_x, to_y) in zip(points, (*points[1:], points[0]), strict=True):
        if (y <= level) != (to_y <= level):
            yield x + (level - y) / (to_y - y) * (to_x - x)


def _stroke(points: Sequence[Point], shape: Shape) -> Iterator[tuple[int, int]]:
    """The pixels of the outline, two wide; of a dashed one every other run is left out."""
    walked = 0
    for (x, y), (to_x, to_y) in pairwise(points):
        steps = max(1, ceil(max(abs(to_x - x), abs(to_y - y))))
        for step in range(steps + 1):
            walked += 1
            if not (shape.dashed and walked // (4 * SCALE) % 2):
                at_x = round(x + (to_x - x) * step / steps)
                at_y = round(y + (to_y - y) * step / steps)
                yield from ((at_x, at_y), (at_x + 1, at_y), (at_x, at_y + 1), (at_x + 1, at_y + 1))
