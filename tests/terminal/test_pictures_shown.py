"""Pictures on the screens: drawn in cells of the terminal, else handed to the desktop; whatever is
no picture of the folder is one sentence."""

from __future__ import annotations

import struct
import subprocess
import sys
import zlib
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from PIL import Image
from textual.pilot import Pilot

from crewboard.logbook.acts import Found, Pictured, SignIn, TookIn
from crewboard.terminal import desktop
from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.dialogs import pictures
from crewboard.terminal.picture_cells import MOST_DOTS, CannotDraw, drawn
from crewboard.terminal.widgets.rows import RowList
from crewboard.workbench import Said, Workbench
from tests.intake.a_camera import MP4, WAVE, png
from tests.terminal.shop import SATURDAY, asked, make_shop, open_app, reads, until

RIBS = '[pieces.ribs]\nname = "Rib"\ncount = 2\n'
SVG = b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"></svg>'
COLOUR = (90, 120, 90)


def shop_with(folder: Path, files: dict[str, bytes]) -> Path:
    """A shop with one finding on a rib that names the files, and a word on the first of them."""
    shop = make_shop(folder)
    with (shop / "components/frame.toml").open("a") as file:
        file.write(RIBS)
    for name, data in files.items():
        (shop / name).parent.mkdir(parents=True, exist_ok=True)
        (shop / name).write_bytes(data)
    found = Found("a split", piece="frame/ribs/1", pictures=tuple(files))
    first = Pictured(next(iter(files)), "before", ("frame/ribs/1",), words="the foot")
    bench = Workbench(shop)
    lines = [Said(act, SATURDAY) for act in (SignIn("ada"), found, first)]
    assert bench.record(lines, by="ada", now=SATURDAY).kept
    return shop


@pytest.fixture
def handed_over(monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """What the desktop was asked to open; nothing is really run."""
    calls: list[list[str]] = []
    monkeypatch.setenv("DISPLAY", ":0")
    monkeypatch.setattr(desktop, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(desktop, "run", lambda words, **_: calls.append(words))
    return calls


@pytest.fixture(autouse=True)
def colours(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("COLORTERM", "truecolor")


def cells(app: CrewboardApp) -> Iterator[tuple[int, int, int]]:
    """The colours in which half blocks stand on the screen."""
    for strip in app.screen._compositor.render_strips():
        for segment in strip:
            if "▄" in segment.text and segment.style and segment.style.color:
                triplet = segment.style.color.triplet
                if triplet:
                    yield from [tuple(triplet)] * segment.text.count("▄")  # type: ignore[misc]


async def to_findings(pilot: Pilot[int]) -> None:
    await pilot.press("0", "tab")
    await reads(pilot, "a split")
    app = pilot.app
    assert isinstance(app, CrewboardApp)
    record = app.workbench.logbook.record()
    found = next(entry for entry in record if isinstance(entry.act, Found))
    assert app.screen.query_one("#findings", RowList).go_to(found.id)
    await reads(pilot, "z shows them")
    await pilot.press("z")


async def test_a_finding_shows_its_picture_with_what_was_said_of_it(tmp_path: Path) -> None:
    app = open_app(shop_with(tmp_path / "van", {"pictures/a.png": png(colour=COLOUR, wide=10)}))
    async with app.run_test(size=(80, 24)) as pilot:
        await to_findings(pilot)
        # Ten wide, five lines of two dots each.
        await until(pilot, lambda: len(list(cells(app))) == 50)
        assert set(cells(app)) == {COLOUR}
        assert "before, Rib 1, the foot (Sat 2 May 2026, Ada Marsh)" in asked(app)
        await pilot.press("escape")
        await until(pilot, lambda: not asked(app))


async def test_they_are_shown_from_the_fabric_a_piece_a_task_and_while_they_are_sorted(
    tmp_path: Path,
) -> None:
    shop = shop_with(tmp_path / "van", {"pictures/a.png": png(colour=COLOUR, wide=10)})
    (shop / "pictures/new.png").write_bytes(png(colour=(200, 10, 10), wide=6))
    with (shop / "components/frame.toml").open("a") as file:
        file.write('[tasks.new]\ntitle = "Rib anew"\npieces = ["ribs/1"]\n')
    bench = Workbench(shop)
    assert bench.record([Said(TookIn("pictures/new.png"), SATURDAY)], by="ada", now=SATURDAY).kept
    app = open_app(shop)

    async def is_shown(name: str, colour: tuple[int, int, int]) -> None:
        await pilot.press("z")
        await until(pilot, lambda: set(cells(app)) == {colour})
        assert name in asked(app)
        await pilot.press("escape")
        await until(pilot, lambda: not asked(app))

    async with app.run_test(size=(80, 30)) as pilot:
        await pilot.press("z")
        await reads(pilot, "z shows it")
        await is_shown("pictures/new.png", (200, 10, 10))
        await pilot.press("escape", "0")
        await reads(pilot, "1 picture: z shows")
        await is_shown("pictures/a.png", COLOUR)
        await pilot.press("enter")
        await reads(pilot, "found on Rib 1: a split")
        await is_shown("pictures/a.png", COLOUR)
        await pilot.press("escape", "2", "slash", *"anew", "enter", "enter")
        await reads(pilot, "Rib anew")
        await is_shown("pictures/a.png", COLOUR)


async def test_each_of_several_is_gone_to_by_the_arrows_and_opened_by_enter(
    tmp_path: Path, handed_over: list[list[str]]
) -> None:
    files = {"pictures/-a b.png": png(colour=COLOUR), "recordings/walk.wav": WAVE}
    files |= {"pictures/c.svg": SVG, "pictures/d.pdf": b"%PDF-1.7\n", "recordings/e.mp4": MP4}
    app = open_app(shop_with(tmp_path / "van", files))
    why = {
        "recordings/walk.wav": "this is a sound, which no terminal shows; Enter opens it",
        "pictures/c.svg": "this is a drawing, which no terminal shows; Enter opens it",
        "pictures/d.pdf": "this is a paper, which no terminal shows; Enter opens it",
        "recordings/e.mp4": "this is a film, which no terminal shows; Enter opens it",
    }
    async with app.run_test(size=(80, 24)) as pilot:
        await to_findings(pilot)
        await until(pilot, lambda: list(cells(app)))
        for number, name in enumerate(files, 1):
            await until(pilot, lambda n=name, at=number: f"{n} ({at} of 5)" in asked(app))  # type: ignore[misc]
            assert why.get(name, "") in asked(app)
            await pilot.press("enter", "right")
        await pilot.press("right", "right", *["left"] * 9)
        await until(pilot, lambda: "(1 of 5)" in asked(app))
        await until(pilot, lambda: len(handed_over) == len(files))
    folder = (tmp_path / "van").resolve()
    assert sorted(handed_over) == sorted(["/usr/bin/xdg-open", str(folder / n)] for n in files)


async def test_what_is_no_picture_of_the_folder_is_one_sentence_and_never_handed_over(
    tmp_path: Path, handed_over: list[list[str]]
) -> None:
    names = ("link.jpg", "text.jpg", "huge.jpg", "run.sh", "gone.jpg")
    shop = shop_with(tmp_path / "van", {f"pictures/{name}": png() for name in names})
    (tmp_path / "secret.jpg").write_bytes(png())
    place = shop / "pictures"
    for name in ("link.jpg", "gone.jpg"):
        (place / name).unlink()
    (place / "link.jpg").symlink_to(tmp_path / "secret.jpg")
    (place / "text.jpg").write_text("#!/bin/sh")
    with (place / "huge.jpg").open("r+b") as file:
        file.truncate(500_000_000)
    day = shop / "days/2026/2026-05-02.toml"
    text = day.read_text().replace('"pictures/gone.jpg"]', '"pictures/gone.jpg", "http://a/b.jpg"]')
    day.write_text(text)
    sentences = [
        'the picture "pictures/link.jpg" is not inside the folder; write its path',
        '"pictures/text.jpg" is no picture; look what it is',
        '"pictures/huge.jpg" has 500 MB, too many to be shown; look at it with another',
        '"pictures/run.sh" is no picture by its name; look what it is',
        'there is no picture "pictures/gone.jpg"; write its path',
        'the picture "http://a/b.jpg" is not inside the folder; write its path',
    ]
    app = open_app(shop)
    async with app.run_test(size=(110, 30)) as pilot:
        await to_findings(pilot)
        for sentence in sentences:
            await until(pilot, lambda s=sentence: s in asked(app))  # type: ignore[misc]
            assert not list(cells(app))
            await pilot.press("enter", "right")
    assert handed_over == []


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"CREWBOARD_ASCII": "1"}, "this terminal has too few colours for a picture"),
        ({"COLORTERM": "", "TERM": "xterm"}, "this terminal has too few colours for a picture"),
        ({}, 'not installed here (pip install "crewboard[pictures]")'),
    ],
)
async def test_where_it_cannot_be_drawn_that_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, change: dict[str, str], why: str
) -> None:
    for name, value in change.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(pictures, "can_draw", lambda: bool(change))
    app = open_app(shop_with(tmp_path / "van", {"pictures/a.png": png()}))
    async with app.run_test(size=(110, 30)) as pilot:
        await to_findings(pilot)
        await until(pilot, lambda: why in asked(app))
        assert "there is no desktop here to open it on" in asked(app)
        assert not list(cells(app))
        await pilot.press("enter")
        await until(pilot, lambda: app.notice is not None)
        assert app.notice is not None
        assert app.notice.sentence == "there is no desktop here to open it on"


def chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def bomb(wide: int) -> bytes:
    """A few bytes that say they are a picture of that many dots a side."""
    head = struct.pack(">IIBBBBB", wide, wide, 8, 2, 0, 0, 0)
    dots = zlib.compress(b"\0" * 100_000)
    parts = chunk(b"IHDR", head) + chunk(b"IDAT", dots) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + parts


def test_a_picture_that_unpacks_to_too_much_is_not_unpacked(tmp_path: Path) -> None:
    path = tmp_path / "bomb.png"
    path.write_bytes(bomb(60_000))
    with pytest.raises(CannotDraw, match="3,600 million dots, too many to draw"):
        drawn(str(path), 70, 20)
    assert MOST_DOTS < 3_600_000_000


@pytest.mark.parametrize("kept", [0, 5, 20, 33, 60])
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "GIF", "WEBP", "BMP", "TIFF"])
def test_a_picture_that_is_cut_off_or_garbled_is_one_sentence(
    tmp_path: Path, kind: str, kept: int
) -> None:
    path = tmp_path / "picture"
    Image.linear_gradient("L").convert("RGB").save(path, kind)
    data = path.read_bytes()
    for damaged in (data[:kept], data[:kept] + bytes(reversed(data[kept:]))):
        path.write_bytes(damaged)
        with suppress(CannotDraw):  # some of it may be seen; nothing else is raised
            assert drawn(str(path), 20, 10)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA", "CMYK", "I;16", "F"])
def test_every_kind_of_dots_is_drawn(tmp_path: Path, mode: str) -> None:
    path = tmp_path / "picture.tif"
    Image.new(mode, (300, 200)).save(path, "TIFF" if mode != "P" else "PNG")
    assert drawn(str(path), 20, 10)


def test_a_picture_taken_with_the_camera_on_its_side_stands_upright(tmp_path: Path) -> None:
    path = tmp_path / "side.jpg"
    picture = Image.new("RGB", (400, 200), (250, 0, 0))
    about = Image.Exif()
    about[0x0112] = 6  # turn it a quarter to the right (Exif 2.3, tag Orientation)
    picture.save(path, exif=about)
    lines = str_of(drawn(str(path), 40, 20))
    assert (len(lines), len(lines[0])) == (20, 20)  # 40 dots high, 20 wide


def str_of(pixels: object) -> list[str]:
    text = "".join(segment.text for segment in pixels._segments.segments)  # type: ignore[attr-defined]
    return text.split()


def test_the_screens_start_without_what_draws_pictures(tmp_path: Path) -> None:
    shop = shop_with(tmp_path / "van", {"pictures/a.png": png()})
    program = (
        "import asyncio, sys\n"
        "from tests.terminal.shop import open_app\n"
        "from pathlib import Path\n"
        "async def main():\n"
        f"    app = open_app(Path({str(shop)!r}))\n"
        "    async with app.run_test(size=(80, 24)) as pilot:\n"
        "        await pilot.press('0', 'tab')\n"
        "asyncio.run(main())\n"
        "print(sorted({'PIL', 'rich_pixels'} & set(sys.modules)))"
    )
    house = Path(__file__).parents[2]
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, cwd=house)
    assert run.stdout.splitlines()[-1:] == ["[]"], run.stderr
