"""Sketches of what is not her body, and the list of all of them.

    python -m tests.sample.draw_pictures      draws them anew into the sample's pictures/

Each is named in the logbook with its hash, so a changed one needs its line "taken in" changed too:
a test says which.
"""

from __future__ import annotations

from collections.abc import Callable

from tests.sample import draw_body
from tests.sample.marigold import SAMPLE
from tests.sample.sketch import ASH, BRASS, ELM, INK, OAK, PAPER, STEEL, Sketch


def old_deck() -> Sketch:
    sheet = Sketch("The crate deck under the tar paper, from above", 360)
    sheet.words(10, 16, "crate deck from above, five boards left; hatched: nothing but tar paper")
    for number in range(5):
        y = 28 + 24 * number
        sheet.box(20, y, 300, 20, OAK)
        sheet.grain(20, y, 300, 20)
        sheet.words(328, y + 14, str(number + 1), 11)
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
        sheet.lines.append(f'<circle cx="{x}" cy="132" r="12" fill="none" stroke="{PAPER}"/>')
    return sheet


def sash_corners() -> Sketch:
    sheet = Sketch("Lower corners of sashes 2, 5, 7 and 8", 360)
    for number, x, depth in ((2, 16, 0), (5, 102, 18), (7, 188, 44), (8, 274, 8)):
        sheet.box(x, 36, 16, 110, OAK)
        sheet.box(x, 130, 64, 16, OAK)
        if depth:
            sheet.rot(x, 146 - depth, 16, depth)
            sheet.rot(x + 16, 130, depth, 16)
        sheet.words(x + 26, 172, str(number), 12)
    sheet.line((32, 112), (32, 130), (52, 130))
    sheet.box(32, 126, 24, 4, STEEL)
    sheet.words(16, 26, "an iron angle on 2; 7 is gone to the waist of the stile", 10)
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
    for x, name, metal in ((50, "street side: new, 2025", BRASS), (200, "market side: old", STEEL)):
        iron = STEEL if metal is BRASS else "#6f6a64"
        sheet.box(x, 36, 40, 74, iron)
        for y in (48, 98):
            sheet.ring(x + 20, y, 4, INK)
        sheet.shape(
            ((x + 14, 74), (x + 60, 74), (x + 60, 58), (x + 68, 58), (x + 68, 82), (x + 14, 82)),
            iron,
        )
        sheet.words(x - 26, 146, name, 10)
    sheet.words(20, 178, "holes 64 mm apart on both", 10)
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
    "2024/market-side.svg": draw_body.market_side,
    "2024/street-side.svg": draw_body.street_side,
    "2024/old-deck.svg": old_deck,
    "2024/chalk-drawing.svg": chalk_drawing,
    "2025/paint-stair.svg": draw_body.paint_stair,
    "2025/price-list.svg": draw_body.price_list,
    "2025/post-feet.svg": draw_body.post_feet,
    "2025/sill-ends.svg": draw_body.sill_ends,
    "2025/wheelwright-patch.svg": draw_body.wheelwright_patch,
    "2025/tail-wire.svg": tail_wire,
    "2025/left-sill-joint.svg": draw_body.left_sill_joint,
    "2025/rot-pocket.svg": draw_body.rot_pocket,
    "2025/sash-corners.svg": sash_corners,
    "2025/waist-rail-patch.svg": draw_body.waist_rail_patch,
    "2025/frame-repaired.svg": draw_body.frame_repaired,
    "2025/crate-hooks.svg": crate_hooks,
    "2026/cant-rails.svg": draw_body.cant_rails,
    "2026/lamp.svg": bench_with_lamp,
    "2026/moulding.svg": moulding_in_clamps,
}
"""The sketches by their path below pictures/."""


def draw() -> None:
    """Write all of them into the sample."""
    for path, sketch in PICTURES.items():
        file = SAMPLE / "pictures" / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(str(sketch()), encoding="utf-8")


if __name__ == "__main__":
    draw()
