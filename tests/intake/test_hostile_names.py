"""Names that steer a terminal, a shell or a file system stay data, and are kept as they were."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.folder.disk.names import trouble
from crewboard.folder.intake.safe_name import safe_name
from crewboard.folder.intake.what_it_is import FIRST_BYTES, sort_of
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import TookIn
from tests.command.calling import Shell
from tests.intake.a_camera import MP4, WAVE, jpeg, png
from tests.long_form import cases
from tests.naughty import CLASSES
from tests.terminal.shop import open_app, reads, seen

AT = ("--at", "2026-05-02T10:00", "--by", "ada")
JPEG = sort_of(jpeg())


def hostile_names() -> list[str]:
    """A file's name of each class of text, as far as this system can hold it."""
    names = [text.replace("/", "|").replace("\0", "|")[:60] for text in CLASSES.values()]
    names += ["con", "NUL.jpg", "aux.tar.gz.jpg", "-rf", "--help.jpg", " lead and trail . ", "~a~"]
    return [f"{name}.jpg" for name in names if not name.startswith(".")]  # those are hidden


@pytest.fixture
def phone(tmp_path: Path) -> Path:
    folder = tmp_path / "phone [bold]\x1b[31m"
    folder.mkdir()
    for number, name in enumerate(hostile_names()):
        (folder / name).write_bytes(jpeg(colour=number))
    with open(os.fsencode(folder) + b"/no \xff\xfe text.jpg", "wb") as odd:
        odd.write(jpeg(colour=9999))
    (folder / "ne\nw.jpg").write_bytes(b"no picture")
    return folder


async def test_hostile_names_are_kept_as_text_and_made_safe_as_names(
    call: Shell, shop: Path, phone: Path
) -> None:
    ended = call("take-in", shop, phone, *AT)
    assert ended.code == 0, ended.err
    assert "phone [bold]␛[31m/ne␊w.jpg is not taken in: it is neither" in ended.err
    folder = Folder(shop)
    assert folder.faults == []
    acts = [e.act for e in folder.logbook.record() if isinstance(e.act, TookIn)]
    assert {act.called for act in acts} == {*hostile_names(), "no \\xff\\xfe text.jpg"}
    for act in acts:
        assert (shop / act.file).is_file()
        assert not trouble(act.file), act
        name = act.file.rpartition("/")[2]
        assert all(char.isalnum() or char in "-_." for char in name), name
        assert not name.startswith(("-", ".")), name
    listing = call("waiting", shop, *AT[:2])
    for said in (ended.out + ended.err, listing.out, call("day", shop, *AT[:2]).out):
        assert not {"\x1b", "\x9b", "\u202e", "\r"} & set(said)
    assert len(listing.out.splitlines()) == len(acts)
    app = open_app(shop, by="ada")
    async with app.run_test(size=(110, 36)) as pilot:
        await pilot.press("z")
        await reads(pilot, "[M8] bolt")
        for key in ("down", "pagedown", "pagedown", "home"):
            await pilot.press(key)
            assert not {"\x1b", "\x9b", "\u202e"} & set(seen(app))
        await pilot.press("space", "enter", "1", "enter")
        await reads(pilot, "in words")
        await pilot.press(*"[/]", "enter", "end", "o", "enter")
        await reads(pilot, "Found: ")


@cases(60, 5000)
@given(st.text(max_size=80))
def test_any_name_gives_one_that_every_system_holds(name: str) -> None:
    assert JPEG is not None
    safe = safe_name(name, JPEG)
    assert not trouble(f"pictures/2026/{safe}")
    assert safe.endswith((".jpg", ".jpeg", ".jpe", ".jfif"))
    assert len(safe.encode()) < 200
    assert safe_name(safe, JPEG) == safe


@pytest.mark.parametrize(
    ("name", "safe"),
    [
        ("IMG_0001.JPG", "IMG_0001.jpg"),
        ("left sill, from below.jpeg", "left-sill-from-below.jpeg"),
        ("photo.exe", "photo-exe.jpg"),
        ("Tür links.jpg", "Tür-links.jpg"),
        ("表ポ.jpg", "表ポ.jpg"),
        ("..", "picture.jpg"),
        ("con.jpg", "picture-con.jpg"),
        ("a" * 300 + ".jpg", "a" * 60 + ".jpg"),
    ],
)
def test_a_name_stays_as_it_is_as_far_as_it_can(name: str, safe: str) -> None:
    assert JPEG is not None
    assert safe_name(name, JPEG) == safe


@pytest.mark.parametrize(
    ("first", "word"),
    [
        (jpeg(), "picture"),
        (png(), "picture"),
        (b"GIF89a", "picture"),
        (b"II*\0", "picture"),
        (b"RIFF\0\0\0\0WEBP", "picture"),
        (b"\0\0\0\x18ftypheic", "picture"),
        (WAVE, "sound"),
        (b"ID3\4", "sound"),
        (b"\xff\xfb\x90\x00", "sound"),
        (b"\0\0\0\x18ftypM4A ", "sound"),
        (b"OggS", "sound"),
        (MP4, "film"),
        (b"\0\0\0\x14ftypqt  ", "film"),
        (b"RIFF\0\0\0\0AVI ", "film"),
        (b"\x1aE\xdf\xa3", "film"),
        ((b"G" + b"\0" * 187) * 3, "film"),
        (b"", ""),
        (b"RIFF", ""),
        (b"%PDF-1.7", ""),
        (b"<svg onload=", ""),
        (b"\xff\xfe\0", ""),
        (b"BMW keys", ""),
        (b"Good morning, " * 30, ""),
    ],
)
def test_what_a_file_is_tells_its_first_bytes_not_its_name(first: bytes, word: str) -> None:
    sort = sort_of(first[:FIRST_BYTES])
    assert (sort.word if sort else "") == word
