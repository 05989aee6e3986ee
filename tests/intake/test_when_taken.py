"""When a picture was taken: as it says itself, else by its name, else by its file's time."""

from __future__ import annotations

import io
import struct
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.folder.intake.copied import recorded_in
from crewboard.folder.intake.exif import taken_at
from crewboard.folder.intake.film import recorded_at
from crewboard.folder.intake.when_taken import WhenTaken, when_taken
from tests.intake.a_camera import jpeg, png, tables
from tests.long_form import cases

FILE_TIME = datetime(2026, 4, 1, 8, 30)
MORNING = datetime(2026, 5, 2, 10, 15)


def taken(front: bytes, name: str) -> WhenTaken:
    return when_taken(front, name, FILE_TIME.timestamp(), datetime.fromtimestamp)


@pytest.mark.parametrize("order", ["<", ">"])
def test_a_picture_says_itself_when_it_was_taken(order: str) -> None:
    front = jpeg("2026:05:02 10:15:00", order=order)
    assert taken(front, "IMG_20250101_000000.jpg") == WhenTaken(MORNING)


def test_so_do_pictures_of_other_forms() -> None:
    written = tables("2026:05:02 10:15:00", order=">")
    heif = b"\0\0\0\x18ftypheic" + b"\0" * 900 + b"\0\0\0\x06Exif\0\0" + written
    webp = b"RIFF\0\0\0\0WEBPVP8 \0\0EXIF\x40\0\0\0" + written
    for front in (png("2026:05:02 10:15:00"), heif, webp, written):
        assert taken_at(front) == MORNING


@pytest.mark.parametrize(
    ("name", "moment"),
    [
        ("IMG_20260502_101500.jpg", MORNING),
        ("PXL_20260502_101500123.jpg", MORNING),
        ("2026-05-02 10.15.00.jpg", MORNING),
        ("20260502101500.mp4", MORNING),
        ("Picture 2026-05-02 at 10.15.00.jpeg", MORNING),
        ("walk 2026-05-02 10h15.m4a", MORNING),
        ("VID-20260502-WA0003.mp4", datetime(2026, 5, 2)),
        ("VID-20260502-0003.mp4", datetime(2026, 5, 2)),
        ("2026-05-02.jpg", datetime(2026, 5, 2)),
    ],
)
def test_else_its_name_does_and_that_is_said(name: str, moment: datetime) -> None:
    assert taken(jpeg(), name) == WhenTaken(moment, "its name")


@pytest.mark.parametrize(
    "name", ["IMG_0001.jpg", "20261399_101500.jpg", "123202605021.jpg", "DSC20260001.jpg", ""]
)
def test_else_its_file_does_and_that_is_said(name: str) -> None:
    assert taken(jpeg(), name) == WhenTaken(FILE_TIME, "its file's time")


@pytest.mark.parametrize("words", ["0000:00:00 00:00:00", "2026:13:02 10:15:00", "    :  :  ", ""])
def test_a_moment_that_is_none_is_passed_over(words: str) -> None:
    assert taken_at(jpeg(words or " ")) is None


def test_a_clock_that_stood_says_nothing() -> None:
    assert taken(jpeg("0001:01:01 00:00:00"), "x.jpg").by == "its file's time"
    assert when_taken(b"", "x.jpg", 1e18, datetime.fromtimestamp) == WhenTaken()


@cases(40, 20_000)
@given(st.binary(max_size=120), st.integers(0, 90), st.sampled_from([b"Exif\0\0", b"eXIf", b""]))
def test_no_bytes_lead_the_reader_astray(noise: bytes, cut: int, word: bytes) -> None:
    written = tables("2026:05:02 10:15:00")
    front = b"\xff\xd8" + word + written[:cut] + noise + written[cut + len(noise) :]
    moment = taken_at(front)
    assert moment is None or isinstance(moment, datetime)


# 2026-05-02T10:15:00 UTC in seconds since 1904-01-01 (ISO/IEC 14496-12, 8.2.2).
SINCE_1904 = int((datetime(2026, 5, 2, 10, 15) - datetime(1904, 1, 1)).total_seconds())
UTC_MORNING = MORNING.replace(tzinfo=UTC).timestamp()


def box(kind: bytes, inside: bytes) -> bytes:
    return struct.pack(">I", 8 + len(inside)) + kind + inside


def header(version: int, seconds: int = SINCE_1904) -> bytes:
    times = struct.pack(">QQ" if version else ">II", seconds, seconds)
    return box(b"moov", box(b"mvhd", bytes([version, 0, 0, 0]) + times + b"\0" * 80))


FTYP, DATA = box(b"ftyp", b"qt  \0\0\2\0"), b"\1" * 300_000
LONG_DATA = struct.pack(">I", 1) + b"mdat" + struct.pack(">Q", 16 + len(DATA)) + DATA


@pytest.mark.parametrize(
    "film",
    [
        FTYP + header(0) + box(b"mdat", DATA),
        FTYP + box(b"mdat", DATA) + header(0),  # as telephones write it
        FTYP + LONG_DATA + header(1),
        box(b"wide", b"") + struct.pack(">I", 8 + len(DATA)) + b"mdat" + DATA + header(0),
    ],
)
def test_a_film_says_itself_when_it_was_recorded(film: bytes, tmp_path: Path) -> None:
    (tmp_path / "walk.mov").write_bytes(film)
    recorded = recorded_in(str(tmp_path / "walk.mov"))
    assert recorded == UTC_MORNING
    told = when_taken(film[:400], "walk.mov", 0, lambda s: datetime.fromtimestamp(s, UTC), recorded)
    assert told.at is not None
    assert (told.at.replace(tzinfo=None), told.by) == (MORNING, "")


@pytest.mark.parametrize("film", [b"", FTYP, FTYP + header(0, 0), FTYP + DATA, header(1)[:20]])
def test_a_film_that_does_not_say_is_dated_by_its_file(film: bytes) -> None:
    recorded = recorded_at(io.BytesIO(film))
    told = when_taken(film, "x.mov", FILE_TIME.timestamp(), datetime.fromtimestamp, recorded)
    assert told == WhenTaken(FILE_TIME, "its file's time")


@cases(40, 5_000)
@given(st.lists(st.binary(max_size=24) | st.just(header(0)) | st.just(FTYP), max_size=12))
def test_whatever_is_in_a_film_is_a_moment_or_none(parts: list[bytes]) -> None:
    recorded = recorded_at(io.BytesIO(b"".join(parts)))
    assert recorded is None or recorded > 0
