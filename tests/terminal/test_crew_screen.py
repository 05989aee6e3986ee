"""The crew on the screen: here or not, hours, papers that lapse; people edited in place."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.logbook.acts import HoursWorked
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import (
    CREW,
    SATURDAY,
    asked,
    day_file,
    make_shop,
    open_app,
    reads,
    seen,
    until,
)

SIZES = [(80, 24), (120, 40)]
PAPERS = CREW.replace(
    '{ "hot work" = 2027-01-31 }',
    '{ "hot work" = 2026-04-30, "first aid" = 2026-05-30, lifting = true } # ask Ben',
)


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    shop = make_shop(tmp_path / "van")
    (shop / "crew.toml").write_text(PAPERS)
    bench = Workbench(shop)
    for at, hours in ((datetime(2025, 11, 1, 15), 4), (datetime(2026, 3, 7, 15), 2.5)):
        act = HoursWorked("ada", hours, "frame/scrape")
        assert bench.record([Said(act, at)], by="ada", now=at).kept
    act = HoursWorked("ada", 1, "frame/weld")
    assert bench.record([Said(act, SATURDAY)], by="ada", now=SATURDAY).kept
    return shop


async def typed(pilot: Pilot[int], text: str) -> None:
    keys = {" ": "space", "-": "minus"}
    await pilot.press(*(keys.get(letter, letter) for letter in text))


def crew(shop: Path) -> str:
    return (shop / "crew.toml").read_text()


@pytest.mark.parametrize("size", SIZES)
async def test_hours_of_month_year_and_all_stand_beside_each_name(
    shop: Path, size: tuple[int, int]
) -> None:
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        await pilot.press("f5")
        lines = (await reads(pilot, "month", "year", "in all")).splitlines()
        (ada,) = [line for line in lines if "Ada Marsh (lead)" in line]
        assert ada.split()[ada.split().index("(lead)") + 1 :][:6] == [
            "1",
            "h",
            "3.5",
            "h",
            "7.5",
            "h",
        ]
        assert any("LAPSED: hot work, was good until Thu 30 Apr 2026" in line for line in lines)
        assert any("lapses soon: first aid, good until Sat 30 May 2026" in line for line in lines)
        assert any("Cleo Rand (under 18)" in line for line in lines)


async def test_a_person_of_the_crew_is_signed_in_and_out_from_the_list_with_their_name(
    shop: Path,
) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f5", "down", "i")
        await reads(pilot, "Sign in and out", "▸[ ] Ben Holt")
        await pilot.press("space", "enter")
        await reads(pilot, "Here (1)", "since 10:00")
        await pilot.press("i")
        await reads(pilot, "▸[x] Ben Holt")
        await pilot.press("enter")  # a key that slipped signs nobody out
        await reads(pilot, "Here (1)")
        await pilot.press("i", "space", "enter")
        await reads(pilot, "Was here today (1)", "out 10:00")
        await until(pilot, lambda: "Here (1)" not in seen(app))
    assert 'kind = "sign-in", who = "ben"' in day_file(shop)
    assert 'kind = "sign-out", who = "ben"' in day_file(shop)


@pytest.mark.parametrize("size", SIZES)
async def test_the_persons_sheet_tells_papers_days_and_hours_by_month_and_task(
    shop: Path, size: tuple[int, int]
) -> None:
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        await pilot.press("f5", "enter")
        await reads(pilot, "LAPSED: hot work", "lapses soon: first aid", "look at it: lifting")
        await reads(pilot, "Next work days", "Sat 2 May 2026")
        await pilot.press("end")
        text = await reads(pilot, "Hours by task", "Scrape the frame", "Weld the bracket")
        assert "2026-03" in text
        assert "2.5 h" in text


async def test_a_person_is_added_and_edited_and_comments_stay(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f5", "a")
        await reads(pilot, "A new person")
        await typed(pilot, "Zoe Fenwick")
        await pilot.press("tab", "enter")
        await reads(pilot, "another skill")
        await typed(pilot, "joinery")
        await pilot.press("space", "enter", "ctrl+s")
        await reads(pilot, "say whether they are 18 or older")
        await pilot.press("tab", "tab", "space", "ctrl+s")
        await reads(pilot, "Zoe Fenwick")
        added = '\n[people.zoe]\nname = "Zoe Fenwick"\nskills = ["joinery"]\nadult = true\n'
        assert crew(shop) == PAPERS + added
        await pilot.press("e")
        await reads(pilot, "Edit: Zoe Fenwick")
        await pilot.press("tab", "tab", "space", "ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert crew(shop).endswith('skills = ["joinery"]\nadult = true\nlead = true\n')
    assert "# who we are\n" in crew(shop)


async def test_a_certificate_is_renewed_where_it_stands(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f5", "enter", "a")
        await reads(pilot, "Certificate: Ada Marsh")
        await pilot.press("enter")
        await reads(pilot, "another certificate")
        await typed(pilot, "hot")
        await pilot.press("space", "enter", "tab")
        await typed(pilot, "2027-04-30")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "LAPSED" not in seen(app))
    assert '"hot work" = 2027-04-30, "first aid" = 2026-05-30, lifting = true } # ask Ben' in crew(
        shop
    )


async def test_somebody_in_the_logbook_cannot_be_taken_out_but_has_a_day_they_left(
    shop: Path,
) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f5", "delete")
        await reads(pilot, "the logbook names", "write the day they left instead")
        await pilot.press("escape")
        await until(pilot, lambda: not asked(app))
    assert crew(shop) == PAPERS
