"""A crew that measures in °F reads and types °F; the folder keeps °C."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.plan.duration import Duration
from crewboard.plan.hold import Conditions, Hold
from crewboard.terminal.doing.reading import parsed
from crewboard.terminal.planning.hold_fields import hold_answered, hold_fields
from tests.terminal.shop import day_file, make_shop, open_app, reads, until


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    root = make_shop(tmp_path / "van")
    vehicle = root / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("format = 1", 'format = 1\nunits = "imperial"'))
    return root


async def test_a_shop_reading_is_typed_and_shown_in_fahrenheit(shop: Path) -> None:
    app = open_app(shop, by="ada")
    async with app.run_test(size=(90, 30)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("r")
        await reads(pilot, "temperature in °F")
        await pilot.press(*"68", "space", *"55", "enter")
        await until(pilot, lambda: "celsius = 20, humidity = 55" in day_file(shop))
        app.action_open("logbook")
        await reads(pilot, "shop reading: 68 °F, 55 % humidity")
        await pilot.press("enter", "e")
        await reads(pilot, "temperature, °F", "68")
        await pilot.press("tab", *"50", "ctrl+s")
        await until(pilot, lambda: "celsius = 10" in day_file(shop))


async def test_a_holds_conditions_are_typed_and_shown_in_fahrenheit(shop: Path) -> None:
    hold = Hold("dry", Duration(days=2), "time", conditions=Conditions(10.3, 25))
    app = open_app(shop, by="ada")
    async with app.run_test(size=(90, 30)):
        fields = hold_fields(hold, {}, "imperial")
        (degrees,) = [each for each in fields if each.key == ("hold", "c")]
        assert (degrees.label, degrees.value) == ("  °F from-to", "50.5-77")
        assert degrees.answer() == (10.3, 25)  # what nobody typed is not rounded either
        degrees.control().value = "50-86"  # type: ignore[attr-defined]
        told = hold_answered(fields)
    assert told is not None
    assert told["conditions"] == Conditions(10.0, 30.0)


def test_the_unit_typed_with_a_reading_is_meant_for_its_lowest_too() -> None:
    celsius = parsed("20 C low 5", imperial=True)
    assert celsius is not None
    assert (celsius.celsius, celsius.lowest_c) == (20, 5)
    fahrenheit = parsed("68 F low 41")
    assert fahrenheit is not None
    assert (fahrenheit.celsius, fahrenheit.lowest_c) == (20, 5)
