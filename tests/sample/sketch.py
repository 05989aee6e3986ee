"""A sheet of the crew's sketch book: plain shapes as SVG, the same bytes each time."""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape

INK, PAPER = "#3a2f25", "#f4ecda"
OAK, ASH, ELM, POPLAR, HARDBOARD = "#c49a5c", "#dcc28c", "#b07d4c", "#e0d2a8", "#8d7a5f"
NEW, STEEL, BRASS, MARIGOLD = "#efdcae", "#9aa3a8", "#c8a43c", "#e3a51f"
ROT = "#5b3d22"

Point = tuple[float, float]


class Sketch:
    """A drawing of `width` by 200; x to the right, y downward."""

    def __init__(self, title: str, width: int = 320) -> None:
        self.title, self.width = title, width
        self.lines: list[str] = []

    def box(self, x: float, y: float, width: float, height: float, fill: str = "none") -> None:
        self._add(f'<rect x="{x:g}" y="{y:g}" width="{width:g}" height="{height:g}"', fill)

    def shape(self, points: Iterable[Point], fill: str = "none") -> None:
        self._add(f'<polygon points="{_listed(points)}"', fill)

    def line(self, *points: Point, dashed: bool = False, colour: str = INK) -> None:
        dashes = ' stroke-dasharray="4 3"' if dashed else ""
        self.lines.append(
            f'<polyline points="{_listed(points)}" fill="none" stroke="{colour}"{dashes}/>'
        )

    def ring(self, x: float, y: float, radius: float, fill: str = "none") -> None:
        self._add(f'<circle cx="{x:g}" cy="{y:g}" r="{radius:g}"', fill)

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

    def arrow(self, start: Point, end: Point) -> None:
        """From its words to what they mean, with a dot at the end."""
        self.line(start, end)
        self.ring(*end, 1.6, INK)

    def words(self, x: float, y: float, text: str, size: int = 9) -> None:
        self.lines.append(f'<text x="{x:g}" y="{y:g}" font-size="{size}">{escape(text)}</text>')

    def __str__(self) -> str:
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {self.width} 200" '
            f'font-family="sans-serif" fill="{INK}">'
        )
        paper = f'<rect width="{self.width}" height="200" fill="{PAPER}"/>'
        return "\n".join(
            (head, f"<title>{escape(self.title)}</title>", paper, *self.lines, "</svg>\n")
        )

    def _add(self, opening: str, fill: str) -> None:
        self.lines.append(f'{opening} fill="{fill}" stroke="{INK}"/>')


def _listed(points: Iterable[Point]) -> str:
    return " ".join(f"{x:g},{y:g}" for x, y in points)
