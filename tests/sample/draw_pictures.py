"""Sketches of what is not her body, and the list of all of them.

    python -m tests.sample.draw_pictures      draws them anew into the sample's pictures/

Each is named in the logbook with its hash, so a changed one needs its line "taken in" changed too:
a test says which.
"""

from __future__ import annotations

from collections.abc import Callable

from tests.sample import draw_body
from tests.sample.marigold import SAMPLE
from tests.sample.raster import as_png, pixels, read_png
from tests.sample.sketch import ASH, BRASS, ELM, INK, OAK, PAPER, STEEL, Sketch


def old_deck() -> Sketch:
    sheet = Sketch("The crate deck under the tar paper, from above", 360)
    for number in range(5):
        y = 28 + 24 * number
        sheet.box(20, y, 300, 20, OAK)
        sheet.grain(20, y, 300, 20)
    sheet.line((20, 85), (110, 87), (225, 83))
    sheet.rot(20, 100, 300, 20)
    for step in range(20):
        sheet.line((20 + 15 * step, 178), (32 + 15 * step, 152))
    return sheet


def chalk_drawing() -> Sketch:
    sheet = Sketch("The chalk drawing under the third seat")
    sheet.box(20, 20, 280, 160, "#7d6244")
    for x in (76, 132, 188, 244):
        sheet.line((x, 20), (x, 180))
    horse = ((60, 96), (66, 78), (78, 92), (150, 90), (156, 112), (64, 112), (60, 96))
    sheet.line(*horse, colour=PAPER)
    for foot in (70, 88, 108, 128, 148):
        sheet.line((foot, 112), (foot - 3, 142), colour=PAPER)
    sheet.line((156, 100), (182, 100), (182, 78), (262, 78), (262, 122), (182, 122), colour=PAPER)
    for x in (202, 244):
        sheet.ring(x, 132, 12, stroke=PAPER)
    return sheet


def sash_corners() -> Sketch:
    sheet = Sketch("Lower corners of sashes 2, 5, 7 and 8", 360)
    for x, depth in ((16, 0), (102, 18), (188, 44), (274, 8)):
        sheet.box(x, 36, 16, 110, OAK)
        sheet.box(x, 130, 64, 16, OAK)
        if depth:
            sheet.rot(x, 146 - depth, 16, depth)
            sheet.rot(x + 16, 130, depth, 16)
    sheet.line((32, 112), (32, 130), (52, 130))
    sheet.box(32, 126, 24, 4, STEEL)
    return sheet


def tail_wire() -> Sketch:
    sheet = Sketch("Two ages of wire along the street-side cant rail")
    sheet.box(0, 40, 320, 80, ASH)
    for y, colour in ((64, "#a8483c"), (94, "#26211d")):
        for offset in (0, 1.5, 3):
            sheet.line((0, y + offset), (160, y + offset + 2), (320, y + offset), colour=colour)
    for x in (40, 120, 200, 280):
        sheet.line((x, 90), (x, 86), (x + 8, 86), (x + 8, 104))
    sheet.words(20, 140, "above: cotton plait, tied with waxed thread", 10)
    sheet.words(20, 156, "below: black rubber, stapled, cracked at each staple", 10)
    return sheet


def crate_hooks() -> Sketch:
    sheet = Sketch("The crate hooks, the old one and the new one")
    new, old = (50, STEEL), (200, "#6f6a64")
    for x, iron in (new, old):
        sheet.box(x, 36, 40, 74, iron)
        for y in (48, 98):
            sheet.ring(x + 20, y, 4, INK)
        sheet.shape(
            ((x + 14, 74), (x + 60, 74), (x + 60, 58), (x + 68, 58), (x + 68, 82), (x + 14, 82)),
            iron,
        )
    return sheet


def bench_with_lamp() -> Sketch:
    sheet = Sketch("A lamp on the metal bench")
    sheet.box(0, 150, 320, 20, ELM)
    sheet.ring(150, 100, 44, BRASS)
    sheet.ring(150, 100, 34, "#e9eee8")
    sheet.box(140, 140, 20, 12, BRASS)
    return sheet


def moulding_in_clamps() -> Sketch:
    sheet = Sketch("A moulding in its clamps")
    sheet.shape(((20, 120), (110, 96), (210, 96), (300, 120), (300, 130), (20, 130)), ASH)
    for number in range(11):
        sheet.box(26 + 25 * number, 88, 6, 52, STEEL)
    return sheet


PICTURES: dict[str, Callable[[], Sketch]] = {
    "2024/market-side.png": draw_body.market_side,
    "2024/street-side.png": draw_body.street_side,
    "2024/old-deck.png": old_deck,
    "2024/chalk-drawing.png": chalk_drawing,
    "2025/paint-stair.svg": draw_body.paint_stair,
    "2025/price-list.svg": draw_body.price_list,
    "2025/post-feet.png": draw_body.post_feet,
    "2025/sill-ends.png": draw_body.sill_ends,
    "2025/wheelwright-patch.svg": draw_body.wheelwright_patch,
    "2025/tail-wire.svg": tail_wire,
    "2025/left-sill-joint.svg": draw_body.left_sill_joint,
    "2025/rot-pocket.png": draw_body.rot_pocket,
    "2025/sash-corners.png": sash_corners,
    "2025/waist-rail-patch.png": draw_body.waist_rail_patch,
    "2025/frame-repaired.png": draw_body.frame_repaired,
    "2025/crate-hooks.png": crate_hooks,
    "2026/cant-rails.png": draw_body.cant_rails,
    "2026/lamp.png": bench_with_lamp,
    "2026/moulding.png": moulding_in_clamps,
}
"""The sketches by their path below pictures/: those that live by their words as SVG, the others as
PNG, which a terminal can show."""


def drawn(path: str) -> bytes:
    """The file of a sketch."""
    sketch = PICTURES[path]()
    return str(sketch).encode() if path.endswith(".svg") else as_png(pixels(sketch))


def is_drawn_so(path: str, file: bytes) -> bool:
    """Whether a file shows the sketch; how its pixels are packed is left open."""
    if path.endswith(".svg"):
        return file == drawn(path)
    return read_png(file) == pixels(PICTURES[path]())


def draw() -> None:
    """Write into the sample those that are not there as they are to be."""
    for path in PICTURES:
        file = SAMPLE / "pictures" / path
        file.parent.mkdir(parents=True, exist_ok=True)
        if not (file.is_file() and is_drawn_so(path, file.read_bytes())):
            file.write_bytes(drawn(path))


if __name__ == "__main__":
    draw()
