"""The bench card on the screens, one key from a task's sheet and from its checks, and on paper."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.plan.bench_card import KILLS, WRONG
from crewboard.terminal.dialogs.checks import ChecksDialog
from crewboard.terminal.screens.task_sheet import TaskSheetPage
from tests.terminal.shop import asked, make_shop, open_app, reads, seen, until

BAY = """
name = "Bay"
[tasks.pour]
title = "Pour the tar"
hazards = ["tar"]
"""
TAR = """
[tar]
name = "Hot tar"
harm = ["Tar burns."]
[tar.card]
kills = "Tar sticks and burns to the bone."
wear = ["face shield, gauntlets"]
check = ["{clear} clear of people"]
wrong = ["Water on it, leave it on the skin.", "Call for help."]
law = { GB = "A permit each day." }
[tar.checks.lid]
title = "lid beside the pot"
when = "before"
text = "The lid lies beside the pot."
[tar.numbers.clear]
value = 35
unit = "ft"
says = "{clear} are kept clear"
safe = "more"
[[tar.laws]]
where = "US"
says = "The kettle stands outside."
source = "a county's fire code"
"""


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    van = make_shop(tmp_path / "van", components={"bay": BAY})
    (van / "hazards.toml").write_text(TAR)
    vehicle = (van / "vehicle.toml").read_text()
    (van / "vehicle.toml").write_text(f'jurisdiction = "GB"\nunits = "imperial"\n{vehicle}')
    return van


async def test_a_key_shows_the_card_and_the_same_key_the_whole_sheet(van: Path) -> None:
    app = open_app(van)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Pour the tar")
        await pilot.press("slash", *"pour the", "enter", "enter")
        await until(pilot, lambda: isinstance(app.screen, TaskSheetPage))
        await pilot.press("g")
        await until(pilot, lambda: "Tar sticks" in asked(app))
        card = asked(app)
        for said in (KILLS, WRONG, "35 ft (11 m) clear of people", "2. Call for help.", "Law, GB"):
            assert said in card
        assert "kettle" not in card  # another's law stands on the whole sheet
        await pilot.press("g")
        await until(pilot, lambda: "The whole sheet" in asked(app))
        await pilot.press("end")
        await until(pilot, lambda: "Law elsewhere" in seen(app) and "US: The kettle" in seen(app))
        await pilot.press("escape", "c")
        await until(pilot, lambda: isinstance(app.screen, ChecksDialog))
        rows = app.screen.query("RowList").first()
        rows.go_to(rows.rows[-1].id)  # type: ignore[attr-defined]
        await pilot.press("g")
        await until(pilot, lambda: "Bench card" in asked(app))
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, ChecksDialog))


async def test_the_cards_are_printed_with_ctrl_p(van: Path) -> None:
    app = open_app(van)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+p")
        await until(pilot, lambda: "Print which sheet?" in seen(app))
        await pilot.press(*"bench", "enter")
        path = van.parent / "van-paper/cards-2026-05-02.html"
        await until(pilot, path.exists)
    page = path.read_text()
    assert "Tar sticks and burns to the bone." in page
    assert "A permit each day." in page
    assert "<script" not in page
