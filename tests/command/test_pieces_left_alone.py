"""What a hold leaves alone, as facts of the work: the pieces that its task names; without pieces
its own work and what follows; a whole component only where the plan says so."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import ONLY_ADA, lay_down
from tests.command.calling import Shell

VEHICLE = """\
name = "The Plank Wagon"
[work_days]
every = ["saturday", "sunday", "monday"]
opens = 08:00:00
closes = 17:00:00
"""
DOORS = """\
name = "Doors"
[pieces.leaves]
name = "Leaf"
count = 3
[tasks.glue]
title = "Glue up"
each = ["leaves"]
hours = [1, 2, 3]
hold = { kind = "glue", lasts = "1 day" }
[tasks.hinge]
title = "Fit the hinges"
each = ["leaves"]
hours = [1, 1, 2]
[tasks.pair]
title = "Clamp two leaves edge to edge"
pieces = ["leaves 1 to 2"]
hours = [1, 1, 2]
hold = { kind = "clamp", lasts = "2 days" }
[tasks.ask]
title = "Show the leaves to the museum"
pieces = ["leaves"]
hours = [1, 1, 2]
hold = { kind = "decision" }
[tasks.latch]
title = "Make the latch"
hours = [1, 1, 2]
hold = { kind = "glue", lasts = "1 day" }
[tasks.fit-latch]
title = "Fit the latch"
after = ["latch"]
hours = [1, 1, 2]
[tasks.bed]
title = "Bed the frame"
hours = [1, 1, 2]
hold = { kind = "glue", lasts = "1 day", leave_alone = true }
"""
HALL = """\
name = "Hall"
[tasks.hang]
title = "Hang the doors"
after = ["doors/glue"]
hours = [1, 1, 2]
"""
BY = ("--by", "ada")
SATURDAY, NOON, SUNDAY = "2026-05-02T09:00", "2026-05-02T12:00", "2026-05-03T09:30"


@pytest.fixture
def wagon(tmp_path: Path) -> Path:
    files = {"doors": DOORS, "hall": HALL}
    return lay_down(tmp_path / "wagon", files, vehicle=VEHICLE, crew=ONLY_ADA)


def does(call: Shell, wagon: Path, *tasks: str, at: str = SATURDAY) -> None:
    for task in tasks:
        begun = call("begin", wagon, task, "--who", "ada", "--at", at, *BY)
        assert begun.code == 0, begun.err
        assert call("finish", wagon, task, "--at", at, *BY).code == 0


def refused(call: Shell, wagon: Path, task: str, at: str = NOON) -> str:
    """Why it cannot begin; empty where it can."""
    ended = call("begin", wagon, task, "--who", "ada", "--at", at, *BY)
    return " ".join(ended.err.split()) if ended.code else ""


def states(call: Shell, wagon: Path, at: str = NOON) -> dict[str, str]:
    form = call("day", wagon, "--at", at, "--json").form
    return {task["id"].partition("/")[2]: task["state"] for task in form["tasks"]}


def words(call: Shell, *typed: object) -> str:
    return " ".join(call(*typed).out.split())


def test_work_on_another_leaf_goes_on_while_one_is_in_glue(call: Shell, wagon: Path) -> None:
    does(call, wagon, "glue/leaves/1")
    standing = states(call, wagon)
    assert standing["hinge/leaves/1"] == "on hold"
    assert standing["pair"] == "on hold"  # leaf 1 is one of its two
    assert {standing["hinge/leaves/2"], standing["latch"], standing["bed"]} == {"ready"}
    assert '"Glue up: Leaf 1" (glue is setting' in refused(call, wagon, "hinge/leaves/1")
    assert not refused(call, wagon, "hinge/leaves/2")


def test_why_names_the_leaf_that_is_left_alone_and_until_when(call: Shell, wagon: Path) -> None:
    does(call, wagon, "glue/leaves/1")
    why = words(call, "why", wagon, "hinge/leaves/1", "--at", NOON)
    assert '"Glue up: Leaf 1": glue is setting since Sat 2 May 2026 09:00, until Sun 3 May' in why
    assert "Leaf 1 until Sun" in words(call, "day", wagon, "--at", NOON)
    assert "nobody works on Leaf 1" in words(call, "holds", wagon, "--at", NOON)
    assert "Leaf 1 (Doors)" in words(call, "briefing", wagon, "--at", NOON)


def test_a_task_for_two_leaves_leaves_both_alone_and_no_third(call: Shell, wagon: Path) -> None:
    does(call, wagon, "pair")
    standing = states(call, wagon)
    assert {standing[f"hinge/leaves/{leaf}"] for leaf in (1, 2)} == {"on hold"}
    assert standing["hinge/leaves/3"] == "ready"
    assert "Leaves 1 and 2 until Mon" in words(call, "day", wagon, "--at", NOON)


def test_without_pieces_only_what_follows_waits(call: Shell, wagon: Path) -> None:
    does(call, wagon, "latch")
    standing = states(call, wagon)
    assert standing["fit-latch"] == "waiting"
    assert {standing["glue/leaves/1"], standing["hinge/leaves/2"], standing["bed"]} == {"ready"}


def test_a_whole_component_is_left_alone_where_the_plan_says_so(call: Shell, wagon: Path) -> None:
    does(call, wagon, "bed")
    standing = states(call, wagon)
    assert {standing["glue/leaves/1"], standing["hinge/leaves/2"], standing["latch"]} == {"on hold"}
    assert "Doors until Sun" in words(call, "day", wagon, "--at", NOON)


def test_what_is_awaited_for_a_task_leaves_its_pieces_free(call: Shell, wagon: Path) -> None:
    does(call, wagon, "ask")
    assert not refused(call, wagon, "hinge/leaves/1")
    assert "nobody works" not in words(call, "holds", wagon, "--at", NOON)


@pytest.mark.parametrize("kind", ["clamp", "decision"])
def test_a_hold_put_on_one_leaf_keeps_that_leaf_and_what_follows(
    call: Shell, wagon: Path, kind: str
) -> None:
    for leaf in (1, 2, 3):
        does(call, wagon, f"glue/leaves/{leaf}")
        call("release", wagon, f"glue/leaves/{leaf}", "--why", "set", "--at", SUNDAY, *BY)
    assert states(call, wagon, SUNDAY)["hang"] == "ready"
    put = call("hold", wagon, kind, "--piece", "leaves/2", "--why", "x", "--at", SUNDAY, *BY)
    assert put.code == 0, put.err
    standing = states(call, wagon, SUNDAY)
    assert standing["hinge/leaves/2"] == standing["pair"] == "on hold"
    assert standing["hang"] == "waiting"  # the doors are not hung while one of them is in clamps
    assert {standing["hinge/leaves/1"], standing["hinge/leaves/3"], standing["latch"]} == {"ready"}
    assert "Leaf 2 (" in refused(call, wagon, "hinge/leaves/2", SUNDAY)
    assert not refused(call, wagon, "hinge/leaves/3", SUNDAY)
    assert "on Leaf 2" in words(call, "log", wagon)
    assert call("release", wagon, "leaves/2", "--why", "x", "--at", SUNDAY, *BY).code == 0
    assert states(call, wagon, SUNDAY)["hang"] == "ready"


def test_each_leaf_is_looked_at_extended_and_released_by_itself(call: Shell, wagon: Path) -> None:
    does(call, wagon, "glue/leaves/1", "glue/leaves/2")
    longer = ("--by-span", "1 day", "--why", "tacky")
    assert call("extend", wagon, "glue/leaves/2", *longer, "--at", SUNDAY, *BY).code == 0
    assert call("release", wagon, "glue/leaves/1", "--at", SUNDAY, *BY).code == 0
    standing = states(call, wagon, SUNDAY)
    assert standing["hinge/leaves/1"] == "ready"
    assert standing["hinge/leaves/2"] == "on hold"
    assert "Leaf 2 until Mon" in words(call, "day", wagon, "--at", SUNDAY)


def test_a_leaf_that_failed_is_no_longer_left_alone_but_its_mate_is(
    call: Shell, wagon: Path
) -> None:
    does(call, wagon, "pair")
    failed = ("fail", wagon, "leaves/1", "--again", "--why", "split", "--at", NOON, *BY)
    assert call(*failed).code == 0
    standing = states(call, wagon)
    assert standing["hinge/leaves/1"] == "ready"
    assert standing["hinge/leaves/2"] == "on hold"


def test_a_clamp_put_on_a_bent_piece_takes_no_place_on_the_form(call: Shell, wagon: Path) -> None:
    (wagon / "vehicle.toml").write_text(VEHICLE + '[jigs.form]\nname = "Form"\n')
    plan = wagon / "components/doors.toml"
    plan.write_text(
        plan.read_text().replace('title = "Glue up"', 'title = "Glue up"\nuses = ["form"]')
    )
    does(call, wagon, "glue/leaves/1")
    call("release", wagon, "glue/leaves/1", "--why", "set", "--at", SUNDAY, *BY)
    call("hold", wagon, "clamp", "--piece", "leaves/1", "--why", "x", "--at", SUNDAY, *BY)
    assert states(call, wagon, SUNDAY)["glue/leaves/2"] == "ready"


def test_leaves_whose_glue_ends_on_one_day_are_told_together(call: Shell, wagon: Path) -> None:
    does(call, wagon, "glue/leaves/1")
    does(call, wagon, "glue/leaves/3", at="2026-05-02T11:00")
    assert "LEAVE ALONE (1): Leaves 1 and 3 until Sun" in words(call, "day", wagon, "--at", NOON)
    talk = words(call, "briefing", wagon, "--at", NOON)
    assert "Leaves 1 and 3 (Doors): glue is setting, until Sun 3 May 11:00" in talk
    longer = ("--by-span", "2 days", "--why", "cold", "--at", NOON, *BY)
    assert call("extend", wagon, "glue/leaves/3", *longer).code == 0
    alone = words(call, "day", wagon, "--at", NOON)
    assert "LEAVE ALONE (2): Leaf 1 until Sun; Leaf 3 until Tue" in alone


def test_what_is_kept_for_ever_is_named_when_work_on_it_begins(call: Shell, tmp_path: Path) -> None:
    """Also where the work lies on another component and only names the piece."""
    wagon = tmp_path / "kept"
    (wagon / "components").mkdir(parents=True)
    (wagon / "vehicle.toml").write_text('name = "The Plank Wagon"\n')
    (wagon / "crew.toml").write_text('[people.ada]\nname = "Ada"\nlead = true\nadult = true\n')
    (wagon / "components/side.toml").write_text(
        'name = "Side"\n[pieces.patch]\nname = "Patch of first paint"\nkeep = true\n'
        'why = "the only one left"\n[tasks.wash]\ntitle = "Wash the side"\n'
    )
    (wagon / "components/paint.toml").write_text(
        'name = "Paint"\n[tasks.oil]\ntitle = "Oil round the patch"\npieces = ["side/patch"]\n'
        '[tasks.mix]\ntitle = "Mix the colour"\n'
    )
    for task, named in (("wash", True), ("oil", True), ("mix", False)):
        begun = call("begin", wagon, task, "--who", "ada", "--by", "ada")
        told = " ".join((begun.out + begun.err).split())
        sentence = (
            "LEAVE ALONE: Patch of first paint (Side): kept for ever as it is, never cut, "
            "stripped or painted over (the only one left)"
        )
        assert begun.code == 0
        assert (sentence in told) is named, told


def test_a_program_reads_which_leaf_is_left_alone(call: Shell, wagon: Path) -> None:
    does(call, wagon, "glue/leaves/1")
    form = call("day", wagon, "--at", NOON, "--json").form
    assert [entry["pieces"] for entry in form["left_alone"]] == [["doors/leaves/1"]]
    assert form["left_alone"][0]["hold"] == form["holds"][0]["id"]
