"""Printing from the screens, and the page that the screens keep on the wall."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.command.run import main
from tests.terminal.shop import asked, make_shop, open_app, seen, until


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    return make_shop(tmp_path / "van")


async def test_one_key_prints_the_sheet_that_belongs_to_the_page_and_says_where(van: Path) -> None:
    app = open_app(van)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+p")
        await until(pilot, lambda: "Print which sheet?" in seen(app))
        await pilot.press("enter")
        path = van.parent / "van-paper/morning-2026-05-02.html"
        await until(pilot, lambda: "morning-2026-05-02.html" in asked(app).replace(" ", ""))
        assert "Morning sheet" in path.read_text()
        await pilot.press("escape", "f4", "ctrl+p")
        await until(pilot, lambda: "Print which sheet?" in seen(app))
        await pilot.press("enter")
        tags = van.parent / "van-paper/tags-2026-05-02.html"
        await until(pilot, tags.exists)
    assert sorted(path.name for path in van.iterdir()) == [
        "components",
        "crew.toml",
        "vehicle.toml",
    ]


async def test_a_sheet_is_printed_anew_over_its_own_page_and_never_over_anything_else(
    van: Path,
) -> None:
    path = van.parent / "van-paper/morning-2026-05-02.html"
    path.parent.mkdir()
    path.write_text("my own notes")
    app = open_app(van)
    async with app.run_test(size=(80, 24)) as pilot:
        for _ in range(2):
            await pilot.press("ctrl+p")
            await until(pilot, lambda: "Print which sheet?" in seen(app))
            await pilot.press("enter")
            await until(pilot, lambda: "Print which sheet?" not in seen(app))
        assert path.read_text() == "my own notes"
        path.unlink()
        for _ in range(2):
            await pilot.press("ctrl+p")
            await until(pilot, lambda: "Print which sheet?" in seen(app))
            await pilot.press("enter")
            await until(pilot, lambda: "Written" in seen(app))
            await pilot.press("escape")
        assert "Morning sheet" in path.read_text()


async def test_the_screens_keep_the_wall_after_entries_made_here_and_elsewhere(van: Path) -> None:
    page = van.parent / "wall.html"
    app = open_app(van)
    app.keep_on_the_wall(str(page))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, page.exists)
        assert "nobody is signed in" in page.read_text()
        assert main(["sign-in", str(van), "ada", "--at", "2026-05-02T09:55"]) == 0
        app.look()
        assert "Ada Marsh" in page.read_text()
        page.write_text("somebody else's")
        assert main(["sign-in", str(van), "ben", "--at", "2026-05-02T09:56"]) == 0
        app.look()
        await until(pilot, lambda: app.notice is not None)
        assert "no page for the wall" in (app.notice.sentence if app.notice else "")
        assert page.read_text() == "somebody else's"
