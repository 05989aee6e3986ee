"""A task goes to another component: what names it follows, and the logbook's names stay."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.folder.edit.plan_edits import Move
from crewboard.logbook.acts import Noted
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import make_shop

DOORS = """\
name = "Doors"

[parts.left]
name = "Left door"

[tasks.paint]
title = "Paint the doors"
after = ["frame/prime", "hang"]

[tasks.hang]
title = "Hang the doors"

[tasks.trim]
title = "Trim the doors"
after = ["paint"]
"""


@pytest.fixture
def bench(tmp_path: Path) -> Workbench:
    return Workbench(make_shop(tmp_path / "van", components={"doors": DOORS}))


def test_a_task_that_moves_is_named_where_it_is_by_all_that_comes_after_it(
    bench: Workbench,
) -> None:
    assert bench.change(Move("frame/prime", "doors")).kept
    plan = bench.plan
    assert bench.faults == []
    assert "frame/prime" not in plan.tasks
    assert plan.tasks["doors/prime"].after == ("frame/scrape",)
    assert plan.tasks["doors/paint"].after == ("doors/prime", "doors/hang")
    hold = plan.tasks["doors/prime"].hold
    assert hold is not None
    assert str(hold.lasts) == "36 hours"
    text = (Path(bench.folder.root) / "components/doors.toml").read_text()
    assert 'after = ["prime", "hang"]' in text
    assert 'after = ["frame/scrape"]' in text


def test_a_task_that_moves_to_a_part_belongs_to_it(bench: Workbench) -> None:
    assert bench.change(Move("frame/weld", "doors/left")).kept
    assert bench.plan.tasks["doors/weld"].component == "doors/left"
    assert bench.change(Move("doors/paint", "frame")).kept
    assert bench.plan.tasks["frame/paint"].after == ("frame/prime", "doors/hang")
    assert bench.plan.tasks["doors/trim"].after == ("frame/paint",)


def test_a_task_that_the_logbook_names_stays_in_its_component(bench: Workbench) -> None:
    now = datetime(2026, 5, 2, 10)
    assert bench.record([Said(Noted("it is dry", task="frame/prime"), now)], by="ada", now=now).kept
    outcome = bench.change(Move("frame/prime", "doors"))
    assert not outcome.kept
    assert "the logbook names" in outcome.refused[0].says


def test_a_task_does_not_move_onto_another_of_its_name(bench: Workbench) -> None:
    assert bench.change(Move("doors/hang", "frame")).kept
    outcome = bench.change(Move("frame/scrape", "frame"))
    assert not outcome.kept
