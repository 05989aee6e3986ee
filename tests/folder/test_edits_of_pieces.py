"""Edits of pieces, jigs and tasks for each: whatever points at them stays right."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from crewboard.folder.edit.plan_edits import Add, Change, PlanEdit, Remove, Rename
from crewboard.logbook.acts import Finished, PieceFailed
from crewboard.plan.duration import Duration
from crewboard.workbench import Outcome, Said, Workbench

ROOF = """\
name = "Roof"

# traced from the old ones
[pieces.ribs]
name = "Rib"
count = 3
spares = 1
material = "ash"  # not oak

[pieces.ribs.2]
as_found = "original"

[pieces.ridge]
name = "Ridge board"

[tasks.bend]
title = "Bend"
each = ["ribs"]
spares = true
uses = ["form"]

[tasks.fit]
title = "Fit"
each = ["ribs 1 to 3"]
after = ["bend"]
within = { bend = "8 hours" }

[tasks.canvas]
title = "Stretch the canvas"
pieces = ["ribs/1", "ridge"]
after = ["fit"]
enough = { fit = 2 }
"""
DECK = """\
name = "Deck"

[tasks.shore]
title = "Shore the roof"
pieces = ["roof/ribs"]
after = ["roof/fit", "roof/fit/ribs/2"]
enough = { "roof/fit" = 1 } # while it is open
"""
VEHICLE = """\
name = "Wagon"
[work_days]
every = ["saturday"]
[jigs.form]
name = "Bending form"
"""
AT = datetime(2026, 5, 2, 9, 0)


@pytest.fixture
def bench(tmp_path: Path) -> Workbench:
    (tmp_path / "components").mkdir()
    (tmp_path / "vehicle.toml").write_text(VEHICLE)
    (tmp_path / "crew.toml").write_text('[people.ada]\nname = "Ada"\nlead = true\nadult = true\n')
    (tmp_path / "components/roof.toml").write_text(ROOF)
    (tmp_path / "components/deck.toml").write_text(DECK)
    bench = Workbench(tmp_path)
    assert bench.faults == []
    return bench


def text(bench: Workbench, name: str) -> str:
    return (bench.folder.root / f"components/{name}.toml").read_text()


def kept(outcome: Outcome) -> None:
    assert outcome.refused == ()


def refusal(bench: Workbench, edit: PlanEdit) -> str:
    before = text(bench, "roof")
    outcome = bench.change(edit)
    assert outcome.refused
    assert text(bench, "roof") == before
    return str(outcome.refused[0])


def test_pieces_added_are_a_table_at_the_end_of_their_like(bench: Workbench) -> None:
    kept(bench.change(Add("piece", "roof/sills", {"name": "Sill", "count": 2, "spares": 1})))
    assert '[pieces.sills]\nname = "Sill"\ncount = 2\nspares = 1\n' in text(bench, "roof")
    assert [bench.plan.pieces[p].spare for p in bench.plan.several["roof/sills"]] == [
        False,
        False,
        True,
    ]
    assert "already" in refusal(bench, Add("piece", "roof/ridge", {"name": "Ridge"}))


def test_what_is_said_of_one_rib_alone_stands_in_its_own_table(bench: Workbench) -> None:
    kept(bench.change(Change("piece", "roof/ribs/3", {"keep": True, "period": "about 1930"})))
    assert '[pieces.ribs.3]\nkeep = true\nperiod = "about 1930"\n' in text(bench, "roof")
    kept(bench.change(Change("piece", "roof/ribs/2", {"as_found": None})))
    assert bench.plan.pieces["roof/ribs/2"].as_found == "unknown"
    assert bench.plan.pieces["roof/ribs/3"].keep


def test_renamed_ribs_are_renamed_wherever_they_are_named(bench: Workbench) -> None:
    kept(bench.change(Rename("piece", "roof/ribs", "bows")))
    roof, deck = text(bench, "roof"), text(bench, "deck")
    assert roof == ROOF.replace("pieces.ribs", "pieces.bows").replace('"ribs', '"bows')
    assert deck == DECK.replace("ribs", "bows")
    assert bench.faults == []


def test_a_renamed_component_takes_its_pieces_and_their_tasks_along(bench: Workbench) -> None:
    kept(bench.change(Rename("component", "roof", "top")))
    assert text(bench, "top") == ROOF
    assert text(bench, "deck") == DECK.replace("roof/", "top/")


def test_a_renamed_task_for_each_is_renamed_in_enough_and_within(bench: Workbench) -> None:
    kept(bench.change(Rename("task", "roof/fit", "press")))
    assert "enough = { press = 2 }" in text(bench, "roof")
    assert 'after = ["roof/press", "roof/press/ribs/2"]' in text(bench, "deck")
    assert 'enough = { "roof/press" = 1 } # while it is open' in text(bench, "deck")
    kept(bench.change(Rename("task", "roof/bend", "steam")))
    assert 'within = { steam = "8 hours" }' in text(bench, "roof")
    assert bench.faults == []


def test_a_removed_task_leaves_no_rule_that_rests_on_it(bench: Workbench) -> None:
    kept(bench.change(Remove("task", "roof/fit")))
    assert "enough" not in text(bench, "roof") + text(bench, "deck")
    assert 'after = ["roof/bend"]' in text(bench, "deck")
    assert bench.faults == []


def test_a_renamed_jig_is_renamed_in_the_tasks_that_use_it(bench: Workbench) -> None:
    kept(bench.change(Rename("jig", "form", "strap-form")))
    assert 'uses = ["strap-form"]' in text(bench, "roof")
    assert "needed by" in refusal(bench, Remove("jig", "strap-form"))
    kept(bench.change(Change("task", "roof/bend", {"uses": ()})))
    kept(bench.change(Remove("jig", "strap-form")))
    assert bench.plan.vehicle.jigs == {}


def test_a_task_after_one_for_each_keeps_it_when_its_order_is_edited(bench: Workbench) -> None:
    kept(bench.change(Change("task", "roof/canvas", {"after": ("roof/fit", "roof/bend")})))
    assert 'after = ["fit", "bend"]' in text(bench, "roof")
    kept(bench.change(Change("task", "roof/canvas", {"enough": {"roof/fit": 3, "roof/bend": 1}})))
    assert "enough = { fit = 3, bend = 1 }" in text(bench, "roof")
    kept(bench.change(Change("task", "roof/canvas", {"enough": {}})))
    assert "enough" not in text(bench, "roof")
    within = {"roof/bend": Duration(minutes=240)}
    kept(bench.change(Change("task", "roof/fit", {"within": within})))
    assert 'within = { bend = "4 hours" }' in text(bench, "roof")


def test_a_list_of_pieces_keeps_the_spellings_that_stay(bench: Workbench) -> None:
    kept(bench.change(Change("task", "roof/fit", {"each": ("ribs 1 to 3", "roof/ridge")})))
    assert 'each = ["ribs 1 to 3", "ridge"]' in text(bench, "roof")
    kept(bench.change(Change("task", "deck/shore", {"pieces": ("roof/ribs", "roof/ridge")})))
    assert 'pieces = ["roof/ribs", "roof/ridge"]' in text(bench, "deck")


def test_pieces_that_a_task_names_are_not_taken_out(bench: Workbench) -> None:
    assert '"Ribs" is named by "Shore the roof" and 3 more' in refusal(
        bench, Remove("piece", "roof/ribs")
    )
    assert '"Ridge board" is named by' in refusal(bench, Remove("piece", "roof/ridge"))
    kept(bench.change(Change("task", "roof/canvas", {"pieces": ("roof/ribs/1",)})))
    kept(bench.change(Remove("piece", "roof/ridge")))
    assert "ridge" not in text(bench, "roof")


def test_of_several_only_the_last_can_go_and_the_count_is_lowered(bench: Workbench) -> None:
    assert "not the last" in refusal(bench, Remove("piece", "roof/ribs/2"))
    kept(bench.change(Remove("piece", "roof/ribs/4")))
    assert "spares = 1" not in text(bench, "roof")
    assert '"Rib 3" is named by "Fit"' in refusal(bench, Remove("piece", "roof/ribs/3"))
    kept(bench.change(Change("task", "roof/fit", {"each": ("roof/ribs",)})))
    kept(bench.change(Remove("piece", "roof/ribs/3")))
    assert "count = 2" in text(bench, "roof")
    assert '"roof/fit/ribs/2"' in refusal(bench, Change("piece", "roof/ribs", {"count": 1}))


def test_what_the_logbook_names_keeps_its_place_in_the_plan(bench: Workbench) -> None:
    done = [Said(Finished("roof/bend/ribs/4", crew=("ada",)), AT, despite="done at home")]
    assert bench.record(done, by="ada", now=AT).kept
    assert "would be gone" in refusal(bench, Remove("piece", "roof/ribs/4"))
    assert "would be no spare" not in refusal(bench, Change("piece", "roof/ribs", {"spares": 0}))
    assert "logbook" in refusal(bench, Rename("piece", "roof/ribs", "bows"))
    assert "logbook" in refusal(bench, Rename("task", "roof/bend", "steam"))
    assert "logbook" in refusal(bench, Remove("task", "roof/bend"))
    kept(bench.change(Change("piece", "roof/ribs", {"spares": 2})))


def test_a_spare_that_the_logbook_names_stays_a_spare(bench: Workbench) -> None:
    failed = [Said(PieceFailed("roof/ribs/4", "split"), AT)]
    assert bench.record(failed, by="ada", now=AT).kept
    says = refusal(bench, Change("piece", "roof/ribs", {"count": 4, "spares": 0}))
    assert '"Rib 4" would be no spare any more, and the logbook names it in 1 entry' in says


def test_a_part_with_pieces_is_not_empty(bench: Workbench) -> None:
    kept(bench.change(Add("part", "roof/front", {"name": "Front"})))
    kept(bench.change(Change("piece", "roof/ridge", {"part": "roof/front"})))
    assert 'part = "front"' in text(bench, "roof")
    assert '"Front" has 1 piece' in refusal(bench, Remove("part", "roof/front"))
    kept(bench.change(Rename("part", "roof/front", "bow")))
    assert bench.plan.pieces["roof/ridge"].component == "roof/bow"


def test_a_task_that_the_logbook_names_is_not_made_one_for_each(bench: Workbench) -> None:
    kept(bench.change(Add("task", "roof/paint", {"title": "Paint"})))
    done = [Said(Finished("roof/paint", crew=("ada",)), AT, despite="done at home")]
    assert bench.record(done, by="ada", now=AT).kept
    says = refusal(bench, Change("task", "roof/paint", {"each": ("roof/ribs",)}))
    assert '"Paint" would be gone, and the logbook names it in 1 entry' in says
