"""Every page of the board on the sample project, small and wide, in colour and in ASCII."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.screens import PAGES
from tests.terminal.shop import VEHICLE, Watch, asked, make_shop, open_app, reads, seen, until

SAMPLE = Path(__file__).parents[2] / "sample_project"
MORNING = datetime(2026, 5, 2, 9, 0)
SIZES = [(60, 16), (80, 24), (120, 40)]


def _is_open(app: CrewboardApp, word: str) -> Callable[[], bool]:
    return lambda: getattr(app.screen, "word", "") == word


@pytest.mark.parametrize("size", SIZES)
async def test_every_page_opens_with_its_key_and_has_a_help_of_its_own(
    size: tuple[int, int],
) -> None:
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=size) as pilot:
        for page in PAGES:
            await pilot.press(page.key)
            await until(pilot, _is_open(app, page.word))
            text = await reads(pilot, "Marigold")
            assert all(len(line) <= size[0] for line in text.splitlines())
            await pilot.press("f1")
            await reads(pilot, f"{page.word}: help")
            await pilot.press("escape")
            await until(pilot, lambda: not asked(app))


async def test_a_window_that_is_too_small_says_so_and_nothing_is_lost() -> None:
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "e")
        await reads(pilot, "Edit:")
        await pilot.press("x")
        await pilot.resize_terminal(30, 8)
        await reads(pilot, "Window too small")
        await pilot.resize_terminal(80, 24)
        await reads(pilot, "Edit:")
        assert re.search(r"name +▌.*x", seen(app)), "what was typed stands"


HOSTILE = "[@click=app.quit]x[/] [M8] \\u001b[31m \\u202E日本"
SHOWN = "[@click=app.quit]x[/] [M8] ␛[31m <U+202E>日本"


def hostile_folder(root: Path) -> Path:
    """A folder in which every text a person can write would steer a screen that let it."""
    folder = make_shop(root / "van")
    (folder / "vehicle.toml").write_text(VEHICLE.replace("The market van", HOSTILE))
    (folder / "crew.toml").write_text(f'[people.ada]\nname = "{HOSTILE}"\nskills = ["{HOSTILE}"]\n')
    (folder / "supplies.toml").write_text(f'[supplies.a]\nname = "{HOSTILE}"\nnote = "{HOSTILE}"\n')
    (folder / "components/frame.toml").write_text(
        f'name = "{HOSTILE}"\nabout = "{HOSTILE}"\n[tasks.a]\ntitle = "{HOSTILE}"\n'
        f'method = "{HOSTILE}"\nplace = "{HOSTILE}"\nhold = {{ kind = "glue", lasts = "2 days",'
        f' note = "{HOSTILE}", source = "{HOSTILE}" }}\n'
    )
    day = folder / "days/2026/2026-05-02.toml"
    day.parent.mkdir(parents=True)
    day.write_text(
        "date = 2026-05-02\n\n[entries]\n"
        'aaaaaaaa = { at = 2026-05-02T09:00:00, by = "ada", kind = "finished", task = "frame/a" }\n'
        f'bbbbbbbb = {{ at = 2026-05-02T09:10:00, kind = "note", text = "{HOSTILE}" }}\n'
        f'cccccccc = {{ at = 2026-05-02T09:20:00, kind = "sign-in", who = "{HOSTILE}" }}\n',
        encoding="utf-8",
    )
    return folder


@pytest.mark.parametrize("keys", ["f3", "f3 e", "f4 enter", "f5 e", "f5 enter", "f6", "f7", "f7 e"])
async def test_texts_that_would_steer_a_screen_are_shown_as_they_were_typed(
    tmp_path: Path, keys: str
) -> None:
    app = open_app(hostile_folder(tmp_path), Watch(datetime(2026, 5, 2, 10)))
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press(*keys.split())
        text = await reads(pilot, SHOWN)
        assert not any(mark in text for mark in ("\x1b", "\u202e"))
        assert app.is_running
