"""A picture drawn in the cells of a terminal: two dots in each, one above the other.

Pillow reads it and rich-pixels draws it. Both are imported when a picture is first shown, and the
screens do without them.
"""

from __future__ import annotations

import os
from importlib.util import find_spec
from typing import TYPE_CHECKING

from crewboard.folder.intake.looked_through import opened

if TYPE_CHECKING:
    from rich_pixels import Pixels

MOST_DOTS = 120_000_000
"""Of a picture that is drawn: the largest that phones take by themselves have 108 million (value
from memory). A file of few bytes may unpack to far more than a computer has room for."""
_FORMATS = ("JPEG", "PNG", "GIF", "BMP", "WEBP", "TIFF", "AVIF")


class CannotDraw(Exception):
    """Says in a sentence why a picture cannot be drawn here."""


def can_draw() -> bool:
    """Whether what draws pictures is installed."""
    return find_spec("PIL") is not None and find_spec("rich_pixels") is not None


def drawn(path: str, columns: int, lines: int) -> Pixels:
    """The picture, as large as fits into so many cells. Raises CannotDraw."""
    from PIL import Image, ImageOps
    from rich_pixels import Pixels

    Image.MAX_IMAGE_PIXELS = None  # it would only warn; all are asked below, before any is unpacked
    try:
        with os.fdopen(opened(path), "rb") as file, Image.open(file, formats=_FORMATS) as picture:
            dots = picture.width * picture.height
            if dots > MOST_DOTS:
                raise CannotDraw(f"it has {dots // 1_000_000:,} million dots, too many to draw")
            most = 2 * max(columns, lines)
            picture.draft("RGB", (most, most))
            small = picture if picture.mode in ("RGB", "RGBA", "L") else picture.convert("RGB")
            small.thumbnail((most, most))
            upright = ImageOps.exif_transpose(small)
            upright.thumbnail((max(1, columns), max(2, 2 * lines)))
            pixels: Pixels = Pixels.from_image(upright)
            return pixels
    except CannotDraw:
        raise
    except Exception as error:  # whatever a decoder finds wrong, it is this picture's fault
        raise CannotDraw("it cannot be read: it is broken, or of a kind unknown here") from error
