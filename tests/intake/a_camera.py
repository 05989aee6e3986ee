"""Pictures, sound and films as a phone or camera leaves them, as small as they can be."""

from __future__ import annotations

import os
import re
import struct
import zlib
from datetime import datetime
from pathlib import Path

MP4 = b"\0\0\0\x18ftypmp42\0\0\0\0mp42isom" + b"\0" * 40
WAVE = b"RIFF\x24\0\0\0WAVEfmt " + b"\0" * 40


def tables(taken: str, *, order: str = "<", tag: int = 0x9003) -> bytes:
    """The tables of Exif that say when: "2026:05:02 10:15:00"."""
    start = b"II*\0" if order == "<" else b"MM\0*"
    first = struct.pack(f"{order}HHHIII", 1, 0x8769, 4, 1, 26, 0)
    words = taken.encode() + b"\0"
    second = struct.pack(f"{order}HHHIII", 1, tag, 2, len(words), 44, 0)
    return start + struct.pack(f"{order}I", 8) + first + second + words


def jpeg(taken: str = "", *, colour: int = 0, order: str = "<") -> bytes:
    """A picture's bytes; `colour` tells one from another."""
    about = b""
    if taken:
        exif = b"Exif\0\0" + tables(taken, order=order)
        about = b"\xff\xe1" + struct.pack(">H", len(exif) + 2) + exif
    return b"\xff\xd8" + about + b"\xff\xdb\0\x05\0" + struct.pack(">H", colour) + b"\xff\xd9"


def png(taken: str = "", *, colour: tuple[int, int, int] = (90, 120, 90), wide: int = 8) -> bytes:
    """A picture that can be shown: one colour, `wide` dots wide and high."""
    rows = b"".join(b"\0" + bytes(colour) * wide for _ in range(wide))
    head = struct.pack(">IIBBBBB", wide, wide, 8, 2, 0, 0, 0)
    chunks = [(b"IHDR", head), (b"IDAT", zlib.compress(rows)), (b"IEND", b"")]
    if taken:
        chunks.insert(1, (b"eXIf", tables(taken, order=">")))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        for name, data in chunks
    )


def plain(path: str) -> str:
    """The path that it would have without the figures by which two files of one name are told
    apart: "pictures/2026/IMG_2.jpg"."""
    shorter, figures = re.subn(r"-[0-9a-f]{4}(\.\w+)$", r"\1", path)
    assert figures == 1, path
    return shorter


def put(folder: Path, name: str, data: bytes, at: datetime | None = None) -> Path:
    """Write a file of the camera, with the time that its file has."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(data)
    if at is not None:
        os.utime(folder / name, (at.timestamp(), at.timestamp()))
    return folder / name
