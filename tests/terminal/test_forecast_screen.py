"""Forecast and day plan on the screen: played in the background, told as it goes, stopped."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import cast

import pytest
from textual.pilot import Pilot

from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.screens.day_plan import DayPlanPage
from crewboard.terminal.screens.forecast import ForecastPage
from crewboard.terminal.widgets.rows import RowList
from tests.terminal.shop import Watch, asked, make_shop, open_app, reads, seen, until

SAMPLE = Path(__file__).parents[2] / "sample_project"
MORNING = datetime(2026, 5, 2, 9, 0)


@pytest.fixture(autouse=True)
def _few_courses(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("crewboard.order.forecast.forecast.FIRST", 20)
    monkeypatch.setattr("crewboard.order.forecast.forecast.FEWEST", 20)
    monkeypatch.setattr(ForecastPage, "runs", 40)
    monkeypatch.setattr(ForecastPage, "ways", 10)
    monkeypatch.setattr(DayPlanPage, "effort", 0.0)


def _forecast(app: CrewboardApp) -> ForecastPage:
    return cast("ForecastPage", app.screen)


async def _played(pilot: Pilot[int], app: CrewboardApp) -> None:
    await until(pilot, lambda: isinstance(app.screen, ForecastPage), 30)
    await until(
        pilot, lambda: _forecast(app).forecast is not None and not _forecast(app).playing, 60
    )


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_the_forecast_shows_dates_and_what_sets_them(size: tuple[int, int]) -> None:
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=size) as pilot:
        await pilot.press("f8")
        await _played(pilot, app)
        text = await reads(
            pilot,
            *("with what ", "even chance (50 %)", "nearly sure (95 %)", "▼50", "─2027─"),
            *("The dates suppose", "ordered:", "What sets the date"),
        )
        assert all(len(line) <= size[0] for line in text.splitlines())
        found = _forecast(app).forecast
        assert found is not None
        assert found.runs == 40
        assert found.sooner


async def test_the_ruler_is_ascii_where_asked() -> None:
    app = open_app(SAMPLE, Watch(MORNING), plain=True)
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f8")
        await _played(pilot, app)
        assert seen(app).isascii()
        await reads(pilot, "-2027-", "v50")


async def test_the_dates_stand_while_what_would_help_is_still_tried(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(ForecastPage, "ways", 5_000)
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f8")
        await until(pilot, lambda: "─ what would help; Ctrl+R stops" in seen(app), 30)
        assert "even chance (50 %)" in seen(app)
        await pilot.press("ctrl+r")
        await _played(pilot, app)
        found = _forecast(app).forecast
        assert found is not None
        assert not found.stopped  # the dates are whole, only what would help is not
        await reads(pilot, "even chance (50 %)")


async def test_a_few_runs_give_dates_that_all_of_them_make_surer(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(ForecastPage, "runs", 100_000)
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f8")
        await until(pilot, lambda: "─ the trial runs; Ctrl+R stops" in seen(app), 30)
        assert "even chance (50 %)" in seen(app)
        await pilot.press("ctrl+r")
        await _played(pilot, app)
        found = _forecast(app).forecast
        assert found is not None
        assert 20 <= found.runs < found.asked == 100_000


async def test_playing_can_be_stopped_and_keeps_what_was_played(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(ForecastPage, "runs", 50_000)
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f8")
        await until(pilot, lambda: "runs; Ctrl+R stops" in seen(app), 30)
        assert "no work is left" not in seen(app)  # nobody knows that yet
        await pilot.press("ctrl+r")
        await _played(pilot, app)
        found = _forecast(app).forecast
        assert found is not None
        assert 0 < found.runs < 50_000
        assert found.stopped


async def test_a_key_shows_the_figures_behind_the_dates() -> None:
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f8")
        await _played(pilot, app)
        await pilot.press("w")
        await until(pilot, lambda: "The figures behind the dates" in asked(app), 30)
        assert "work left:" in asked(app)
        await pilot.press("enter")
        await until(pilot, lambda: not asked(app))
        await reads(pilot, "even chance (50 %)")


async def test_a_chosen_task_of_the_chain_opens_its_sheet() -> None:
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f8")
        await _played(pilot, app)
        rows = app.screen.query_one("#chain", RowList)
        rows.focus()
        title = app.board.plan.tasks[rows.at].title
        await pilot.press("enter")
        await until(pilot, lambda: type(app.screen).__name__ == "TaskSheetPage")
        await reads(pilot, title)


async def test_the_drawing_is_saved_and_never_over_a_file(tmp_path: Path) -> None:
    there = tmp_path / "old.svg"
    there.write_text("mine")
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f8")
        await _played(pilot, app)
        await pilot.press("o", "enter")
        await until(pilot, lambda: "Save the drawing" in asked(app))
        app.screen.query_one("Input").value = str(there)  # type: ignore[attr-defined]
        await pilot.press("enter")
        await until(pilot, lambda: "already" in asked(app))
        app.screen.query_one("Input").value = str(tmp_path / "new.svg")  # type: ignore[attr-defined]
        await pilot.press("enter")
        await until(pilot, lambda: (tmp_path / "new.svg").exists())
    assert there.read_text() == "mine"
    assert (tmp_path / "new.svg").read_text(encoding="utf-8").startswith("<?xml")


async def test_a_change_of_the_logbook_makes_the_forecast_old_and_a_key_plays_again(
    tmp_path: Path,
) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f8")
        await _played(pilot, app)
        await reads(pilot, "Too little is known")
        frame = tmp_path / "van/components/frame.toml"
        frame.write_text(frame.read_text().replace("[2, 4, 8]", "[20, 40, 80]"))
        app.look()
        await reads(pilot, "has changed: Ctrl+R runs anew")
        await pilot.press("ctrl+r")
        await _played(pilot, app)
        await until(pilot, lambda: "has changed" not in seen(app))


def _plan(app: CrewboardApp) -> DayPlanPage:
    return cast("DayPlanPage", app.screen)


async def _planned(pilot: Pilot[int], app: CrewboardApp) -> None:
    await until(pilot, lambda: isinstance(app.screen, DayPlanPage), 30)
    await until(pilot, lambda: _plan(app).plan is not None and not _plan(app).planning, 30)


@pytest.mark.parametrize("size", [(60, 16), (80, 24), (120, 40)])
async def test_the_day_plan_says_who_does_what_and_when(size: tuple[int, int]) -> None:
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=size) as pilot:
        await pilot.press("f9")
        await _planned(pilot, app)
        text = await reads(pilot, "Mirela", "until", "A proposal: the lead")
        assert all(len(line) <= size[0] for line in text.splitlines())
        page = _plan(app)
        assert page.plan is not None
        rows = page.query_one(RowList)
        assert [row.id for row in rows.rows[1:3]] == ["person:mirela", "person:henrik"]
        assert rows.go_to(page.plan.placed[0].task)
        await reads(pilot, "09:00 - ")


async def test_what_the_lead_fixes_and_leaves_out_is_kept_to() -> None:
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f9")
        await _planned(pilot, app)
        page = _plan(app)
        assert page.plan is not None
        first = page.plan.placed[0]
        assert page.chosen == ""  # a person's line, to be read out
        page.query_one(RowList).go_to(first.task)
        assert page.chosen == first.task
        await pilot.press("space")
        await _planned(pilot, app)
        await reads(pilot, "fixed")
        again = next(each for each in page.plan.placed if each.task == first.task)
        assert set(again.people) >= set(first.people)
        assert again.start == first.start
        await pilot.press("delete")
        await _planned(pilot, app)
        await reads(pilot, "Left out by the lead")
        assert first.task not in {each.task for each in page.plan.placed}
        await pilot.press("o", *"before", "enter")
        await _planned(pilot, app)
        await until(pilot, lambda: "Left out by the lead" not in seen(app))


async def test_the_people_to_plan_for_can_be_picked() -> None:
    app = open_app(SAMPLE, Watch(MORNING))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f9")
        await _planned(pilot, app)
        before = _plan(app).plan
        assert before is not None
        await pilot.press("o", "enter")
        await until(pilot, lambda: "For whom to plan" in asked(app))
        await pilot.press("space", "enter")  # Mirela, who is here and stands first, is taken out
        await until(pilot, lambda: not asked(app))
        await _planned(pilot, app)
        await until(pilot, lambda: _plan(app).plan is not before)
        after = _plan(app).plan
        assert after is not None
        assert "mirela" not in after.people
        assert len(after.people) == len(before.people) - 1


async def test_names_with_markup_are_shown_as_typed(tmp_path: Path) -> None:
    text = (
        'name = "Odd"\n[tasks.odd]\ntitle = "[M8] [/] [@click=app.quit]x[/]"\nhours = [1, 2, 3]\n'
    )
    app = open_app(make_shop(tmp_path / "van", components={"odd": text}))
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f9")
        await _planned(pilot, app)
        assert "[M8] [/] [@click=app.quit]x[/]" in seen(app)
        await pilot.press("f8")
        await _played(pilot, app)
        assert "[M8] [/]" in seen(app)
