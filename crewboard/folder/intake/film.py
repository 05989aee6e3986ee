"""When a film or a telephone's sound was taken, as its own header says (ISO/IEC 14496-12, 8.2.2:
`creation_time` of the box "mvhd", in seconds since 1904 in UTC; QuickTime's is the same).

The boxes of the file are walked by their sizes, since telephones write that header last. Everything
is taken for what anybody may have written: a size that leads nowhere, or no moment, gives None.
"""

import struct
from collections.abc import Iterator
from typing import BinaryIO

_EPOCH = 2_082_844_800  # s from 1904-01-01 to 1970-01-01
_MOST_BOXES = 200  # at the top of a file there are a dozen


def recorded_at(file: BinaryIO) -> float | None:
    """Seconds of the epoch at which it was recorded; None where it does not say. Raises OSError."""
    for kind, start, end in _boxes(file, 0, None):
        if kind == b"moov":
            for inner, begins, ends in _boxes(file, start, end):
                if inner == b"mvhd":
                    return _creation_time(file, begins, ends)
    return None


def _boxes(file: BinaryIO, at: int, end: int | None) -> Iterator[tuple[bytes, int, int]]:
    """The boxes one after the other: their kind, and where what is in them begins and ends."""
    for _ in range(_MOST_BOXES):
        file.seek(at)
        head = file.read(16)
        if len(head) < 8 or (end is not None and at >= end):
            return
        size, kind, begins = struct.unpack(">I", head[:4])[0], head[4:8], 8
        if size == 1 and len(head) == 16:
            size, begins = struct.unpack(">Q", head[8:])[0], 16
        if size == 0:  # to the end of the file
            size = file.seek(0, 2) - at
        if size < begins or at + size > 1 << 62:
            return
        yield kind, at + begins, at + size
        at += size


def _creation_time(file: BinaryIO, begins: int, ends: int) -> float | None:
    file.seek(begins)
    head = file.read(min(12, ends - begins))
    form = ">Q" if head[:1] == b"\1" else ">I"
    if len(head) < 4 + struct.calcsize(form):
        return None
    (seconds,) = struct.unpack_from(form, head, 4)
    return float(seconds - _EPOCH) if seconds > _EPOCH else None
