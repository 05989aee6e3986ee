"""Several tasks taken at once: the pieces of a series, and whatever is marked."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.logbook.acts import Begun, Finished, SignIn
from crewboard.terminal.widgets.rows import RowList
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import (
    CREW,
    SATURDAY,
    VEHICLE,
    asked,
    day_file,
    open_app,
    reads,
    seen,
    until,
)

WINDOWS = """\
name = "Windows"
[pieces.lights]
name = "Light"
count = 6
spares = 1
[tasks.glaze]
title = "Glaze the sashes"
each = ["lights"]
hours = [1, 2, 3]
hold = { kind = "dry", lasts = "2 days" }
[tasks.wash]
title = "Wash the glass"
after = ["glaze"]
"""
NINE = datetime(2026, 5, 2, 9)


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """Six windows, and Ada and Ben in the shop."""
    root = tmp_path / "van"
    (root / "components").mkdir(parents=True)
    (root / "vehicle.toml").write_text(VEHICLE)
    (root / "crew.toml").write_text(CREW)
    (root / "components/windows.toml").write_text(WINDOWS)
    said(root, SignIn("ada"), SignIn("ben"))
    return root


def said(root: Path, *acts: object) -> None:
    lines = [Said(act, NINE) for act in acts]  # type: ignore[arg-type]
    outcome = Workbench(root).record(lines, by="ada", now=NINE)
    assert outcome.kept, outcome.refused


def glaze(*numbers: int) -> list[str]:
    return [f"windows/glaze/lights/{number}" for number in numbers]


def all_begun(root: Path) -> None:
    said(root, *(Begun(task, ("ada", "ben")) for task in glaze(1, 2, 3, 4, 5, 6)))


def finished(root: Path) -> list[int]:
    return list(_numbers(root, '"finished"'))


def _numbers(root: Path, word: str) -> Iterator[int]:
    for line in day_file(root).splitlines():
        if word in line and "glaze/lights/" in line:
            yield int(line.partition("glaze/lights/")[2][0])


async def pressed(pilot: Pilot[int], *keys: str) -> int:
    await pilot.press(*keys)
    return len(keys)


async def test_three_of_six_windows_are_finished_at_once_in_under_12_keys(shop: Path) -> None:
    all_begun(shop)
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        keys = await pressed(pilot, "f3", "right", "down")  # to the row of the series
        await reads(pilot, "+ Glaze the sashes", "0 of 6")
        keys += await pressed(pilot, "f")
        await reads(pilot, "Finish which pieces? Glaze the sashes")
        keys += await pressed(pilot, "space", "down", "space", "down", "space", "enter")
        await reads(pilot, 'Finish: "Glaze the sashes: Lights 1-3', "drying, 2 days")
        keys += await pressed(pilot, "enter")
        await reads(pilot, 'finished: "Glaze the sashes: Lights 1-3', "3 of 6")
        assert keys < 12
    assert finished(shop) == [1, 2, 3]


async def test_three_windows_marked_on_the_work_day_are_finished_in_under_12_keys(
    shop: Path,
) -> None:
    all_begun(shop)
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Glaze the sashes")
        rows = app.screen.query_one(RowList)
        keys = await pressed(
            pilot, "down"
        )  # past the last light that they began, which they are on
        if len(rows.row.tasks if rows.row else ()) > 1:  # folded there too
            keys += await pressed(pilot, "f")
            await reads(pilot, "Finish which pieces? Glaze the sashes")
            keys += await pressed(pilot, "space", "down", "space", "down", "space", "enter")
        else:
            keys += await pressed(pilot, "space", "down", "space", "down", "space")
            await reads(pilot, "3 tasks marked")
            keys += await pressed(pilot, "f")
        await reads(pilot, 'Finish: "Glaze the sashes')
        keys += await pressed(pilot, "enter")
        await reads(pilot, 'finished: "Glaze the sashes')
        assert keys < 12
        assert not app.screen.query_one(RowList).marks
    assert len(finished(shop)) == 3


async def test_space_on_a_folded_series_marks_all_that_can_be_worked_on(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "space")
        await reads(pilot, "6 tasks marked")
        assert app.screen.query_one(RowList).marks == tuple(glaze(1, 2, 3, 4, 5, 6))
        await pilot.press("b")
        await reads(pilot, 'Who works on "Glaze the sashes: Lights 1-6"?')
        await pilot.press("space", "down", "space", "enter")
        await reads(pilot, 'begun: "Glaze the sashes: Lights 1-6", Ada Marsh and Ben Holt')
        assert [app.board[task].crew for task in glaze(1, 6)] == [("ada", "ben")] * 2
        assert not app.screen.query_one(RowList).marks
        assert "[x]" not in seen(app)


async def test_marks_stand_in_boxes_and_escape_takes_them_away(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "right", "down", "down", "space")
        text = await reads(pilot, "[x]", "1 task marked")
        assert "[-]" in text  # the series: some of it
        await pilot.press("escape")
        await until(pilot, lambda: "[x]" not in seen(app))
        assert app.page_name == "vehicle"


async def test_one_note_and_one_reason_are_written_on_every_marked_task(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "right", "down", "space", "down", "space", "n")
        await reads(pilot, 'the task "Glaze the sashes: Lights 1 and 2"')
        await pilot.press(*"dry", "enter")
        await reads(pilot, "noted")
        assert list(_numbers(shop, '"note"')) == [1, 2]
        await pilot.press("space", "up", "space", "o")
        await reads(pilot, "set aside", "a piece failed")
        await pilot.press(*"aside", "enter")
        await reads(pilot, 'Set aside: "Glaze the sashes: Lights 1 and 2')
        await pilot.press(*"late", "enter")
        await reads(pilot, 'set aside: "Glaze the sashes: Lights 1 and 2', "0 of 4")


async def test_hours_on_several_pieces_are_divided_equally(shop: Path) -> None:
    all_begun(shop)
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "h")
        await reads(pilot, "Hours on which pieces?")
        await pilot.press("space", "down", "space", "down", "space", "enter")
        await reads(pilot, 'Hours: "Glaze the sashes: Lights 1-3', "Ada Marsh, Ben Holt")
        await pilot.press("down", "5", "ctrl+s")
        await reads(pilot, "hours saved")
    board = Workbench(shop).board(SATURDAY)
    assert [board[task].hours for task in glaze(1, 2, 3, 4)] == [3.34, 3.34, 3.32, 0]


async def test_of_several_tasks_none_is_written_where_one_is_refused(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "right", "down", "space")
        app.screen.query_one(RowList).go_to("windows/wash")
        await pilot.press("space", "b")
        await reads(pilot, "Who works on 2 tasks?")
        await pilot.press("space", "enter")
        await until(pilot, lambda: '"Wash the glass" cannot begin yet' in asked(app))
        await pilot.press("escape")
        await reads(pilot, "[x]")  # still marked
    assert not list(_numbers(shop, '"begun"'))


async def test_an_arch_fails_and_a_spare_takes_its_place_from_the_row_of_the_piece(
    shop: Path,
) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "right", "down", "down", "o")
        await reads(pilot, "a piece failed", "a spare takes a place")
        await pilot.press(*"failed", "enter")
        await reads(pilot, "Failed: Light 2", "made anew")
        await pilot.press(*"cracked", "ctrl+s")
        await reads(pilot, "failed: Light 2")
        assert app.board[glaze(2)[0]].aside == "Light 2 failed: cracked"
        await pilot.press("o", *"spare", "enter")
        await reads(pilot, "Takes the place of Light 2", "Light 7")
        await pilot.press("enter")
        await reads(pilot, "Instead of Light 2")
        await pilot.press("enter")
        await reads(pilot, "Light 7 takes the place of Light 2")
        assert app.board[glaze(7)[0]].state == "ready"
        assert app.board.progress("windows/glaze") == (0, 6)


async def test_a_piece_that_failed_is_made_anew_from_the_row_of_its_series(shop: Path) -> None:
    all_begun(shop)
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "right", "down", "o", *"failed", "enter")
        await reads(pilot, "Failed: which pieces? Glaze the sashes")
        await pilot.press("down", "enter")
        await reads(pilot, "Failed: Light 2")
        await pilot.press(*"cracked", "down", "space", "ctrl+s")
        await reads(pilot, "failed: Light 2")
        assert app.board[glaze(2)[0]].state == "ready"
        assert app.board[glaze(3)[0]].state == "under way"


async def test_holds_of_several_lights_are_one_row_and_released_together(shop: Path) -> None:
    all_begun(shop)
    said(shop, *(Finished(task) for task in glaze(1, 2, 3)))
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4")
        text = await reads(pilot, "Glaze the sashes: Lights 1-3", "On hold (3)")
        assert text.count("drying since") == 1
        await pilot.press("v")
        await reads(pilot, 'Which? "Glaze the sashes: Lights 1-3"', "Light 2")
        await pilot.press("space", "down", "space", "enter")
        await reads(pilot, 'Release: "Glaze the sashes: Lights 1 and 2', "why it is released early")
        await pilot.press(*"dry", "enter")
        await reads(pilot, 'released: "Glaze the sashes: Lights 1 and 2')
        held = [hold.task for hold in app.board.stopping()]
        assert held == glaze(3)
