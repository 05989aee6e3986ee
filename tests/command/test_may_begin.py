"""`begin` asks whether these people may do this task: good practice asks, safety refuses."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import DONE, Ended, Shell, open_shop
from tests.command.trailer import make_trailer

CREW = """\
[people.ada]
name = "Ada Marsh"
adult = true
lead = true
skills = ["joinery"]
certificates = { "fit test" = 2027-01-31, "first aid" = 2027-01-31 }

[people.ben]
name = "Ben Holt"
adult = true
needs_beside = "joinery"

[people.cleo]
name = "Cleo Rand"
adult = true
left = 2026-03-01

[people.dov]
name = "Dov Quill"
adult = true
"""
BODY = """\
name = "Body"

[tasks.joint]
title = "Cut the joint"
skills = ["joinery"]

[tasks.carry]
title = "Carry the side in"
people = [2, 3]

[tasks.spray]
title = "Spray the inside"
hazards = ["spray-coating"]
place = "booth"

[tasks.sweep]
title = "Sweep the booth"
place = "booth"

[tasks.draw]
title = "Draw the corner"
"""
MORNING = ("--at", "2026-05-02T09:30")


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "200")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    return make_trailer(tmp_path, CREW, BODY)


def codes(ended: Ended) -> list[tuple[str, bool]]:
    return [(refusal["code"], refusal["yields"]) for refusal in ended.form["refused"]]


@pytest.mark.parametrize(
    ("task", "who", "code", "says"),
    [
        ("joint", ["dov"], "skill", "needs the skill joinery, and nobody named has it"),
        ("carry", ["ada"], "few", "needs at least 2 people, 1 named"),
        ("carry", ["ada", "ben", "cleo", "dov"], "many", "has room for 3 people, 4 named"),
        ("draw", ["ben"], "beside", "works only with somebody who has the skill joinery beside"),
        ("draw", ["cleo"], "not-with-us", "Cleo Rand left on Sun 1 Mar 2026"),
    ],
)
def test_good_practice_asks_and_yields_to_a_named_persons_reason(
    call: Shell, shop: Path, task: str, who: list[str], code: str, says: str
) -> None:
    refused = call("begin", shop, task, "--who", *who, *MORNING)
    assert refused.code == 1
    assert says in refused.err
    form = call("begin", shop, task, "--who", *who, *MORNING, "--json")
    assert (code, True) in codes(form)
    begun = call(
        *("begin", shop, task, "--who", *who, *MORNING),
        *("--despite", "shown how by the lead", "--by", "ada"),
    )
    assert begun.code == 0, begun.err


def test_the_right_people_are_not_asked_anything(call: Shell, shop: Path) -> None:
    for task, who in (("joint", ["ada"]), ("carry", ["ada", "ben"]), ("draw", [])):
        named = ("--who", *who) if who else ()
        assert call("begin", shop, task, *named, *MORNING).code == 0


def test_nobody_is_left_alone_at_dangerous_work_whatever_the_reason(
    call: Shell, shop: Path
) -> None:
    for who in ("ben", "dov"):
        assert call("sign-in", shop, who, "--at", "2026-05-02T09:00").code == 0
    reason = ("--despite", "he has done it before", "--by", "ada", "--json")
    refused = call("begin", shop, "spray", "--who", "ben", "dov", *MORNING, *reason)
    assert ("beside", False) in codes(refused)


def test_a_place_that_is_airing_is_entered_for_no_other_work_either(
    call: Shell, shop: Path
) -> None:
    for who in ("ada", "dov"):
        assert call("sign-in", shop, who, "--at", "2026-05-02T09:00").code == 0
    crew = shop / "crew.toml"  # Dov, the last in it, gets a fit test
    crew.write_text(crew.read_text() + 'certificates = { "fit test" = 2027-01-31 }\n')
    open_shop(call, shop, *MORNING)
    while True:
        refused = call("begin", shop, "spray", "--who", "ada", "dov", *MORNING, "--json")
        if refused.code == 0:
            break
        for refusal in refused.form["refused"]:
            assert refusal["code"] == "unsigned", refusal
            check = refusal["says"].split('"')[1]
            signed = call("sign", shop, "spray", check, "--who", "ada", *MORNING)
            assert signed.code == 0, signed.err
    assert call("finish", shop, "spray", "--at", "2026-05-02T10:00").code == 0
    sweep = ("begin", shop, "sweep", "--who", "dov", "--at", "2026-05-02T10:05")
    reason = ("--despite", "only the floor", "--by", "ada")
    assert "is still running" in call(*sweep).err
    assert call(*sweep, *reason).code == 1
    elsewhere = call("begin", shop, "draw", "--who", "dov", "--at", "2026-05-02T10:05")
    assert "or a lead says why it is not near" in elsewhere.err


ALONE = """\
name = "Body"

[tasks.glue]
title = "Glue the corner up"
hold = { kind = "glue", lasts = "3 days", leave_alone = true }

[tasks.plane]
title = "Plane the sill"

[tasks.mask]
title = "Mask the corner"
after = ["glue"]
during = ["glue"]

[parts.door]
name = "Door"

[tasks.hinge]
title = "Oil the hinge"
part = "door"
"""


def test_work_on_a_component_that_is_left_alone_is_asked_about_and_what_may_go_on_is_not(
    call: Shell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "200")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    shop = make_trailer(tmp_path, CREW, ALONE)
    assert call("begin", shop, "glue", "--who", "ada", *MORNING).code == 0
    assert call("finish", shop, "glue", *DONE, "--at", "2026-05-02T10:00").code == 0
    later = ("--at", "2026-05-02T11:00")
    for task in ("plane", "hinge"):
        refused = call("begin", shop, task, "--who", "ada", *later)
        assert "Glue the corner up" in refused.err
        assert "leave Body alone" in refused.err
        form = call("begin", shop, task, "--who", "ada", *later, "--json")
        assert codes(form) == [("waiting", True)]
    assert call("begin", shop, "mask", "--who", "ada", *later).code == 0
    reason = ("--despite", "the sill is far from the corner", "--by", "ada")
    assert call("begin", shop, "plane", "--who", "ada", *later, *reason).code == 0
    # Begun all the same, it is held for as long as the hold runs, and begun again only on purpose.
    assert "leave Body alone" in call("begin", shop, "plane", "--who", "dov", *later).err
