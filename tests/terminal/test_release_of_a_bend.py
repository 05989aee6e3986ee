"""A bend let go on the screens: what it came to is asked, and the next form is told."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from textual.widgets import Input

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Bent, Reckoned, Released
from crewboard.workbench import Said, Workbench
from tests.command.test_reckon import RIBS
from tests.command.test_release_of_a_bend import rise_of_the_form
from tests.terminal.shop import Watch, asked, make_shop, open_app, reads, types, until

BENT_ON, LATER = datetime(2026, 5, 1, 12), datetime(2026, 6, 6, 10)
RIBS_ALONE = f'name = "Ribs"\n{RIBS}'
KEPT = Reckoned(
    "form",
    "radius about 1680.2 mm, rise about 352.7 mm over a chord of 2060 mm",
    ("chord = 2060 mm", "rise = 320 mm"),
    (
        "species = ash | as the plan has Rib 1",
        "thickness = 26 mm | as the plan has Rib 1",
        "bend = ash, 26 mm thick, over a chord of 2060 mm, form 355 mm, came to 322 mm",
    ),
    task="ribs/bend/ribs/2",
)


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A rib on its form, a form that was reckoned for the next one."""
    shop = make_shop(tmp_path / "van", components={"ribs": RIBS_ALONE})
    day = shop / "days/2026/2026-05-01.toml"
    day.parent.mkdir(parents=True)
    day.write_text(
        "date = 2026-05-01\n\n[entries]\nfnshdrb1 = { at = 2026-05-01T12:00:00, "
        'by = "ada", kind = "finished", task = "ribs/bend/ribs/1" }\n'
    )
    first = Bent("ash", "26 mm", "355 mm", "322 mm", "2060 mm")
    said = [Said(first, BENT_ON), Said(KEPT, BENT_ON)]
    outcome = Workbench(shop).record(said, by="ada", now=BENT_ON)
    assert outcome.kept, outcome.refused
    return shop


def acts(shop: Path, kind: type) -> list[Any]:
    days = Folder(shop).logbook.days.values()
    return [entry.act for day in days for entry in day.entries if isinstance(entry.act, kind)]


@pytest.mark.parametrize("size", [(80, 24), (110, 36)])
async def test_what_it_came_to_is_written_with_the_release_and_the_next_form_told(
    shop: Path, size: tuple[int, int]
) -> None:
    app = open_app(shop, Watch(LATER), by="ada")
    async with app.run_test(size=size) as pilot:
        await pilot.press("f4", "v")
        await until(pilot, lambda: 'Release: "Bend the ribs: Rib 1' in asked(app))
        typed = [one.value for one in app.screen.query(Input)]
        assert typed == ["", "", "", "0", "355 mm", "2060 mm", "ash", "26 mm", ""]
        types(app, *"fair", "down", *"310", "space", *"mm", "down", *"loft[b]", "ctrl+s")
        await until(pilot, lambda: acts(shop, Released))
        (released,), bends = acts(shop, Released), acts(shop, Bent)
        assert released.why == "fair"
        assert bends[-1] == Bent(
            *("ash", "26 mm", "355 mm", "310 mm", "2060 mm", None, 0.0, "loft[b]"),
            task="ribs/bend/ribs/1",
            piece="ribs/ribs/1",
        )
        was, now = rise_of_the_form(322), rise_of_the_form(322, 310)
        said = f'form for "Bend the ribs: Rib 2": rise was {was}, now {now}, because bent ash'
        await until(pilot, lambda: said in asked(app))
        await pilot.press("enter")
        await reads(pilot, 'released: "Bend the ribs: Rib 1"')


async def test_the_result_may_be_left_empty(shop: Path) -> None:
    app = open_app(shop, Watch(LATER), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "v")
        await until(pilot, lambda: "Release:" in asked(app))
        await pilot.press("ctrl+s")
        await until(pilot, lambda: acts(shop, Released))
        assert len(acts(shop, Bent)) == 1
        await until(pilot, lambda: not asked(app))


async def test_early_it_wants_the_reason_and_nothing_typed_is_lost(shop: Path) -> None:
    app = open_app(shop, Watch(datetime(2026, 5, 9, 10)), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "v")
        await until(pilot, lambda: "why early" in asked(app))
        types(app, "down", *"310mm", "ctrl+s")
        await until(pilot, lambda: "it is early" in asked(app))
        assert acts(shop, Released) == []
        assert len(acts(shop, Bent)) == 1
        types(app, "up", *"needed", "ctrl+s")
        await until(pilot, lambda: acts(shop, Released))
        assert acts(shop, Bent)[-1].came_to == "310mm"
        await until(pilot, lambda: "The form of the next bend" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: not asked(app))


async def test_of_several_bends_each_is_asked_in_turn(shop: Path) -> None:
    with (shop / "days/2026/2026-05-01.toml").open("a", encoding="utf-8") as day:
        day.write(
            'fnshdrb2 = { at = 2026-05-01T12:30:00, by = "ada", kind = "finished", '
            'task = "ribs/bend/ribs/2" }\n'
        )
    app = open_app(shop, Watch(LATER), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f4", "v")
        await until(pilot, lambda: "Which?" in asked(app))
        await pilot.press("ctrl+a", "enter")
        await until(pilot, lambda: 'Release: "Bend the ribs: Rib 1' in asked(app))
        types(app, "down", *"310", "space", *"mm", "ctrl+s")
        await until(pilot, lambda: 'Release: "Bend the ribs: Rib 2' in asked(app))
        types(app, "down", *"314", "space", *"mm", "ctrl+s")
        await until(pilot, lambda: len(acts(shop, Released)) == 2)
        assert [bend.came_to for bend in acts(shop, Bent)[1:]] == ["310 mm", "314 mm"]
        # Nothing is left to bend: no form is told.
        await until(pilot, lambda: not asked(app))
