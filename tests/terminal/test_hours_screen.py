"""The hours of a whole crew, typed without the mouse."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from crewboard.logbook.acts import Begun, SignIn
from crewboard.terminal.hours_of_day import HoursOfDay
from crewboard.terminal.screens.hours import HoursPage
from crewboard.terminal.widgets.hours_table import HoursTable, letter
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import (
    PEOPLE,
    SATURDAY,
    Watch,
    day_file,
    make_shop,
    many_tasks,
    open_app,
    reads,
    seen,
    types,
    until,
)

TASKS = [f"panels/t{n}" for n in range(1, 13)]


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """Ten people here since nine, twelve tasks under way."""
    root = make_shop(tmp_path / "van", components={"panels": many_tasks(12)})
    nine = SATURDAY.replace(hour=9)
    said = [Said(SignIn(who), nine) for who in PEOPLE]
    said += [Said(Begun(task), nine) for task in TASKS]
    assert Workbench(root).record(said, by="", now=nine).kept
    return root


_KEYS = {",": "comma"}
AFTERNOON = SATURDAY.replace(hour=15, minute=45)


def hours_of(row: int, column: int) -> float:
    """What the test types: quarters of an hour, six and a half at most for a person."""
    return ((row + 2 * column) % 3) * 0.25


async def test_a_day_of_ten_people_and_twelve_tasks_is_typed_closed_and_opened_again(
    shop: Path,
) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    keys = 0
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        text = await reads(pilot, "A Panel 1", "L Panel 12", "Ada Marsh")
        assert all(letter(n) in text.splitlines()[1] for n in range(12))
        for row in range(10):
            for column in range(12):
                hours = hours_of(row, column)
                typed = f"{hours:g}".replace(".", ",") if hours else ""
                types(app, *(_KEYS.get(letter, letter) for letter in typed), "tab")
                keys += len(typed) + 1
        await until(pilot, lambda: "80 cells to write: s saves" in seen(app), 20)
        await pilot.press("s")
        await until(pilot, lambda: not isinstance(app.screen, HoursPage))
        keys += 2
        await reads(pilot, "hours kept: 80 lines")
    assert keys < 450  # well below a minute at eight keys a second
    assert day_file(shop).count('kind = "hours"') == 80

    bench = Workbench(shop)
    board = bench.board(AFTERNOON)
    book = HoursOfDay(board, AFTERNOON.date())
    for row, who in enumerate(PEOPLE):
        for column, task in enumerate(TASKS):
            assert book.logged((who, task)) == hours_of(row, column)
    for column, task in enumerate(TASKS):
        assert board[task].hours == pytest.approx(sum(hours_of(row, column) for row in range(10)))

    again = open_app(shop, Watch(AFTERNOON))
    async with again.run_test(size=(120, 40)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "as in the logbook")
        table = again.screen.query_one(HoursTable)
        assert {c: h for c, h in table.hours.items() if h} == {
            (who, task): hours_of(row, column)
            for row, who in enumerate(PEOPLE)
            for column, task in enumerate(TASKS)
            if hours_of(row, column)
        }


def test_the_command_line_says_the_same_of_the_day(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    from crewboard.__main__ import main

    typed = {
        (who, task): hours_of(row, column)
        for row, who in enumerate(PEOPLE)
        for column, task in enumerate(TASKS)
    }
    bench = Workbench(shop)
    said = HoursOfDay(bench.board(AFTERNOON), AFTERNOON.date()).said(dict(typed), AFTERNOON)
    assert bench.record(said, by="", now=AFTERNOON).kept
    code = main(["day", str(shop), "--at", AFTERNOON.isoformat(), "--json"])
    assert code == 0
    told = json.loads(capsys.readouterr().out)
    hours = {task["id"]: task["hours"] for task in told["tasks"] if task["id"] in TASKS}
    expected = {
        task: pytest.approx(sum(hours_of(row, column) for row in range(10)))
        for column, task in enumerate(TASKS)
    }
    assert hours == expected


async def test_enter_goes_down_the_crew_and_on_to_the_next_task(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "A Panel 1")
        for _ in range(11):
            await pilot.press("1", "enter")
        table = app.screen.query_one(HoursTable)
        await until(pilot, lambda: table.hours[("ada", TASKS[1])] == 1.0)
        assert table.cell == ("ben", TASKS[1])
        assert all(table.hours[(who, TASKS[0])] == 1.0 for who in PEOPLE)


async def test_what_is_no_number_is_shown_and_nothing_is_saved(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "A Panel 1")
        await pilot.press("1", ".", ".", "2", "tab")
        await reads(pilot, '"1..2" is no number of hours')
        await pilot.press("s")
        await reads(pilot, "mend what is no number of hours first")
        assert 'kind = "hours"' not in day_file(shop)
        await pilot.press("left", "delete", "2", "s")
        await until(pilot, lambda: 'kind = "hours"' in day_file(shop))


async def test_leaving_with_hours_not_written_is_asked_first(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "A Panel 1")
        await pilot.press("3", "escape")
        await reads(pilot, "1 cell typed and not written")
        await pilot.press("n")
        await until(pilot, lambda: isinstance(app.screen, HoursPage))
        await pilot.press("q")
        await reads(pilot, "1 cell typed and not written")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, HoursPage))
        assert app.screen.query_one(HoursTable).hours[("ada", TASKS[0])] == 3.0


async def test_hours_that_do_not_fit_the_day_are_asked_and_still_kept(shop: Path) -> None:
    app = open_app(shop, Watch(SATURDAY.replace(hour=11)))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "A Panel 1")
        await pilot.press("7", "tab")
        await reads(pilot, "Ada Marsh: 7 h, but here for 2 h; is that right?", "7?")
        await pilot.press("s")
        await until(pilot, lambda: "hours = 7" in day_file(shop))


async def test_a_column_is_added_by_a_few_letters(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "A Panel 1")
        await pilot.press("a")
        await reads(pilot, "Add a column for which task?")
        await pilot.press(*"scrape", "enter")
        await reads(pilot, "M Scrape the frame")
        await pilot.press("2", "s")
        await until(pilot, lambda: 'task = "frame/scrape"' in day_file(shop))


async def test_what_is_typed_stays_when_somebody_else_writes_meanwhile(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "A Panel 1")
        await pilot.press("3", "tab")
        other = Workbench(shop)
        typed = {("ben", TASKS[0]): 2.0}
        said = HoursOfDay(other.board(AFTERNOON), AFTERNOON.date()).said(dict(typed), AFTERNOON)
        assert other.record(said, by="", now=AFTERNOON).kept
        table = app.screen.query_one(HoursTable)
        await until(pilot, lambda: table.hours[("ben", TASKS[0])] == 2.0)
        assert table.hours[("ada", TASKS[0])] == 3.0
        await pilot.press("s")
        await until(pilot, lambda: "hours = 3" in day_file(shop))
    assert day_file(shop).count('kind = "hours"') == 2


def test_columns_are_named_like_a_sheet() -> None:
    assert [letter(n) for n in (0, 25, 26, 27, 52)] == ["A", "Z", "AA", "AB", "BA"]
