"""A plan of the day taken over with one key: the Work day shows it, begin offers its people."""

from __future__ import annotations

import re
from datetime import datetime
from pathlib import Path
from shutil import copytree
from typing import cast

import pytest

from crewboard.logbook.acts import SignIn
from crewboard.terminal.screens.day_plan import DayPlanPage
from tests.terminal.shop import Watch, asked, day_file, make_shop, open_app, reads, seen, until

SAMPLE = Path(__file__).parents[2] / "sample_project"


@pytest.fixture
def van(tmp_path: Path) -> Path:
    van = make_shop(tmp_path / "van")
    (van / "days/2026").mkdir(parents=True)
    here = 'kind = "sign-in", who'
    (van / "days/2026/2026-05-02.toml").write_text(
        "date = 2026-05-02\n\n[entries]\n"
        f'aaaaaaaa = {{ at = 2026-05-02T09:00:00, {here} = "ada" }}\n'
        f'bbbbbbbb = {{ at = 2026-05-02T09:00:00, {here} = "ben" }}\n'
    )
    return van


async def test_one_key_takes_it_over_and_one_takes_it_back(van: Path) -> None:
    app = open_app(van, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f9")
        await reads(pilot, "scrape the frame", "A proposal: the lead decides", "take over")
        assert "planned" not in day_file(van)
        await pilot.press("ctrl+s")
        await reads(pilot, "The day runs by the plan taken over at 10:00 by Ada Marsh")
        assert 'kind = "planned"' in day_file(van)
        await pilot.press("f2")
        await reads(pilot, "By the plan now:", "Scrape the frame")
        await pilot.press("b")
        await until(pilot, lambda: "who is planned for it" in asked(app))
        await pilot.press("escape", "u")
        await until(pilot, lambda: "By the plan now:" not in seen(app))


async def test_begin_marks_who_is_planned_and_here_and_begins_with_them(van: Path) -> None:
    app = open_app(van, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f9")
        await reads(pilot, "scrape the frame")
        await pilot.press("ctrl+s")
        await reads(pilot, "The day runs by")
        page = cast("DayPlanPage", app.screen)
        assert page.plan is not None
        people = next(p.people for p in page.plan.placed if p.task == "frame/scrape")
        await pilot.press("f2")
        await reads(pilot, "By the plan now:")
        await pilot.press("b")
        await until(pilot, lambda: "who is planned for it" in asked(app))
        assert tuple(app.screen.marked) == tuple(w for w in ("ada", "ben") if w in people)  # type: ignore[attr-defined]
        await pilot.press("enter")
        await until(pilot, lambda: 'kind = "begun"' in day_file(van))
        # What is so is not said to be begun any more.
        await until(pilot, lambda: "Scrape the frame (" not in seen(app))


async def test_who_comes_late_changes_the_plan_by_name_and_it_is_taken_over_again(
    van: Path,
) -> None:
    # More to do than Ada and Ben get done: with nothing for Dov the plan would stay as it is.
    with (van / "components/frame.toml").open("a") as frame:
        frame.write('\n[tasks.sand]\ntitle = "Sand the frame"\nhours = [12, 14, 16]\n')
    watch = Watch()
    app = open_app(van, watch, by="ada")
    async with app.run_test(size=(110, 36)) as pilot:
        await pilot.press("f9")
        await reads(pilot, "scrape the frame")
        await pilot.press("ctrl+s")
        await reads(pilot, "The day runs by")

        app.record([SignIn("dov")])
        await reads(pilot, "Otherwise than in the plan of 10:00", "Dov")
        await reads(pilot, "This is another one: a")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "Otherwise than" not in seen(app))
        await reads(pilot, "The day runs by")
        assert day_file(van).count('"2 10:00 ada"') >= 1


async def test_the_plan_is_given_up_by_name(van: Path) -> None:
    app = open_app(van, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f9")
        await reads(pilot, "scrape the frame")
        await pilot.press("ctrl+s")
        await reads(pilot, "The day runs by")
        await pilot.press("o", *"give up", "enter")
        await reads(pilot, "A proposal: the lead decides")


async def test_where_nothing_could_be_placed_nothing_is_taken_over(tmp_path: Path) -> None:
    van = make_shop(tmp_path / "van")
    app = open_app(van, Watch(), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f9")
        await until(pilot, lambda: getattr(app.screen, "plan", None) is not None)
        page = cast("DayPlanPage", app.screen)
        assert page.plan is not None
        page.plan = page.plan._replace(placed=())
        await pilot.press("ctrl+s")
        await reads(pilot, "nothing could be placed")
        assert day_file(van) == ""


async def test_the_first_screen_has_room_for_the_plan_beside_all_that_must_be_seen(
    tmp_path: Path,
) -> None:
    # The sample in a window of 80 by 24: nothing of LEAVE ALONE goes, five of what is ready stay.
    copytree(SAMPLE, tmp_path / "bus")
    app = open_app(tmp_path / "bus", Watch(datetime(2026, 5, 2, 9)), by="mirela")
    async with app.run_test(size=(80, 24)) as pilot:
        before = seen(app).splitlines()
        await pilot.press("f9")
        await reads(pilot, "A proposal: the lead decides")
        await pilot.press("ctrl+s")
        await reads(pilot, "The day runs by")
        await pilot.press("f2")
        await reads(pilot, "By the plan now:", "Next:")
        after = seen(app).splitlines()
        alone = next(place for place, line in enumerate(before) if "LEAVE ALONE" in line)
        assert after[alone : alone + 2] == before[alone : alone + 2]
        ready = [line for line in after if re.search(r"(ready|begun) \d+\. ", line)]
        assert len(ready) >= 5
        assert any(" now " in line for line in ready)
