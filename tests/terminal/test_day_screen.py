"""The work day as a crew lead reads it, and the acts of a day from it."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.logbook.acts import HoldStarted, HoursWorked
from crewboard.plan.duration import Duration
from crewboard.terminal.widgets.rows import RowList
from tests.terminal.shop import (
    SATURDAY,
    Watch,
    asked,
    day_file,
    open_app,
    reads,
    seen,
    sign_each,
    until,
)

SIZES = [(80, 24), (120, 40)]


@pytest.mark.parametrize("size", SIZES)
async def test_the_day_says_what_goes_first_and_why(shop: Path, size: tuple[int, int]) -> None:
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        text = await reads(pilot, "What goes first today")
        assert "The market van" in text
        assert "Sat 2 May 2026" in text
        assert "10:00" in text
        assert "0 here" in text
        assert "Nobody is signed in" in text
        first, second = text.index("1. Scrape the frame"), text.index("2. Weld the bracket")
        assert first < second  # more waits behind the scraping
        assert "tasks wait behind it" in text
        assert 'frees "Prime the frame"' in text


@pytest.mark.parametrize("size", SIZES)
async def test_the_keys_of_the_day_all_stand_at_its_foot(shop: Path, size: tuple[int, int]) -> None:
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        text = await reads(pilot, "What goes first today")
        keys = text.splitlines()[-2].split()
        assert keys[:4] == ["begin", "finish", "hours", "in/out"]
        words = ("check", "reading", "close", "look", "why", "other", "jot", "note", "talk")
        seldom = () if size[0] < 100 else ("then", "days")  # F1 names them in a narrow window
        for word in (*words, *seldom):
            assert word in keys, word


async def test_people_are_signed_in_by_a_few_letters_and_marks(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "What goes first today")
        await pilot.press("i")
        await reads(pilot, "Sign in and out")
        await pilot.press("a", "d", "a", "space", "b", "e", "n", "enter")
        text = await reads(pilot, "2 here")
        assert "Here: Ada Marsh and Ben Holt" in text
    assert day_file(shop).count('kind = "sign-in"') == 2


async def test_space_marks_in_place_and_a_find_begins_with_the_best_match(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "What goes first today")
        await pilot.press("i")
        await reads(pilot, "Sign in and out")
        await pilot.press("space", "down", "space")
        await reads(pilot, "[x] Ada Marsh", "[x] Ben Holt", "[ ] Cleo Rand")
        # The cursor was at the end of the list: what is typed begins at the top all the same.
        await pilot.press("end", *"quil", "space", "enter")
        await reads(pilot, "3 here")
    assert 'who = "dov"' in day_file(shop)  # the first of the seven of that name


async def test_who_is_unmarked_is_signed_out(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "What goes first today")
        await pilot.press("i")
        await reads(pilot, "Sign in and out")
        await pilot.press("a", "d", "a", "enter")
        await reads(pilot, "1 here")
        await pilot.press("i")
        await reads(pilot, "here since 10:00")
        await pilot.press("space", "enter")
        await reads(pilot, "0 here")
    assert 'kind = "sign-out", who = "ada"' in day_file(shop)


async def test_a_task_is_begun_and_finished_and_its_clock_is_said(shop: Path) -> None:
    watch = Watch()
    app = open_app(shop, watch)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        await pilot.press("b")
        await reads(pilot, 'Who works on "Scrape the frame')
        await pilot.press("b", "e", "n", "enter")
        await reads(pilot, "Under way today", "since 10:00, Ben Holt")
        await pilot.press("f")
        await reads(pilot, "No hold follows", "finished at")
        await pilot.press("enter")
        await reads(pilot, "1. Prime the frame", "finish it today: starts a 36-hour drying time")
        await pilot.press("home", "f")
        await reads(pilot, 'Who did it? "Prime the frame', "Nobody wrote that it began")
        await pilot.press("enter")
        await reads(pilot, "This starts a clock: drying, 36 hours, until Sun 3 May 2026 22:00")
    lines = day_file(shop)
    assert 'kind = "begun", task = "frame/scrape", crew = ["ben"]' in lines
    assert 'kind = "finished", task = "frame/scrape"' in lines


async def test_a_finish_can_be_said_for_an_earlier_hour(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        await pilot.press("f")
        await reads(pilot, 'Who did it? "Scrape the frame')
        await pilot.press("b", "e", "n", "enter")
        await reads(pilot, "finished at", "it began at")
        await pilot.press("9", ":", "3", "5", "tab", "9", ":", "0", "5", "enter")
        await until(pilot, lambda: "finished" in day_file(shop))
        await reads(pilot, 'finished: "Scrape the frame')
    assert 'crew = ["ben"], began = 2026-05-02T09:05:00' in day_file(shop)
    assert "at = 2026-05-02T09:35:00" in day_file(shop)
    assert "written = 2026-05-02T10:00:00" in day_file(shop)


async def test_dangerous_work_asks_for_its_checks_before_it_is_begun(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        await pilot.press("i")
        await reads(pilot, "Sign in and out")
        await pilot.press("a", "d", "a", "space", "b", "e", "n", "space", "enter")
        await reads(pilot, "2 here", "Here: Ada Marsh and Ben Holt")
        await pilot.press("down", "b")
        await reads(pilot, 'Who works on "Weld the bracket')
        await pilot.press("space", "down", "space", "enter")
        await reads(pilot, "Who is the fire watcher", "▸ Ben Holt")
        await pilot.press("enter")
        text = await reads(pilot, 'Checks: "Weld the bracket', "A signed check authorises nothing")
        assert "to sign" in text
        await sign_each(pilot)
        await reads(pilot, "Under way today", "Ada Marsh and Ben Holt")
    lines = day_file(shop)
    assert lines.index('check = "area"') < lines.index('kind = "begun"')
    assert 'who = "ada"' in next(each for each in lines.splitlines() if '"area"' in each)


async def test_hot_work_is_refused_to_an_under_18_with_the_reason(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "2. Weld the bracket")
        await pilot.press("down", "b")
        text = await reads(pilot, 'Who works on "Weld the bracket')
        assert "under 18: not for" in text
        await pilot.press("c", "l", "e", "o", "enter")
        await reads(pilot, "Refused:", "Cleo Rand is under 18", "What to do:")
        await pilot.press("escape")
    assert "begun" not in day_file(shop)


async def test_held_back_work_is_begun_only_with_a_named_persons_reason(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "3 tasks, for 1 cause")
        await pilot.press("slash", *"roof boards")
        await reads(pilot, "waits Lay the roof boards")
        await pilot.press("enter", "b")
        await reads(pilot, 'Who works on "Lay the roof boards')
        await pilot.press("b", "e", "n", "enter")
        await reads(pilot, "Refused:", "who answers for it")
        await pilot.press(*"a trial fit", "enter", *"ada", "enter")
        await until(pilot, lambda: "begun" in day_file(shop))
    line = day_file(shop).splitlines()[-1]
    assert 'despite = "a trial fit"' in line
    assert 'by = "ada"' in line


async def test_why_and_what_then_are_one_key_each(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        await pilot.press("t")
        await reads(
            pilot, 'What comes next: "Scrape the frame', "Ready at once (1)", "Prime the frame"
        )
        await pilot.press("escape", "end", "enter", "end", "w")
        text = await reads(pilot, 'Why: "Lay the roof boards', "In the end it waits for")
        assert '"Scrape the frame": ready' in text


async def test_a_note_and_a_reading_are_kept(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        await pilot.press("n")
        await reads(pilot, 'about: the task "Scrape the frame"')
        await pilot.press(*"old [M8] bolt", "enter")
        await until(pilot, lambda: "old [M8] bolt" in day_file(shop))
        await pilot.press("r")
        await reads(pilot, "Shop reading")
        await pilot.press(*"warm", "enter")
        await reads(pilot, "write °C and %")
        await pilot.press(*["backspace"] * 4, *"14,5 62", "enter")
        await until(pilot, lambda: "celsius = 14.5" in day_file(shop))
    assert "humidity = 62" in day_file(shop)


async def test_closing_the_day_names_what_is_in_the_way_and_who_closed_all_the_same(
    shop: Path,
) -> None:
    frame = shop / "components" / "frame.toml"
    frame.write_text(
        frame.read_text() + '\n[tasks.oil]\ntitle = "Oil it"\nhazards = ["oily-rags"]\n'
    )
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        await pilot.press("i")
        await reads(pilot, "Sign in and out")
        await pilot.press("a", "d", "a", "enter")
        await reads(pilot, "1 here")
        app.record([HoursWorked("ada", 2, "frame/oil")])
        await pilot.press("x")
        await reads(pilot, "Close the day", "In the way")
        await pilot.press("enter")
        await reads(pilot, "Who stays?", "The rag watch has not started")
        await pilot.press("enter")
        await reads(pilot, "Refused:", "which lead answers for it")
        await pilot.press(*"rags are outside", "enter", *"ada", "enter")
        await until(pilot, lambda: "day closed" in day_file(shop))
        await reads(pilot, "Stays behind")
    assert 'stays = "ada"' in day_file(shop)
    assert "sign-out" not in day_file(shop), "who stays is still in"
    assert 'despite = "rags are outside"' in day_file(shop)


async def test_who_is_expected_is_said_for_a_work_day(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        await pilot.press("d")
        await reads(pilot, "Who is coming?", "Sat 6 Jun 2026")
        await pilot.press("down", "down", "enter")
        await reads(pilot, "Who is coming on Sat 6 Jun 2026")
        await pilot.press("a", "d", "a", "space", "enter")
        await reads(pilot, "From when until when?", "Ada Marsh: empty for the whole day")
        await pilot.press(*"14:00-10", "enter")
        await reads(pilot, "ends before it begins")
        await pilot.press(*["backspace"] * 8, *"10:30 to 14", "enter")
        await until(pilot, lambda: "expected" in day_file(shop, "2026-06-06"))
    assert 'who = "ada", arrives = 10:30:00, leaves = 14:00:00' in day_file(shop, "2026-06-06")


async def test_the_programme_of_the_days_to_come_is_read_from_their_list(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        await pilot.press("d")
        await reads(pilot, "Work days to come", "the programme")
        await pilot.press("enter")
        await reads(pilot, "The next 6 work days", "It decides nothing: the lead does.")
        await reads(pilot, "Sat 2 May 2026, 09:00 to 16:00 (")
        await pilot.press("escape")
        await until(pilot, lambda: "The next 6 work days" not in asked(app))


async def test_a_hold_is_looked_at_extended_and_released(shop: Path) -> None:
    app = open_app(shop)
    clamped = HoldStarted("clamp", "frame/scrape", "", Duration(minutes=60))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "1. Scrape the frame")
        app.record([clamped])
        await reads(pilot, "On hold (1)", 'LEAVE ALONE (1)  "Scrape the frame" until 11:00')
        await pilot.press("tab")
        await pilot.press("l")
        await reads(pilot, 'Hold: "Scrape the frame', "in clamps since")
        await pilot.press("e")
        await reads(pilot, "Your name")
        await pilot.press(*"ada", "enter")
        await reads(pilot, "by how long")
        await pilot.press(*"soon", "enter")
        await reads(pilot, "is not a time span")
        await pilot.press(*["backspace"] * 4, *"2 days", "enter")
        await reads(pilot, "why it is made longer")
        await pilot.press(*"cold", "enter")
        await until(pilot, lambda: 'lasts = "2 days"' in day_file(shop))
        await pilot.press("l")
        await reads(pilot, "release early")
        await pilot.press("v")
        await reads(pilot, "why it is released early")
        await pilot.press("enter")
        await reads(pilot, "something has to be written here")
        await pilot.press(*"dry", "enter")
        await until(pilot, lambda: 'kind = "released"' in day_file(shop))
        assert "On hold" not in seen(app)


async def test_the_safety_talk_is_read_from_the_day(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "2. Weld the bracket")
        await pilot.press("down", "g")
        await reads(pilot, "Safety talk for which work?")
        await pilot.press("enter")
        text = await reads(pilot, "Safety talk, Sat 2 May 2026", "In an emergency")
        assert "authorises nothing" in text


async def test_hot_work_starts_its_fire_watch_and_nobody_closes_inside_it(shop: Path) -> None:
    watch = Watch()
    app = open_app(shop, watch)
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "2. Weld the bracket")
        await pilot.press("i")
        await reads(pilot, "Sign in and out")
        await pilot.press(*"ada", "space", *"ben", "enter")
        await reads(pilot, "2 here")
        await pilot.press("down", "b")
        await reads(pilot, "Who works on")
        await pilot.press("space", "down", "space", "enter")
        await reads(pilot, "Who is the fire watcher", "▸ Ben Holt")
        await pilot.press("enter")
        await reads(pilot, 'Checks: "Weld the bracket')
        await sign_each(pilot)
        await reads(pilot, "Under way today", "next check 10:15")
        watch.now = SATURDAY.replace(minute=20)
        await reads(pilot, 'check watcher watches, nothing smokes: "Weld the bracket"')
        app.screen.query_one(RowList).go_to("frame/weld")
        await pilot.press("f")
        await reads(pilot, "This starts a clock: fire watch, 60 min, until 11:20")
        await pilot.press("enter")
        await reads(pilot, 'After the work: "Weld the bracket')
        await pilot.press("enter")  # the first: hot work has ended
        await reads(pilot, "Who signs?")
        await pilot.press(*"ben", "enter")
        await reads(pilot, "10:20, Ben")
        await pilot.press("escape")
        await reads(pilot, "clock fire watch after", "until 11:20")
        await pilot.press("x")
        await reads(pilot, 'the fire watch after "Weld the bracket" runs until 11:20')
        await pilot.press("escape")
        await until(pilot, lambda: "Close the day" not in seen(app))
    assert "day closed" not in day_file(shop)
