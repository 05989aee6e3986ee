"""When a picture was taken, as the camera wrote it into the picture (Exif 2.3, DateTimeOriginal).

Read are at most `MOST` bytes from the front, and of them only the two tables that lead to the
moment. Everything is taken for what anybody may have written: an offset that leads out of the
bytes, or a moment that is none, gives None.
"""

import re
import struct
from datetime import datetime

MOST = 1 << 18
"""Bytes looked at: the moment stands within the first 64 KB, in phones' newer files within 200."""
_ORIGINAL, _DIGITIZED, _EXIF_TABLE = 0x9003, 0x9004, 0x8769
_MOST_ROWS = 1000
_MOMENT = re.compile(rb"(\d{4})[:\-/.](\d\d)[:\-/.](\d\d)[ T](\d\d):(\d\d):(\d\d)")
_TIFF_STARTS = (b"II*\0", b"MM\0*")


def taken_at(front: bytes) -> datetime | None:
    """The wall-clock moment at which the picture was taken; None where it does not say."""
    for start in _tables_start(front[:MOST]):
        try:
            moment = _moment(front[start:MOST])
        except (struct.error, ValueError, OverflowError):
            continue
        if moment is not None:
            return moment
    return None


def _tables_start(front: bytes) -> list[int]:
    """Where the tables may begin: a TIFF file is nothing else, others carry them behind "Exif"
    (JPEG, HEIF, WebP) or in a chunk "eXIf" (PNG)."""
    if front[:4] in _TIFF_STARTS:
        return [0]
    starts: list[int] = []
    for word, behind in ((b"Exif\0\0", 6), (b"eXIf", 4), (b"EXIF", 8)):
        place = front.find(word)
        while place >= 0 and len(starts) < 8:
            if front[place + behind : place + behind + 4] in _TIFF_STARTS:
                starts.append(place + behind)
            place = front.find(word, place + 1)
    return starts


def _moment(tiff: bytes) -> datetime | None:
    order = "<" if tiff[:2] == b"II" else ">"
    first = _rows(tiff, order, struct.unpack_from(order + "I", tiff, 4)[0])
    if _EXIF_TABLE not in first:
        return None
    rows = _rows(tiff, order, first[_EXIF_TABLE])
    for tag in (_ORIGINAL, _DIGITIZED):
        if tag in rows:
            written = _MOMENT.match(tiff[rows[tag] : rows[tag] + 20])
            if written is not None and int(written[1]):
                return datetime(*map(int, written.groups()))  # type: ignore[arg-type]
    return None


def _rows(tiff: bytes, order: str, offset: int) -> dict[int, int]:
    """What stands in a table: each tag with its value, or with where that begins."""
    (count,) = struct.unpack_from(order + "H", tiff, offset)
    rows: dict[int, int] = {}
    for row in range(min(count, _MOST_ROWS)):
        tag, _, _, value = struct.unpack_from(order + "HHII", tiff, offset + 2 + 12 * row)
        rows.setdefault(tag, value)
    return rows
