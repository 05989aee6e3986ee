"""What the logbook names and the plan does not hold any more is called by its id, on every page."""

from __future__ import annotations

import random
import shutil
from asyncio import sleep
from collections.abc import Iterator, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
import tomlkit
from textual.pilot import Pilot

from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.page import Page
from crewboard.terminal.screens import PAGES
from crewboard.terminal.screens.day_plan import DayPlanPage
from crewboard.terminal.screens.forecast import ForecastPage
from crewboard.terminal.screens.hours import HoursPage
from crewboard.terminal.widgets.rows import RowList
from tests.long_form import LONG
from tests.terminal.shop import Watch, open_app, until

SAMPLE = Path(__file__).parents[2] / "sample_project"
SHOWN_AT = datetime(2026, 5, 2, 9, 0)
KINDS = ("task", "component", "person", "supply", "hazard")
# These work something out in the background, and show it until they are asked to do it again.
SLOW = ("forecast", "plan")
# Where it should not take long: one thing of each kind is taken out, all of them together, and not
# each row is read.
FEW, EVERY = 1, 1 if LONG else 6
TURNS = 12  # of the loop, within which what a cursor tells has reached the page


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return shutil.copytree(SAMPLE, tmp_path / "van")


def things(folder: Path, kind: str) -> list[str]:
    """All that could be taken out, or some of it."""
    found = list(_things(folder, kind))
    return found if LONG else random.Random(kind).sample(found, min(FEW, len(found)))


def _things(folder: Path, kind: str) -> Iterator[str]:
    if kind == "person":
        yield from _table(folder / "crew.toml")["people"]
    elif kind == "supply":
        yield from _table(folder / "supplies.toml")["supplies"]
    elif kind == "hazard":
        yield from sorted({h for task in _tasks(folder).values() for h in task.get("hazards", ())})
    elif kind == "task":
        yield from _tasks(folder)
    else:
        for path in sorted((folder / "components").glob("*.toml")):
            yield path.stem
            yield from (f"{path.stem}/{part}" for part in _table(path).get("parts", ()))


def _table(path: Path) -> tomlkit.TOMLDocument:
    return tomlkit.parse(path.read_text(encoding="utf-8"))


def _tasks(folder: Path) -> dict[str, dict[str, Any]]:
    return {
        f"{path.stem}/{name}": task
        for path in sorted((folder / "components").glob("*.toml"))
        for name, task in _table(path).get("tasks", {}).items()
    }


def take_out(folder: Path, kind: str, some_id: str) -> None:
    """Take it out of the plan's files as somebody with an editor would, whatever names it."""
    stem, _, name = some_id.partition("/")
    if kind in ("task", "component") and not (folder / f"components/{stem}.toml").exists():
        return  # its whole component was taken out before
    if kind == "hazard":  # its sheet cannot be taken out; so the folder names one there is not
        for path in [*(folder / "days").rglob("*.toml"), *(folder / "components").glob("*.toml")]:
            text = path.read_text(encoding="utf-8")
            path.write_text(text.replace(f'"{some_id}"', f'"{some_id}-gone"'), encoding="utf-8")
    elif kind == "component" and not name:
        (folder / f"components/{stem}.toml").unlink()
    else:
        file, key, inside = {
            "person": ("crew.toml", some_id, "people"),
            "supply": ("supplies.toml", some_id, "supplies"),
            "task": (f"components/{stem}.toml", name, "tasks"),
            "component": (f"components/{stem}.toml", name, "parts"),
        }[kind]
        table = _table(folder / file)
        del table[inside][key]
        (folder / file).write_text(tomlkit.dumps(table), encoding="utf-8")


@pytest.fixture(autouse=True)
def _few_courses(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ForecastPage, "runs", 40)
    monkeypatch.setattr(ForecastPage, "ways", 10)
    monkeypatch.setattr(DayPlanPage, "effort", 0.01)


@pytest.mark.parametrize("kinds", [[kind] for kind in KINDS] if LONG else [KINDS])
async def test_every_page_is_read_to_its_last_row_whatever_was_taken_out_of_the_plan(
    kinds: Sequence[str], folder: Path
) -> None:
    app = open_app(folder, Watch(SHOWN_AT))
    async with app.run_test(size=(120, 40)) as pilot:
        for page in PAGES:
            if page.name not in SLOW:
                continue
            await pilot.press(page.key)
            await until(pilot, lambda: app.screen.query(RowList).first().at, 60)
        for gone in zip(*(things(folder, kind) for kind in kinds), strict=True):
            kept = {path: path.read_bytes() for path in folder.rglob("*.toml")}
            for kind, some_id in zip(kinds, gone, strict=True):
                take_out(folder, kind, some_id)
            app.look()
            await _read_all(pilot, app)
            for path, text in kept.items():
                path.write_bytes(text)
            app.look()
    assert app.return_code in (None, 0)


SAID = (
    'kind = "hold", hold = "decision", task = "arches/bend/arches/3", component = "gone", '
    'leave_alone = true, why = "x"',
    'kind = "hold", hold = "delivery", component = "gone", lasts = "1 week", leave_alone = true',
    'kind = "hold", hold = "cure", task = "doors/front-glue", component = "gone", '
    "leave_alone = true",
    'kind = "hold", hold = "dry", task = "gone/gone", lasts = "1 week"',
    'kind = "sign-in", who = "gone"',
    'kind = "begun", task = "gone/gone"',
    'kind = "hours", who = "gone", hours = 1.0, task = "gone/gone"',
    'kind = "ordered", supply = "gone"',
    'kind = "check", hazard = "gone", check = "gone", who = "gone", task = "gone/gone"',
)
"""Lines of a day that name what there is not, beside what there is."""


async def test_every_page_is_read_to_its_last_row_whatever_the_days_name_that_is_not_in_the_plan(
    folder: Path,
) -> None:
    with (folder / "days/2026/2026-05-02.toml").open("a", encoding="utf-8") as day:
        for number, said in enumerate(SAID):
            day.write(f"g000000{number} = {{ at = 2026-05-02T08:0{number}:00, {said} }}\n")
    app = open_app(folder, Watch(SHOWN_AT))
    async with app.run_test(size=(120, 40)) as pilot:
        await _read_all(pilot, app, every=1)
        app.open_task("arches/bend/arches/3")
        await pilot.pause()
        assert {fault.file for fault in app.workbench.faults} == {"components/gone.toml"}


async def _read_all(pilot: Pilot[int], app: CrewboardApp, every: int = EVERY) -> None:
    for page in PAGES:
        app.action_open(page.name)
        await until(pilot, lambda page=page: getattr(app.screen, "word", "") == page.word)  # type: ignore[misc]
        await _cursor_over_all(pilot, app.screen, every)  # type: ignore[arg-type]
    app.action_open("day")
    app.push_screen(HoursPage(app.board.at.date()))
    await pilot.pause()
    app.pop_screen()
    for task in list(app.board.plan.tasks) if LONG else list(app.board.standings)[:3]:
        for show in (app.open_task, app.why, app.what_then):
            show(task)
            await pilot.pause()
            app.pop_screen()


async def _cursor_over_all(pilot: Pilot[int], page: Page, every: int) -> None:
    for rows in page.query(RowList):
        for row in rows.rows[::every]:
            if rows.go_to(row.id):
                for _ in range(TURNS):
                    await sleep(0)
    await pilot.pause()
