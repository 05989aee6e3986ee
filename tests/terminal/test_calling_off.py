"""A work day called off on the screen, and an evening that the screen knows of."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from tests.terminal.shop import Watch, asked, make_shop, open_app, reads, types, until


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return make_shop(tmp_path)


async def test_a_work_day_is_called_off_with_the_reason_and_held_after_all(shop: Path) -> None:
    before = (shop / "vehicle.toml").read_text()
    app = open_app(shop, Watch(datetime(2026, 5, 1, 10)), by="ada")
    async with app.run_test(size=(100, 30)) as pilot:
        await reads(pilot, "The next is Sat 2 May 2026")
        await pilot.press("d")
        await reads(pilot, "Called off, or takes place after all", "Sat 2 May 2026")
        await pilot.press(*"off", "enter")
        await reads(pilot, "Call off Sat 2 May 2026")
        types(app, *"heating")
        await pilot.press("enter")
        await reads(pilot, "called off: Sat 2 May 2026", "The next is Sat 6 Jun 2026")
        assert (
            'closed = [{ date = 2026-05-02, why = "heating" }]'
            in (shop / "vehicle.toml").read_text()
        )
        await pilot.press("d")
        await reads(pilot, "called off: heating")
        await pilot.press(*"heating", "enter")
        await reads(pilot, "takes place after all: Sat 2 May 2026", "The next is Sat 2 May 2026")
        await pilot.press("u")
        await until(pilot, lambda: "heating" in (shop / "vehicle.toml").read_text())
        await pilot.press("u")
        await until(pilot, lambda: (shop / "vehicle.toml").read_text() == before)
        assert not asked(app)


async def test_a_day_that_is_called_off_says_so_and_why(shop: Path) -> None:
    vehicle = shop / "vehicle.toml"
    vehicle.write_text(
        vehicle.read_text().replace(
            "\n[shop]", 'closed = [{ date = 2026-05-02, why = "the hall is let" }]\n\n[shop]'
        )
    )
    app = open_app(shop)
    async with app.run_test(size=(100, 30)) as pilot:
        await reads(pilot, "Today is called off: the hall is let. The next is Sat 6 Jun 2026")


async def test_the_form_of_the_vehicle_keeps_the_reasons_of_days_left_out(shop: Path) -> None:
    vehicle = shop / "vehicle.toml"
    closed = 'closed = [2026-08-01, { date = 2026-05-02, why = "let" }] # both\n'
    vehicle.write_text(vehicle.read_text().replace("\n[shop]", f"{closed}\n[shop]"))
    app = open_app(shop)
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("f3")
        await reads(pilot, "Frame")
        await pilot.press("home", "o", *"settings", "enter")
        await reads(pilot, "2026-08-01, 2026-05-02")
        await pilot.press("tab", "tab", "tab")
        await pilot.press("end", "x", "ctrl+s")
        await until(pilot, lambda: not asked(app))
    assert closed in vehicle.read_text()
