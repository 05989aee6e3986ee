"""What the air of the shop must be for the work itself: no glue is spread in the cold."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from crewboard.folder.edit.plan_edits import Change
from crewboard.plan.hold import Conditions
from crewboard.terminal.planning.task_form import DAMP, WARM, TaskForm
from crewboard.workbench import Workbench
from tests.command.calling import Shell
from tests.terminal.shop import make_shop

RAILS = """\
name = "Rails"

[tasks.glue]
title = "Glue the rails"
hours = [1, 2, 3]
conditions = { at_least_c = 10, at_most_humidity = 85 }
hold = { kind = "glue", lasts = "24 hours" }

[tasks.plane]
title = "Plane the rails"
hours = [1, 2, 3]
"""
BY = ("--by", "ada")


@pytest.fixture
def van(tmp_path: Path, call: Shell) -> Path:
    van = make_shop(tmp_path / "van", components={"rails": RAILS})
    assert call("sign-in", van, "ada", "ben", *at("09:00"), *BY).code == 0
    return van


def at(clock: str) -> tuple[str, str]:
    return ("--at", f"2026-05-02T{clock}")


def read(call: Shell, van: Path, celsius: float, humidity: float, clock: str) -> None:
    typed = ("reading", van, "--celsius", celsius, "--humidity", humidity, *at(clock), *BY)
    assert call(*typed).code == 0


def order(call: Shell, van: Path, clock: str) -> list[str]:
    return [str(each["task"]) for each in call("day", van, "--json", *at(clock)).form["first"]]


def test_begin_asks_where_the_shop_is_too_cold_for_the_work(van: Path, call: Shell) -> None:
    read(call, van, 8, 60, "09:10")
    begin = ("begin", van, "glue", "--who", "ada", *at("09:20"), *BY)
    ended = call(*begin)
    assert ended.code == 1
    says = 'for "Glue the rails" the shop is too cold (8 °C, it wants 10 °C)'
    assert says in ended.err
    assert call(*begin, "--despite", "the rails lie in the warm room").code == 0


def test_what_the_last_reading_forbids_stands_below_with_the_reason(van: Path, call: Shell) -> None:
    assert order(call, van, "09:05").index("rails/glue") < order(call, van, "09:05").index(
        "rails/plane"
    )
    read(call, van, 8, 60, "09:10")
    below = order(call, van, "09:20")
    assert below.index("rails/glue") > below.index("rails/plane")
    said = " ".join(call("day", van, *at("09:20")).out.split())
    assert "not now: too cold (8 °C, it wants 10 °C)" in said
    read(call, van, 12, 60, "10:00")
    assert order(call, van, "10:05") == order(call, van, "09:05")


def test_damp_air_forbids_as_cold_does(van: Path, call: Shell) -> None:
    read(call, van, 15, 92, "09:10")
    ended = call("begin", van, "glue", "--who", "ada", *at("09:20"), *BY)
    assert "too damp (92 %, it wants 85 %)" in ended.err


def test_the_day_plan_leaves_out_what_the_air_forbids(van: Path, call: Shell) -> None:
    read(call, van, 8, 60, "09:10")
    planned = call("plan-day", van, "--json", *at("09:20")).form
    left = {each["task"]: each["why"] for each in planned["not_placed"]}
    assert left["rails/glue"] == "too cold (8 °C, it wants 10 °C)"
    assert "rails/plane" not in left


def test_the_conditions_may_be_the_shops_own(van: Path, call: Shell) -> None:
    path = van / "vehicle.toml"
    path.write_text(path.read_text() + "conditions = { at_least_c = 12 }\n")
    path = van / "components" / "rails.toml"
    own = "conditions = { at_least_c = 10, at_most_humidity = 85 }"
    path.write_text(path.read_text().replace(own, 'conditions = "shop"'))
    assert call("check", van).code == 0
    read(call, van, 11, 60, "09:10")
    assert "it wants 12 °C" in call("begin", van, "glue", "--who", "ada", *at("09:20"), *BY).err


def test_the_sheet_of_the_task_says_what_it_wants(van: Path, call: Shell) -> None:
    said = " ".join(call("task", van, "glue", *at("09:05")).out.split())
    assert "only done at: 10 °C or above and 85 % humidity or below" in said


def test_the_form_writes_them_as_one_value(van: Path) -> None:
    """Of the two fields of the form the one that was changed, and the other as it stands."""
    bench = Workbench(van)
    form = TaskForm.__new__(TaskForm)
    form.task = bench.plan.tasks["rails/glue"]
    values: dict[Any, Any] = {WARM: (5.0, None)}
    form._put_conditions(values)
    assert bench.change(Change("task", "rails/glue", values)).kept
    assert bench.plan.tasks["rails/glue"].conditions == Conditions(5, None, None, 85)
    emptied: dict[Any, Any] = {WARM: None, DAMP: None}
    form._put_conditions(emptied)
    assert emptied == {"conditions": None}
    assert bench.change(Change("task", "rails/glue", emptied)).kept
    assert not bench.plan.tasks["rails/glue"].conditions
