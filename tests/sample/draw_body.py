"""Sketches of her body: sides, sills, posts, rails, panels."""

from __future__ import annotations

from tests.sample.sketch import (
    ASH,
    BRASS,
    ELM,
    HARDBOARD,
    INK,
    MARIGOLD,
    NEW,
    OAK,
    POPLAR,
    STEEL,
    Sketch,
)


def side(name: str, hardboard: tuple[int, ...], first: int, door: bool) -> Sketch:
    """A side square on: panels `first` to `first` + 3, sashes above, the roof gone."""
    sheet = Sketch(f"{name} side, square on", 360)
    sheet.words(
        10, 16, f"{name} side, square on; arches and canvas gone, levelling staff on the left"
    )
    for mark in range(8):
        sheet.box(12, 36 + 16 * mark, 5, 16, INK if mark % 2 else "none")
    sheet.box(40, 46, 290, 7, ASH)
    sheet.line((40, 46), (185, 24), (330, 46), dashed=True)
    for number in range(4):
        x = 72 + 64 * number
        sheet.box(x, 53, 64, 46)
        sheet.box(x + 6, 57, 52, 38, "#cfd8d6")
        sheet.box(x, 104, 64, 40, HARDBOARD if first + number in hardboard else POPLAR)
        sheet.words(x + 27, 128, str(first + number), 11)
    sheet.box(40, 99, 290, 5, OAK)
    sheet.box(40, 144, 290, 11, OAK)
    if door:
        sheet.box(42, 55, 28, 89)
        sheet.line((56, 55), (56, 144))
    for x in (37, 333):
        sheet.ring(x, 92, 6, BRASS)
    for x in (100, 280):
        sheet.ring(x, 164, 20, STEEL)
        sheet.ring(x, 164, 4, INK)
    return sheet


def market_side() -> Sketch:
    return side("Market", (3, 4), 1, door=True)


def street_side() -> Sketch:
    return side("Street", (7, 8), 5, door=False)


def price_list() -> Sketch:
    sheet = Sketch("Panel 5 from behind, with the price list")
    sheet.box(20, 20, 280, 160, POPLAR)
    sheet.line((200, 34), (200, 166), colour="#6a6a80")
    for row, (what, old, new) in enumerate(
        (
            ("eggs, the score", "9", "11"),
            ("leeks, bundle", "2", "3"),
            ("a hen, live", "30", "36"),
            ("crate, carriage", "4", "5"),
        )
    ):
        y = 52 + 32 * row
        sheet.words(36, y, what, 12)
        sheet.words(212, y, old, 12)
        sheet.line((208, y - 4), (228, y - 5))
        sheet.words(246, y, new, 12)
    return sheet


def post_feet() -> Sketch:
    sheet = Sketch("The feet of the eight posts", 360)
    sheet.words(10, 16, "feet of the posts, panels off; dark is rotten; 5 and 8 ring")
    for number, depth in enumerate((34, 40, 30, 52, 0, 44, 62, 0), 1):
        x = 14 + 42 * (number - 1)
        sheet.box(x, 30, 22, 128, ASH)
        sheet.grain(x, 30, 22, 80)
        if depth:
            sheet.rot(x, 158 - depth, 22, depth)
        sheet.words(x + 8, 178, str(number), 11)
    sheet.box(6, 158, 346, 6, OAK)
    return sheet


def sill_ends() -> Sketch:
    sheet = Sketch("Rot in both sills", 360)
    for top, name, rot in (
        (40, "market side, rear", (236, 100)),
        (120, "street side, front", (20, 58)),
    ):
        sheet.words(20, top - 8, name, 10)
        sheet.box(20, top, 320, 36, OAK)
        sheet.grain(20, top, 320, 36)
        sheet.rot(rot[0], top, rot[1], 36 if name.startswith("street") else 28)
        for x in (90, 160, 226, 300):
            sheet.ring(x, top + 18, 4, INK)
    sheet.words(238, 90, "sound from the third bolt", 9)
    return sheet


def left_sill_joint() -> Sketch:
    sheet = Sketch("The old scarf of the left rear sill")
    sheet.shape(((0, 70), (110, 70), (250, 112), (250, 130), (0, 130)), OAK)
    sheet.shape(((110, 70), (320, 70), (320, 130), (250, 130), (250, 112)), ELM)
    for x, y in ((140, 92), (178, 104), (216, 116)):
        sheet.ring(x, y, 5, "#7a5a34")
    sheet.words(20, 50, "from below; three pegs, no glue", 11)
    sheet.words(150, 160, "nine to one", 10)
    return sheet


def wheelwright_patch() -> Sketch:
    sheet = Sketch("The elm patch in the street-side waist rail")
    sheet.box(0, 66, 320, 60, OAK)
    sheet.grain(0, 66, 320, 60)
    sheet.shape(((80, 96), (120, 74), (210, 74), (250, 96), (210, 118), (120, 118)), ELM)
    sheet.words(132, 101, "J. v. H.  1956", 12)
    sheet.ring(112, 96, 3, INK)
    sheet.ring(222, 96, 3, INK)
    sheet.words(80, 148, "elm, pinned twice; pencil on the inner face", 10)
    return sheet


def rot_pocket() -> Sketch:
    sheet = Sketch("The deepest rot pocket in the market-side sill")
    sheet.box(0, 50, 320, 90, OAK)
    sheet.grain(0, 50, 320, 90)
    sheet.shape(((120, 50), (132, 92), (166, 100), (196, 84), (204, 50)), "#2e2117")
    sheet.line((162, 30), (162, 99))
    sheet.words(168, 42, "34 mm to wood that rings", 10)
    sheet.ring(80, 95, 8, INK)
    sheet.words(58, 122, "third bolt", 9)
    return sheet


def frame_repaired() -> Sketch:
    sheet = Sketch("Sills and posts after the repair", 360)
    sheet.words(10, 16, "new wood light; the year is branded on the back of each")
    for number in range(1, 9):
        x = 14 + 42 * (number - 1)
        sheet.box(x, 30, 22, 118, ASH)
        if number not in (5, 8):
            sheet.shape(((x, 98), (x + 22, 108), (x + 22, 148), (x, 148)), NEW)
        sheet.words(x + 8, 26, str(number), 8)
    sheet.box(6, 148, 346, 26, OAK)
    sheet.shape(((236, 148), (352, 148), (352, 174), (268, 174)), NEW)
    sheet.shape(((6, 148), (48, 148), (70, 174), (6, 174)), NEW)
    sheet.words(10, 192, "the sills are drawn one over the other", 8)
    return sheet


def waist_rail_patch() -> Sketch:
    sheet = Sketch("Our patch in the market-side waist rail")
    sheet.box(0, 66, 320, 60, OAK)
    sheet.grain(0, 66, 320, 60)
    sheet.shape(((90, 66), (230, 66), (214, 96), (106, 96)), "#a8804a")
    sheet.words(118, 86, "oak of deck board 3", 10)
    sheet.words(118, 146, "2025 struck in below, out of sight", 10)
    return sheet


def cant_rails() -> Sketch:
    sheet = Sketch("The cant rails with their new pieces", 360)
    for top, name, new in ((50, "market side", (150, 76)), (120, "street side", (250, 22))):
        sheet.words(14, top - 8, name, 10)
        sheet.box(14, top, 332, 26, ASH)
        sheet.box(new[0], top, new[1], 26, NEW)
        for notch in range(7):
            sheet.line((30 + 48 * notch, top), (30 + 48 * notch, top + 9))
            sheet.line((38 + 48 * notch, top), (38 + 48 * notch, top + 9))
    return sheet


def paint_stair() -> Sketch:
    sheet = Sketch("Layers of paint, a stair down to the wood")
    colours = (
        "#d3b39c",
        "#f2f0e8",
        MARIGOLD,
        "#d9b45c",
        "#7b7f80",
        "#eae6da",
        "#6b4a33",
        "#f7f5ee",
    )
    names = ("primer", "white", "marigold", "varnish", "grey", "white", "brown", "limewash")
    sheet.box(20, 150, 280, 24, ASH)
    for step, (colour, name) in enumerate(zip(colours, names, strict=True), 1):
        sheet.box(64 + 26 * step, 150 - 14 * step, 236 - 26 * step, 14, colour)
        sheet.words(24, 161 - 14 * step, f"{step} {name}", 9)
    return sheet
