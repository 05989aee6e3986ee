"""Pieces on the vehicle's page: added at the bench on one line, read, edited, taken out."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from crewboard.folder.edit.plan_edits import Key
from crewboard.terminal.forms.form import Form
from crewboard.terminal.widgets.rows import RowList
from crewboard.workbench import Workbench
from tests.terminal.shop import asked, day_file, make_shop, open_app, reads, seen, until

GATE = """\
name = "Gate"

[pieces.rails]
name = "Rail"
count = 3
spares = 1
material = "ash"
as_found = "missing"

[pieces.rails.2]
as_found = "original"
keep = true
period = "about 1930"

[pieces.wire]
name = "Lamp wire"
runs_from = "switchboard"
runs_to = "tail lamp"
live = false

[tasks.shape]
title = "Shape"
each = ["rails"]
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "van", components={"gate": GATE})


def gate(shop: Path) -> str:
    return (shop / "components/gate.toml").read_text(encoding="utf-8")


KEYS = {" ": "space", "-": "minus", ".": "full_stop", ",": "comma", "+": "plus"}


async def typed(pilot: Pilot[int], text: str) -> int:
    """Type a text; how many keys that took."""
    await pilot.press(*(KEYS.get(letter, letter) for letter in text))
    return len(text)


async def on_gate(pilot: Pilot[int], row: str = "gate") -> None:
    await pilot.press("f3")
    await reads(pilot, "Frame", "Roof")
    rows = pilot.app.screen.query_one("#tree", RowList)
    rows.go_to("gate")
    if row != "gate":
        await pilot.press("right")
        rows.go_to(f"piece {row}")
    await pilot.pause()


async def test_nine_pieces_are_added_at_the_bench_in_ten_keys(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await on_gate(pilot)
        keys = 0
        await pilot.press("p")
        await reads(pilot, "Pieces of Gate")
        keys += 1 + await typed(pilot, "9 ribs")
        await pilot.press("enter")
        keys += 1
        await reads(pilot, "Ribs: 9")
        assert keys <= 10
    assert '[pieces.ribs]\nname = "Rib"\ncount = 9\n' in gate(shop)
    assert Workbench(shop).plan.pieces["gate/ribs/9"].name == "Rib 9"


async def test_several_kinds_on_one_line_spares_too(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await on_gate(pilot)
        await pilot.press("p")
        await reads(pilot, "Pieces of Gate")
        await typed(pilot, "ribs 1 to 9, ridge, 7 arches + 1 spare")
        await pilot.press("enter")
        await reads(pilot, "added to Gate: Rib 1 to 9, Ridge, Arch 1 to 7 and 1 spare")
        await pilot.press("u")
        await until(pilot, lambda: gate(shop) == GATE)
    plan = Workbench(shop).plan
    assert "gate/ribs" not in plan.several


async def test_what_cannot_be_read_is_said_and_stays_to_be_mended(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await on_gate(pilot)
        await pilot.press("p")
        await reads(pilot, "Pieces of Gate")
        await typed(pilot, "4 rails")
        await pilot.press("enter")
        await until(pilot, lambda: "rails 1 to 3 are there already" in asked(app))
        await pilot.press(*["backspace"] * 7)
        await typed(pilot, "rails 4 to 6")
        await pilot.press("enter")
        await reads(pilot, "Rails: 6 and 1 spare")
    assert "count = 6" in gate(shop)


async def test_pieces_of_a_kind_are_one_row_until_it_is_opened(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await on_gate(pilot)
        await pilot.press("right")
        text = await reads(pilot, "Rails: 3 and 1 spare, ash", "2 missin", "Lamp wire:", "dead")
        assert "Rail 2:" not in text
        app.screen.query_one("#tree", RowList).go_to("piece gate/rails")
        await pilot.press("right")
        text = await reads(pilot, "Rail 2: original, about 1930", "Rail 3: missing")
        (kept,) = [line for line in text.splitlines() if "Rail 2:" in line]
        assert "kept" in kept.split("Rail 2")[0]
        await pilot.press("left")
        await until(pilot, lambda: "Rail 2:" not in seen(app))


async def test_the_sheet_of_a_piece_says_what_is_known_and_done(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await on_gate(pilot, "gate/rails")
        await pilot.press("right", "down", "down", "enter")
        await reads(
            pilot, "Rail 2", "kept for ever:", "material: ash", "original, about 1930",
            "What is done to it", "Shape: Rail 2",
        )  # fmt: skip
        await pilot.press("o", *"failed", "enter")
        await until(pilot, lambda: "Failed: Rail 2" in asked(app))
        await typed(pilot, "split")
        await pilot.press("ctrl+s")
        await reads(pilot, "failed Sat 2 May 2026", "split")
        await pilot.press("o", *"spare", "enter")
        await until(pilot, lambda: "Takes the place of Rail 2" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "Instead of Rail 2" in asked(app))
        await pilot.press("enter")
        await reads(pilot, "its place was taken by Rail 4")
    assert "took its place" in day_file(shop)


async def test_one_of_several_is_edited_alone_and_all_of_them_together(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await on_gate(pilot, "gate/rails")
        await pilot.press("e")
        await until(pilot, lambda: "how many" in asked(app))
        await pilot.press("tab", "tab", "tab", "tab")
        await typed(pilot, "rail")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: 'kind = "rail"' in gate(shop))
        await pilot.press("right", "down", "e")
        await until(pilot, lambda: "said of this one alone" in asked(app))
        await pilot.press("tab")
        await typed(pilot, " with a knot")
        await pilot.press("ctrl+s")
        await until(pilot, lambda: '[pieces.rails.1]\nkind = "rail with a knot"\n' in gate(shop))
    pieces = Workbench(shop).plan.pieces
    assert pieces["gate/rails/3"].kind == "rail"


async def test_the_last_of_several_is_taken_out_and_no_other(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await on_gate(pilot, "gate/rails")
        await pilot.press("right", "down", "delete")
        await until(pilot, lambda: "is not the last of its kind" in asked(app))
        await pilot.press("escape")
        await pilot.press("down", "down", "down", "delete")
        await until(pilot, lambda: '"Rail 4" is removed from the plan' in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "spares" not in gate(shop))


async def field(pilot: Pilot[int], key: Key) -> None:
    """Put the keys on a field of the open form."""
    form = pilot.app.screen
    assert isinstance(form, Form)
    (control,) = [each.control() for each in form.fields if each.key == key]
    control.focus()
    await pilot.pause()


async def test_a_task_is_made_one_for_each_by_picking_its_pieces(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3")
        await reads(pilot, "Frame", "Roof")
        app.screen.query_one("#tree", RowList).go_to("gate")
        await pilot.press("a")
        await until(pilot, lambda: "a task in Gate" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, Form))
        await typed(pilot, "Fit")
        await field(pilot, "each")
        await pilot.press("enter")
        await until(pilot, lambda: "all 4 of them, Gate" in asked(app))
        await typed(pilot, "rails")
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, Form))
        await field(pilot, "after")
        await pilot.press("enter")
        await until(pilot, lambda: "for each of 4 pieces" in asked(app))
        await typed(pilot, "shape")
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, Form))
        for key, word, value in (("enough", "2", "Shape: 2"), ("within", "8 h", "Shape: 8 hours")):
            await field(pilot, key)
            await pilot.press("enter")
            await typed(pilot, "shape")
            await pilot.press("enter")
            await until(pilot, lambda: "empty:" in asked(app))
            await typed(pilot, word)
            await pilot.press("enter")
            await until(pilot, lambda value=value: value in asked(app))  # type: ignore[misc]
        await field(pilot, "uses")
        await pilot.press("enter")
        await until(pilot, lambda: "another jig" in asked(app))
        await pilot.press("enter")
        await typed(pilot, "Long bench")
        await pilot.press("enter")
        await until(pilot, lambda: "Long bench" in asked(app))
        await field(pilot, "in_one_go")
        await pilot.press("space", "ctrl+s")
        await until(pilot, lambda: "[tasks.fit]" in gate(shop))
    made = gate(shop).partition("[tasks.fit]")[2]
    for line in (
        'each = ["rails"]', 'after = ["shape"]', "enough = { shape = 2 }",
        'within = { shape = "8 hours" }', 'uses = ["long-bench"]', "in_one_go = true",
    ):  # fmt: skip
        assert line in made
    bench = Workbench(shop)
    assert bench.faults == []
    assert bench.plan.vehicle.jigs["long-bench"].name == "Long bench"


async def test_a_task_for_each_is_edited_as_it_is_written(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await on_gate(pilot)
        await pilot.press("right")
        rows = app.screen.query_one("#tree", RowList)
        rows.go_to("gate/shape")
        await pilot.press("right", "down")
        assert rows.at == "gate/shape/rails/1"
        await pilot.press("e")
        await until(pilot, lambda: "Edit: Shape" in asked(app))
        await typed(pilot, " them")
        await field(pilot, "spares")
        await pilot.press("space", "ctrl+s")
        await until(pilot, lambda: 'title = "Shape them"' in gate(shop))
    assert "spares = true\n" in gate(shop)
    assert 'each = ["rails"]' in gate(shop)


async def test_a_find_also_finds_a_piece_of_a_closed_branch(shop: Path) -> None:
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f3")
        await reads(pilot, "Frame", "Roof")
        await pilot.press("slash")
        await typed(pilot, "lamp wire")
        await reads(pilot, "Lamp wire")
        await pilot.press("enter")
        assert app.screen.query_one("#tree", RowList).at == "piece gate/wire"
