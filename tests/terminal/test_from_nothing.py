"""A vehicle from nothing, by keys alone: what a crew types in its first half hour."""

from __future__ import annotations

from pathlib import Path

from textual.pilot import Pilot

from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.screens.vehicle import VehiclePage
from crewboard.workbench import Workbench
from tests.terminal.shop import asked, open_app, reads, until

NAMED = {" ": "space", ",": "comma", "-": "minus", "\t": "tab", "\n": "enter"}
# The tasks of each of the six components.
TASKS = {
    "Frame": "Strip frame\t6\t\t2\nMend frame\t8-12\t\t2\nPaint frame\t5\t\t\tdry 2 days",
    "Roof": "Bend ribs\t6\t\t3\tbend 1 month\nFit ribs\t8\t\t2\nLay boards\t9\t\t2",
    "Doors": "Glue doors\t4\t\t2\tglue 1 day\nHang doors\t3\t\t2",
    "Wiring": "Draw loom\t3\nRun loom\t7\t\t2\nTest lamps\t2",
    "Cab": "Line cab\t8\nFit seats\t4",
    "Tailboard": "Make board\t5\nHang board\t2\t\t2",
}


class Typist:
    """Types, and counts each key."""

    def __init__(self, pilot: Pilot[int]) -> None:
        self.pilot, self.keys = pilot, 0

    async def type(self, text: str) -> None:
        await self.press(*(NAMED.get(letter, letter) for letter in text))

    async def press(self, *keys: str) -> None:
        self.keys += len(keys)
        await self.pilot.press(*keys)

    async def save(self) -> None:
        app = self.pilot.app
        await self.press("ctrl+s")
        await until(self.pilot, lambda: not asked(app), 20)  # type: ignore[arg-type]


def name_under_cursor(app: CrewboardApp) -> str:
    page = app.screen
    assert isinstance(page, VehiclePage)
    return app.board.plan.components[page.chosen].name


async def test_six_components_fifteen_tasks_and_what_they_need_take_fewer_than_1000_keys(
    tmp_path: Path,
) -> None:
    app = open_app(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        crew = Typist(pilot)
        await reads(pilot, "A new vehicle")
        await crew.type("Our van\ta bread van\t\t\t\tAda Holt, Tom Reed, Ines Bratt, Jo Marsh\ty\t")
        await crew.type("112\tbench, yard\t10-\t\t\n")
        await reads(pilot, "Running gear")
        # The six usual ones that this van has not are unmarked.
        await crew.press("down", "space", "down", "space", "down", "down", "space")
        await crew.press("down", "space", "down", "down", "space", "down", "down", "space")
        await crew.type("\n\tCab, Tailboard")
        await crew.save()
        await reads(pilot, "Tailboard")
        for name, rows in TASKS.items():
            await crew.press("minus", "home")
            while not name_under_cursor(app).startswith(name):
                await crew.press("down")
            await crew.press("k")
            await reads(pilot, f"Tasks of {name}")
            await crew.type(rows)
            await crew.save()
        await crew.press("f7")
        for name, letters in (("Ash boards", "ribs"), ("Glue", "glue")):
            await crew.press("a")
            await reads(pilot, "A new supply")
            await crew.type(f"{name}\t\t\n")
            await reads(pilot, "for tasks")
            await crew.type(f"{letters}\n")
            await crew.save()
            await reads(pilot, name)
    print(f"\n{crew.keys} keys from nothing")
    assert crew.keys < 1000
    bench = Workbench(tmp_path)
    plan = bench.plan
    assert bench.faults == []
    assert {c.name for c in plan.components.values()} == set(TASKS)
    assert len(plan.tasks) == 15
    assert plan.tasks["frame/paint-frame"].after == ("frame/mend-frame",)
    assert sum(task.hold is not None for task in plan.tasks.values()) == 3
    assert len(plan.crew) == 4
    assert len(plan.supplies) == 2
    assert plan.tasks["doors/glue-doors"].supplies == ("glue",)
    assert plan.tasks["frame/mend-frame"].estimate == (8, 10, 12)
