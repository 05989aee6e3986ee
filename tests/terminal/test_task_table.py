"""The tasks of a component typed into one table: a row each, few keys, all kept at once."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events
from textual.pilot import Pilot

from crewboard.terminal.forms.reading import Wrong
from crewboard.terminal.planning.task_rows import read_hold
from crewboard.workbench import Workbench
from tests.terminal.shop import asked, make_shop, open_app, reads, until

NAMED = {
    " ": "space",
    ",": "comma",
    "-": "minus",
    "\t": "tab",
    "\n": "enter",
    "~": "delete",
}

# Twenty tasks of a roof, as a lead would type them from a sheet of paper: hours, and what it comes
# after, people and hold where there is something to say. "~" empties what is proposed.
TWENTY = """\
Bend arches\t6\t\t3\tbend 1mo
Strip roof\t8\t~
Photo ribs\t1
Clean ribs\t8
Mend ribs\t8
Fit arches\t8\t1,5\t2
Cut boards\t4\t4
Prime wood\t3
Lay boards\t8\t6,8\t2
Lay canvas\t5\t\t3\tglue 1d
Trim edges\t2
Drip rails\t3
Seal seams\t2
Undercoat
Rub down
Top coat\t2\t\t\tdry 2d
Fit vents\t1
Fit lamps
Fit gutter
Rain test
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
    titles = [row.partition("\t")[0] for row in TWENTY.splitlines()]
    assert sum(map(len, titles)) / len(titles) > 9.5, "titles as people write them"
    assert keys < 300
    bench = Workbench(shop)
    assert bench.faults == []
    tasks = {t.name: t for t in bench.plan.tasks.values() if t.component == "canopy"}
    assert len(tasks) == 20
    assert all(task.estimate for task in tasks.values())
    assert tasks["strip-roof"].after == ()
    assert tasks["photo-ribs"].after == ("canopy/strip-roof",)
    assert tasks["fit-arches"].after == ("canopy/bend-arches", "canopy/mend-ribs")
    hold = tasks["bend-arches"].hold
    assert hold is not None
    assert (hold.kind, str(hold.lasts)) == ("bend set", "1 month")
    assert tasks["lay-canvas"].least_people == 3
    assert tasks["trim-edges"].least_people == 1
    assert tasks["rub-down"].estimate == (2, 2, 2)


async def test_a_new_row_comes_after_the_one_above_unless_that_is_deleted_or_typed_over(
    tmp_path: Path,
) -> None:
    shop = make_shop(tmp_path / "van", components={"canopy": 'name = "Canopy"\n'})
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "k")
        await reads(pilot, "Tasks of Canopy")
        await press(pilot, "Strip\t6\nMend\t\t")
        await reads(pilot, "(6)", "(1)", "comes after Strip; else type what, or Delete")
        await press(pilot, "\nPaint\t~\t~\nOil\t2\t1\nWax\nRub\t5")
        await reads(pilot, " 5_ ")  # in the place of the proposed (2)
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    tasks = Workbench(shop).plan.tasks
    after = {name: tasks[f"canopy/{name}"].after for name in ("mend", "paint", "oil", "wax", "rub")}
    assert after == {
        "mend": ("canopy/strip",),
        "paint": (),
        "oil": ("canopy/strip",),
        "wax": ("canopy/oil",),
        "rub": ("canopy/wax",),
    }
    hours = [tasks[f"canopy/{name}"].estimate for name in after]
    assert hours == [(6, 6, 6), None, (2, 2, 2), (2, 2, 2), (5, 5, 5)]


async def test_a_list_or_a_table_from_elsewhere_is_pasted_as_rows(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van", components={"canopy": 'name = "Canopy"\n'})
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "k")
        await reads(pilot, "Tasks of Canopy")
        app.post_message(events.Paste("1. Strip\n\n2. Mend ribs\r\n- Paint\n"))
        await reads(pilot, "Mend ribs", "Paint", "(2)")
        app.post_message(events.Paste("Title\tAfter\tHours\nOil\tmend\t4\nWax\t\t2\n"))
        await reads(pilot, "Wax")
        await pilot.press(*["up"] * 4, "tab")
        app.post_message(events.Paste("3\n5-7\n1"))  # a column downwards
        await reads(pilot, "5-7")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
    tasks = Workbench(shop).plan.tasks
    rows = {
        t.title: (t.after, t.estimate and t.estimate[1])
        for t in tasks.values()
        if t.component == "canopy"
    }
    assert rows == {
        "Strip": ((), None),
        "Mend ribs": (("canopy/strip",), 3),
        "Paint": (("canopy/mend-ribs",), 6),
        "Oil": (("canopy/mend-ribs",), 1),
        "Wax": ((), 2),
    }


@pytest.mark.parametrize(
    ("typed", "kind", "lasts"),
    [
        ("glue 24 hours", "glue", "24 hours"),
        ("2d cure", "cure", "2 days"),
        ("b 1mo", "bend set", "1 month"),
        ("1 week 2 days bend set", "bend set", "9 days"),
        ("insp", "inspection", ""),
    ],
)
def test_a_hold_is_read_whichever_of_kind_and_time_stands_first(
    typed: str, kind: str, lasts: str
) -> None:
    hold = read_hold(typed)
    assert hold is not None
    assert (hold["kind"], str(hold.get("lasts", ""))) == (kind, lasts)


@pytest.mark.parametrize("typed", ["d 2 days", "36 hours", "2 soon", "3 glue", "lamp", "2d 3d"])
def test_a_hold_that_could_be_several_or_none_is_asked_about(typed: str) -> None:
    with pytest.raises(Wrong):
        read_hold(typed)


async def test_a_row_that_cannot_be_read_is_named_and_all_that_was_typed_stays(
    tmp_path: Path,
) -> None:
    shop = make_shop(tmp_path / "van", components={"canopy": 'name = "Canopy"\n'})
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3", "k")
        await reads(pilot, "Tasks of Canopy")
        await press(pilot, "Strip\t6\nMend\ta lot\nPaint\t3\t2\t\tvarnish 2 days")
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
        await press(pilot, "Strip\t\t3\nMend\nPaint")
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
        await press(pilot, "Paint\t\tprime, 2")
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
        await press(pilot, "Paint\t\tframe x")
        await reads(pilot, 'no task or component has "frame x" in its title')
        await pilot.press("delete")
        await press(pilot, "the")
        await reads(pilot, 'may be "Scrape the frame"', "write more of it")
        await pilot.press("delete")
        await press(pilot, "4")
        await reads(pilot, "a task cannot come after itself")
        await pilot.press("escape")
        await reads(pilot, "Throw it away?")


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
