"""The tasks of a component typed into one table: a row each, few keys, all kept at once."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.workbench import Workbench
from tests.terminal.shop import asked, make_shop, open_app, reads, until

NAMED = {" ": "space", ",": "comma", "-": "minus", "\t": "tab", "\n": "enter"}

# Twenty tasks of a roof, as a lead would type them from a sheet of paper: after, hours, people
# and hold where there is something to say.
TWENTY = """\
Strip\t\t6
Photos\t
Sort ribs\t1\t3
Clean ribs\t3\t8
Mend ribs\t4\t9
Bend ribs\t\t6\t3\tbend 1 month
Fit ribs\t5,6\t8\t2
Cut boards\t4\t5
Prime\t8\t3
Lay boards\t7,9\t9\t2
Canvas\t10\t5\t3\tglue 1 day
Trim edges\t11\t2
Drip rail\t12\t3
Seal\t11\t1
Undercoat\t14\t2
Rub down\t15\t2
Top coat\t16\t2
Vents\t17\t1
Lamps\t17\t1
Rain test\t18\t1
"""


async def press(pilot: Pilot[int], text: str) -> int:
    """Type the text; how many keys that took."""
    keys = [NAMED.get(letter, letter) for letter in text]
    await pilot.press(*keys)
    return len(keys)


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_the_first_twenty_tasks_of_a_plan_take_fewer_than_300_keys(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    shop = make_shop(tmp_path / "van", components={"canopy": 'name = "Canopy"\n'})
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        await pilot.press("f3")
        await reads(pilot, "Canopy")
        keys = 1
        await pilot.press("k")
        await reads(pilot, "Tasks of Canopy", "Tab next cell")
        keys += await press(pilot, TWENTY.rstrip())
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app), 20)
        keys += 1
    print(f"\n{keys} keys for twenty tasks, letters of the titles included")
    assert keys < 300
    bench = Workbench(shop)
    assert bench.faults == []
    tasks = {t.name: t for t in bench.plan.tasks.values() if t.component == "canopy"}
    assert len(tasks) == 20
    assert tasks["fit-ribs"].after == ("canopy/mend-ribs", "canopy/bend-ribs")
    hold = tasks["bend-ribs"].hold
    assert hold is not None
    assert (hold.kind, str(hold.lasts)) == ("bend set", "1 month")
    assert tasks["canvas"].least_people == 3


async def test_a_row_that_cannot_be_read_is_named_and_all_that_was_typed_stays(
    tmp_path: Path,
) -> None:
    shop = make_shop(tmp_path / "van", components={"canopy": 'name = "Canopy"\n'})
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "k")
        await reads(pilot, "Tasks of Canopy")
        await press(pilot, "Strip\t\t6\nMend\t1\ta lot\nPaint\t2\t3\t\tvarnish 2 days")
        await pilot.press("ctrl+s")
        await reads(pilot, 'Not saved: row 2, hours: "a" is not a number', "Paint", "varnish")
        await pilot.press("delete", *"4-9", "ctrl+s")
        await reads(pilot, 'row 3, hold: "varnish" is no kind of hold', "bend set")
        await pilot.press("delete", *"dry", "ctrl+s")
        await until(pilot, lambda: not asked(app))
    tasks = Workbench(shop).plan.tasks
    assert tasks["canopy/mend"].estimate == (4, 6.5, 9)
    hold = tasks["canopy/paint"].hold
    assert hold is not None
    assert (hold.kind, hold.lasts) == ("dry", None)


async def test_rows_that_go_round_in_a_loop_are_refused_with_their_row(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van", components={"canopy": 'name = "Canopy"\n'})
    before = (shop / "components/canopy.toml").read_text()
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "k")
        await reads(pilot, "Tasks of Canopy")
        await press(pilot, "Strip\t3\nMend\t1\nPaint\t2")
        await pilot.press("ctrl+s")
        await reads(pilot, "goes round in a loop")
        await pilot.press("escape")
        await reads(pilot, "Not saved: row 1, after", "Strip", "Paint")
        assert (shop / "components/canopy.toml").read_text() == before
        await pilot.press("delete", "ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert Workbench(shop).plan.tasks["canopy/paint"].after == ("canopy/mend",)


async def test_tasks_that_stand_there_are_rows_too_and_only_what_changed_is_written(
    tmp_path: Path,
) -> None:
    shop = make_shop(tmp_path / "van")
    frame = shop / "components/frame.toml"
    before = frame.read_text()
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "k")
        await reads(pilot, "Tasks of Frame", "Weld the bracket", "dry 36 hours")
        await pilot.press("up", "end", "delete")
        await press(pilot, "dry 40 hours")
        await pilot.press("down", "home")
        await press(pilot, "Paint\tprime, 2")
        await reads(pilot, "comes after Prime the frame and Weld the bracket")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
        await reads(pilot, "Paint")
        changed = frame.read_text()
        assert 'lasts = "40 hours"' in changed
        assert "# the order matters here" in changed
        assert Workbench(shop).plan.tasks["frame/paint"].after == ("frame/prime", "frame/weld")
        await pilot.press("u")
        await until(pilot, lambda: frame.read_text() == before)
    assert frame.read_text() == before


async def test_a_few_letters_that_two_titles_have_are_asked_about(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "k")
        await reads(pilot, "Tasks of Frame")
        await press(pilot, "Paint\tframe x")
        await reads(pilot, 'no task or component has "frame x" in its title')
        await pilot.press("delete")
        await press(pilot, "the")
        await reads(pilot, 'may be "Scrape the frame"', "write more of it")
        await pilot.press("delete")
        await press(pilot, "4")
        await reads(pilot, "a task cannot come after itself")
        await pilot.press("escape")
        await reads(pilot, "Cancel the table?")


async def test_a_task_goes_to_another_component_in_its_form(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van")
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "slash", *"weld", "enter", "e")
        await reads(pilot, "belongs to", "Frame")
        await pilot.press("tab", "enter")
        await reads(pilot, "Roof")
        await pilot.press(*"roof", "enter", "ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert "roof/weld" in Workbench(shop).plan.tasks


async def test_a_supply_says_for_which_tasks_it_is_and_they_name_it(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van")
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f7", "a")
        await reads(pilot, "A new supply", "for tasks")
        await press(pilot, "Primer\t\t\n")
        await reads(pilot, "Prime the frame")
        await press(pilot, "prime\n")
        await pilot.press("ctrl+s")
        await reads(pilot, "Primer")
        await until(pilot, lambda: not asked(app))
        assert Workbench(shop).plan.tasks["frame/prime"].supplies == ("primer",)
        await pilot.press("e")
        await reads(pilot, "Edit: Primer", "Prime the frame")
        await pilot.press("tab", "tab", "backspace", "ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert Workbench(shop).plan.tasks["frame/prime"].supplies == ()
