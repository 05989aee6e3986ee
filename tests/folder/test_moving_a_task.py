"""A task goes to another component: what names it follows, and the logbook's names stay."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.folder.edit.plan_edits import Move
from crewboard.logbook.acts import Finished, Noted
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


WINDOWS = """\
name = "Windows"

[pieces.panes]
name = "Pane"
count = 6

[tasks.prime]
title = "Prime the sashes"
each = ["panes"]

# how it is glazed
[tasks.glaze]  # the panes
title = "Glaze the sashes" # in putty
each = [
  "panes 1 to 4",  # not the round ones
]
after = ["prime"] # each its own
# the putty skins
hold = { kind = "dry", lasts = "2 days" }

[tasks.wash]
title = "Wash the glass"
after = ["glaze"]
enough = { glaze = 2 }

[tasks.third]
title = "Look at the third"
after = ["glaze/panes/3"]
"""


@pytest.fixture
def windows(tmp_path: Path) -> Workbench:
    return Workbench(make_shop(tmp_path / "van", components={"doors": DOORS, "windows": WINDOWS}))


def test_a_task_that_moves_takes_its_comments_along(windows: Workbench) -> None:
    assert windows.change(Move("windows/glaze", "doors")).kept
    components = Path(windows.folder.root) / "components"
    doors, left = (components / f"{name}.toml" for name in ("doors", "windows"))
    start = WINDOWS.index("# how it is glazed")
    lines = WINDOWS[start : WINDOWS.index("[tasks.wash]")]
    carried = lines.replace('"panes 1', '"windows/panes 1').replace('"prime"', '"windows/prime"')
    assert doors.read_text() == f"{DOORS}\n{carried.rstrip()}\n"
    rest = WINDOWS.replace(lines, "").replace('"glaze', '"doors/glaze')
    assert left.read_text() == rest.replace("{ glaze", '{ "doors/glaze"')
    assert windows.change(Move("doors/glaze", "windows")).kept
    assert lines.strip() in left.read_text().replace('"windows/', '"')
    assert doors.read_text() == DOORS


def test_work_on_each_of_several_moves_and_each_piece_keeps_its_own_order(
    windows: Workbench,
) -> None:
    assert windows.change(Move("windows/glaze", "doors")).kept
    assert windows.faults == []
    tasks = windows.plan.tasks
    assert [t for t in tasks if "glaze" in t] == [f"doors/glaze/panes/{n}" for n in range(1, 5)]
    assert tasks["doors/glaze/panes/2"].pieces == ("windows/panes/2",)
    assert tasks["windows/third"].after == ("doors/glaze/panes/3",)
    assert tasks["windows/wash"].enough == {"doors/glaze": 2}
    now = datetime(2026, 5, 2, 10)
    done = Said(Finished("windows/prime/panes/2"), now, despite="before the logbook", by="ada")
    assert windows.record([done], by="ada", now=now).kept
    states = {n: windows.board(now)[f"doors/glaze/panes/{n}"].state for n in (2, 3)}
    assert states == {2: "ready", 3: "waiting"}


def test_work_on_each_of_several_stays_once_the_logbook_names_it_for_one_piece(
    windows: Workbench,
) -> None:
    now = datetime(2026, 5, 2, 10)
    act = Noted("the putty is old", task="windows/glaze/panes/3")
    assert windows.record([Said(act, now)], by="ada", now=now).kept
    (refused,) = windows.change(Move("windows/glaze", "doors")).refused
    assert "the logbook names" in refused.says
    assert "set it aside here" in refused.mend
