"""A sheet of the crew's sketch book: plain shapes, the same each time, written as SVG.

`tests/sample/raster.py` draws the same shapes as pixels, without the words.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, pi, sin
from typing import NamedTuple
from xml.sax.saxutils import escape

INK, PAPER = "#3a2f25", "#f4ecda"
OAK, ASH, ELM, POPLAR, HARDBOARD = "#c49a5c", "#dcc28c", "#b07d4c", "#e0d2a8", "#8d7a5f"
NEW, STEEL, BRASS, MARIGOLD = "#efdcae", "#9aa3a8", "#c8a43c", "#e3a51f"
ROT = "#5b3d22"
HEIGHT = 200  # of every sketch
_CORNERS = 24  # of a ring

Point = tuple[float, float]


class Shape(NamedTuple):
    """An outline through `points`, filled or not."""

    points: tuple[Point, ...]
    fill: str = ""
    stroke: str = INK
    closed: bool = True
    dashed: bool = False


class Sketch:
    """A drawing of `width` by `HEIGHT`; x to the right, y downward."""

    def __init__(self, title: str, width: int = 320) -> None:
        self.title, self.width = title, width
        self.shapes: list[Shape] = []
        self.labels: list[tuple[float, float, int, str]] = []

    def box(self, x: float, y: float, width: float, height: float, fill: str = "") -> None:
        corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
        self.shape(corners, fill)

    def shape(self, points: Iterable[Point], fill: str = "") -> None:
        self.shapes.append(Shape(tuple(points), fill))

    def line(self, *points: Point, dashed: bool = False, colour: str = INK) -> None:
        self.shapes.append(Shape(points, "", colour, closed=False, dashed=dashed))

    def ring(self, x: float, y: float, radius: float, fill: str = "", stroke: str = INK) -> None:
        turns = (2 * pi * corner / _CORNERS for corner in range(_CORNERS))
        points = ((x + radius * cos(turn), y + radius * sin(turn)) for turn in turns)
        around = tuple((round(at_x, 1), round(at_y, 1)) for at_x, at_y in points)
        self.shapes.append(Shape(around, fill, stroke))

    def rot(self, x: float, y: float, width: float, height: float) -> None:
        """Rotten wood: dark, in cubes."""
        self.box(x, y, width, height, ROT)
        for step in range(1, int(width // 9) + 1):
            self.line((x + 9 * step - 4, y), (x + 9 * step - 7, y + height), colour=PAPER)

    def grain(self, x: float, y: float, width: float, height: float) -> None:
        """Two lines along the grain."""
        for part in (0.35, 0.7):
            level = y + height * part
            self.line((x + 4, level), (x + width / 2, level + 2), (x + width - 4, level - 1))

    def words(self, x: float, y: float, text: str, size: int = 9) -> None:
        self.labels.append((x, y, size, text))

    def __str__(self) -> str:
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {self.width} {HEIGHT}" '
            f'font-family="sans-serif" fill="{INK}">'
        )
        title = f"<title>{escape(self.title)}</title>"
        paper = f'<rect width="{self.width}" height="{HEIGHT}" fill="{PAPER}"/>'
        shapes = map(_shape_as_svg, self.shapes)
        labels = (
            f'<text x="{x:g}" y="{y:g}" font-size="{size}">{escape(text)}</text>'
            for x, y, size, text in self.labels
        )
        return "\n".join((head, title, paper, *shapes, *labels, "</svg>\n"))


def _shape_as_svg(shape: Shape) -> str:
    name = "polygon" if shape.closed else "polyline"
    points = " ".join(f"{x:g},{y:g}" for x, y in shape.points)
    dashes = ' stroke-dasharray="4 3"' if shape.dashed else ""
    fill = shape.fill or "none"
    return f'<{name} points="{points}" fill="{fill}" stroke="{shape.stroke}"{dashes}/>'
