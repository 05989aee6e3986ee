"""Holds on the screen: due for a look first, how far, released and extended with who and why."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.logbook.acts import Extended, Finished, HoldStarted, Reading
from crewboard.plan.duration import Duration
from crewboard.terminal.cells import bar
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import Watch, asked, day_file, make_shop, open_app, reads, seen, until

SIZES = [(80, 24), (120, 40)]
NOON = datetime(2026, 5, 2, 12, 0)


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """The frame primed on Friday at noon; a look at the paint's colour is waited for."""
    shop = make_shop(tmp_path / "van")
    bench = Workbench(shop)
    start = datetime(2026, 5, 1, 12)
    glued = HoldStarted("glue", component="roof", lasts=Duration(minutes=600), why="side rail")
    said = [
        Said(
            Finished("frame/scrape", crew=("ada",), began=start.replace(hour=9)),
            start.replace(hour=11),
        ),
        Said(Finished("frame/prime", crew=("ada",), began=start.replace(hour=11)), start),
        Said(glued, start),
        Said(HoldStarted("decision", task="roof/board", why="which green?"), start),
        Said(Reading(14, 60), start),
    ]
    outcome = bench.record(said, by="ada", now=start)
    assert outcome.kept, outcome.refused
    primed = outcome.entries[1].id
    later = Said(
        Extended(primed, Duration(minutes=720), None, "cold [night]"), NOON.replace(hour=9)
    )
    assert bench.record([later], by="ben", now=NOON.replace(hour=9)).kept
    return shop


async def typed(pilot: Pilot[int], text: str) -> None:
    await pilot.press(*("space" if letter == " " else letter for letter in text))


@pytest.mark.parametrize("size", SIZES)
async def test_what_is_due_for_a_look_comes_first_then_the_rest_by_their_end(
    shop: Path, size: tuple[int, int]
) -> None:
    app = open_app(shop, Watch(NOON))
    async with app.run_test(size=size) as pilot:
        await pilot.press("f4")
        text = await reads(pilot, "Due for a look (1)", "On hold (2)")
        places = [text.index(t) for t in ("Due for a look (1)", "On hold (2)")]
        assert places[0] < text.index("glue is setting") < places[1]
        assert text.index("drying") < text.index("awaiting a decision since")
        assert "drying since Fri 1 May 12:00, until Sun 3 May 12:00" in text
        assert "50 %" in text
        assert "extended by Ben Holt to Sun 3 May 12:00: cold [night]" in text
        assert "until released" in text
        assert "14 °C, 60 % humidity, read Fri 1 May 2026 12:00" in text


async def test_a_hold_looked_at_is_released_and_stays_readable(shop: Path) -> None:
    app = open_app(shop, Watch(NOON), by="ada")
    async with app.run_test(size=(120, 40)) as pilot:
        await pilot.press("f4", "v")
        await reads(pilot, "Release")
        await typed(pilot, "holds well")
        await pilot.press("enter")
        await reads(pilot, "Over in the last 28 days (1)", "released", "Ada Marsh: holds well")
    assert 'kind = "released"' in day_file(shop)
    assert 'why = "holds well"' in day_file(shop)


async def test_a_hold_let_go_early_needs_the_reason(shop: Path) -> None:
    app = open_app(shop, Watch(NOON), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "down", "v")
        await reads(pilot, "early")
        await pilot.press("enter")
        await reads(pilot, "something has to be written")
        assert "released" not in day_file(shop)
        await typed(pilot, "dry to the touch")
        await pilot.press("enter")
        await until(pilot, lambda: 'why = "dry to the touch"' in day_file(shop))


async def test_a_hold_is_made_longer_with_the_reason(shop: Path) -> None:
    app = open_app(shop, Watch(NOON), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "down", "e")
        await reads(pilot, "by how long")
        await typed(pilot, "1 day")
        await pilot.press("enter")
        await typed(pilot, "damp")
        await pilot.press("enter")
        await reads(
            pilot, "until Mon 4 May 12:00", "extended by Ada Marsh to", "extended by Ben Holt to"
        )


async def test_a_reading_that_stops_a_clock_says_so(shop: Path) -> None:
    text = (shop / "components" / "frame.toml").read_text()
    own = 'lasts = "36 hours", conditions = { at_least_c = 10 } }'
    (shop / "components" / "frame.toml").write_text(text.replace('lasts = "36 hours" }', own))
    app = open_app(shop, Watch(NOON), by="ada")
    async with app.run_test(size=(110, 36)) as pilot:
        await pilot.press("f4", "r")
        await reads(pilot, "Shop reading")
        await typed(pilot, "12 low 4")
        await pilot.press("enter")
        await reads(pilot, "reading saved: 12 °C, lowest 4 °C", "1 clock ends later")
        await pilot.press("r")
        await typed(pilot, "6 70%")
        await pilot.press("enter")
        await reads(pilot, "1 clock stopped: too cold (6 °C, it wants 10 °C)")


async def test_a_coat_still_tacky_is_made_longer_after_its_time(shop: Path) -> None:
    """The coat ended by itself on Sunday at noon; on Monday it is found tacky."""
    app = open_app(shop, Watch(datetime(2026, 5, 4, 9)), by="ada")
    async with app.run_test(size=(110, 36)) as pilot:
        await pilot.press("f4")
        await reads(pilot, "Over in the last 28 days (1)")
        await pilot.press("end", "v")
        await reads(pilot, "that hold is over already")
        await pilot.press("e")
        await reads(pilot, "by how long")
        await typed(pilot, "1 day")
        await pilot.press("enter")
        await typed(pilot, "still tacky")
        await pilot.press("enter")
        await reads(pilot, "extended to Tue 5 May 2026 09:00", "On hold (2)")


async def test_who_lets_a_hold_go_is_asked_where_nobody_has_said_so(shop: Path) -> None:
    app = open_app(shop, Watch(NOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "v")
        await reads(pilot, "Your name")
        await typed(pilot, "ben")
        await pilot.press("enter")
        await reads(pilot, "Release")
        await pilot.press("enter")
        await reads(pilot, "released 12:00 by Ben Holt")
    assert 'by = "ben", kind = "released"' in day_file(shop)


async def test_a_hold_is_started_by_hand_on_a_component(shop: Path) -> None:
    app = open_app(shop, Watch(NOON), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "a")
        await reads(pilot, "Start a hold")
        await pilot.press("ctrl+s")
        await reads(pilot, "something has to be picked")
        await pilot.press("enter")
        await reads(pilot, "all of it")
        await typed(pilot, "frame all")
        await pilot.press("enter", "tab", "enter")
        await reads(pilot, "awaiting inspection")
        await typed(pilot, "inspec")
        await pilot.press("enter", "ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert 'kind = "hold", hold = "inspection", component = "frame" }' in day_file(shop)


async def test_enter_tells_everything_with_the_lines_of_the_logbook(shop: Path) -> None:
    app = open_app(shop, Watch(NOON))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "down", "enter")
        await reads(pilot, "In the logbook", "Prime the frame", "written by Ben Holt")


async def test_the_bars_are_readable_on_an_ascii_terminal(shop: Path) -> None:
    app = open_app(shop, Watch(NOON), plain=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4")
        await reads(pilot, "[##--]  50 %")
        own = [line for line in seen(app).splitlines() if "°" not in line]
        assert all(line.isascii() for line in own)


def test_a_bar_is_full_only_at_the_end() -> None:
    assert bar(0.999, plain=True) == "[#########-]  99 %"
    assert bar(1.0, plain=True) == "[##########] 100 %"
    assert bar(0.0, 4, plain=True) == "[----]   0 %"
    assert bar(None) == ""
