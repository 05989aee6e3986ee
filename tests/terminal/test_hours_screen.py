"""The hours of a whole crew, typed without the mouse."""

from __future__ import annotations

import json
from functools import partial
from pathlib import Path

import pytest

from crewboard.__main__ import main as command_line
from crewboard.logbook.acts import Begun, HoursWorked, SignIn, WorkedOn
from crewboard.order.hours.guests import Worker
from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.hours_of_day import Cell, HoursOfDay, totals
from crewboard.terminal.screens.hours import HoursPage
from crewboard.terminal.widgets.hours_table import HoursTable, head_of_column
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


def cell(who: str, task: str) -> Cell:
    """The cell of somebody of the crew and a task."""
    return Cell(Worker(who), WorkedOn(task))


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


# Quarters of an hour, so that nobody has more than the day holds.
TYPED: dict[Cell, float] = {
    cell(who, task): ((row + 2 * column) % 3) * 0.25
    for row, who in enumerate(PEOPLE)
    for column, task in enumerate(TASKS)
}


def _is_signed(shop: Path, check: str) -> bool:
    return f'check = "{check}"' in day_file(shop)


async def test_a_day_of_ten_people_and_twelve_tasks_typed_and_closed_reads_back_the_same(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        text = await reads(pilot, "column: Panel 1, Panels", "Ada Marsh")
        heads = "Panel 1 Panel 2 Panel 3 Panel 4 Panel 5 Panel 6 all"
        assert text.splitlines()[2].replace("> ", " > ").split() == heads.split()
        keys = type_the_day(app)
        await until(pilot, lambda: "80 to save: Ctrl+S saves" in seen(app), 20)
        await pilot.press("ctrl+s")
        await reads(pilot, "hours saved: 80 entries")
        await pilot.press("x")
        await reads(pilot, "Close the day", "In the way (6)")
        await pilot.press("i")
        await reads(pilot, "Sign in and out")
        await pilot.press("ctrl+a", *"ada", "enter")
        await until(pilot, lambda: "1 here" in seen(app))
        await pilot.press("c")
        await reads(pilot, "Checks after the work")
        await pilot.press("s")
        await reads(pilot, "Who signs")
        await pilot.press(*"ada", "enter")
        for check in ("tools", "rags", "covers", "lamps", "mains-off", "everyone-out"):
            await until(pilot, partial(_is_signed, shop, check))  # each read and signed by itself
            await pilot.press("s")
        await pilot.press("escape")
        await reads(pilot, "Nothing stands in the way", "still here: Ada Marsh")
        await pilot.press("enter")
        await reads(pilot, "the day is closed", "0 here")
    assert keys <= 420  # a minute, at seven keys a second
    assert day_file(shop).count('kind = "hours"') == 80

    bench = Workbench(shop)
    board = bench.board(AFTERNOON)
    book = HoursOfDay(board, AFTERNOON.date())
    assert {cell: book.logged(cell) for cell in TYPED} == TYPED

    code = command_line(["day", str(shop), "--at", AFTERNOON.isoformat(), "--json"])
    assert code == 0
    told = json.loads(capsys.readouterr().out)
    assert told["here"] == []
    by_task = {on.task: hours for on, hours in totals(TYPED.items())[1].items()}
    hours = {task["id"]: task["hours"] for task in told["tasks"] if task["id"] in TASKS}
    assert hours == pytest.approx(by_task)
    assert {each["state"] for each in told["tasks"] if each["id"] in TASKS} == {"under way"}

    again = open_app(shop, Watch(AFTERNOON))
    async with again.run_test(size=(120, 40)) as pilot:
        await reads(pilot, "0 here")
        await pilot.press("h")
        await reads(pilot, "nothing new to save")
        table = again.screen.query_one(HoursTable)
        assert {c: h for c, h in table.hours.items() if h} == {c: h for c, h in TYPED.items() if h}


def type_the_day(app: CrewboardApp) -> int:
    """Type every cell of the table, row by row; how many keys that took."""
    keys = 0
    for hours in TYPED.values():
        typed = [_KEYS.get(letter, letter) for letter in f"{hours:g}".replace(".", ",")]
        typed = [*(typed if hours else []), "tab"]
        types(app, *typed)
        keys += len(typed)
    return keys


async def test_enter_goes_down_the_crew_and_on_to_the_next_task(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "column: Panel 1, Panels")
        for _ in range(11):
            await pilot.press("1", "enter")
        table = app.screen.query_one(HoursTable)
        await until(pilot, lambda: table.hours[cell("ada", TASKS[1])] == 1.0)
        assert table.cell == cell("ben", TASKS[1])
        assert all(table.hours[cell(who, TASKS[0])] == 1.0 for who in PEOPLE)


async def test_what_is_no_number_is_shown_and_nothing_is_saved(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "column: Panel 1, Panels")
        await pilot.press("1", ".", ".", "2", "tab")
        await reads(pilot, '"1..2" is no number of hours')
        await pilot.press("ctrl+s")
        await reads(pilot, "mend what is no number of hours first")
        assert 'kind = "hours"' not in day_file(shop)
        await pilot.press("left", "delete", "2", "ctrl+s")
        await until(pilot, lambda: 'kind = "hours"' in day_file(shop))


async def test_leaving_with_hours_not_written_is_asked_first(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "column: Panel 1, Panels")
        await pilot.press("3", "escape")
        await reads(pilot, "1 typed and not saved")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, HoursPage))
        await pilot.press("q")
        await reads(pilot, "1 typed and not saved")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, HoursPage))
        assert app.screen.query_one(HoursTable).hours[cell("ada", TASKS[0])] == 3.0


async def test_hours_that_do_not_fit_the_day_are_asked_and_still_kept(shop: Path) -> None:
    app = open_app(shop, Watch(SATURDAY.replace(hour=11)))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "column: Panel 1, Panels")
        await pilot.press("7", "tab")
        await reads(pilot, "Ada Marsh: 7 h, but here for 2 h; is that right?", "7?")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "hours = 7" in day_file(shop))


async def test_the_page_keys_ask_before_typed_hours_are_left(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "column: Panel 1, Panels")
        await pilot.press("3", "f4")
        await reads(pilot, "1 typed and not saved")
        await pilot.press("enter")
        await until(pilot, lambda: getattr(app.screen, "word", "") == "Holds")


async def test_hours_without_a_signed_check_are_told_and_taken(shop: Path) -> None:
    worked = [Said(HoursWorked("ada", 1.0, "frame/weld"), AFTERNOON)]
    assert Workbench(shop).record(worked, by="", now=AFTERNOON).kept
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "column: Weld the bracket, Frame")
        await pilot.press("home", "2", "enter")
        await reads(pilot, "Weld the bracket, Frame: worked without a signed check")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "hours = 2" in day_file(shop))


async def test_a_column_is_added_by_a_few_letters(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "column: Panel 1, Panels")
        await pilot.press("a")
        await reads(pilot, "Add a column for what?")
        await pilot.press(*"scrape", "enter")
        await reads(pilot, "column: Scrape the frame, Frame")
        await pilot.press("2", "ctrl+s")
        await until(pilot, lambda: 'task = "frame/scrape"' in day_file(shop))


async def test_what_is_typed_stays_when_somebody_else_writes_meanwhile(shop: Path) -> None:
    app = open_app(shop, Watch(AFTERNOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "10 here")
        await pilot.press("h")
        await reads(pilot, "column: Panel 1, Panels")
        await pilot.press("3", "tab")
        other = Workbench(shop)
        typed = {cell("ben", TASKS[0]): 2.0}
        said = HoursOfDay(other.board(AFTERNOON), AFTERNOON.date()).to_write(dict(typed), AFTERNOON)
        assert other.record(said, by="", now=AFTERNOON).kept
        table = app.screen.query_one(HoursTable)
        await until(pilot, lambda: table.hours[cell("ben", TASKS[0])] == 2.0)
        assert table.hours[cell("ada", TASKS[0])] == 3.0
        await pilot.press("ctrl+s")
        await until(pilot, lambda: "hours = 3" in day_file(shop))
    assert day_file(shop).count('kind = "hours"') == 2


def test_a_column_is_headed_by_its_name_over_two_lines() -> None:
    assert head_of_column("Panel 1", 9) == ("", "Panel 1")
    assert head_of_column("Scrape the frame", 11) == ("Scrape the", "frame")
    assert head_of_column("Steam and bend: Arch 7", 9) == ("Steam an…", "Arch 7")
    assert head_of_column("Plumb the frame and brace it", 11) == ("Plumb the", "frame and…")
