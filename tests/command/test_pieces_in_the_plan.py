"""Pieces listed, added, described and taken out by commands."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell

FILES = {
    "vehicle.toml": 'name = "The Plank Wagon"\n[work_days]\nevery = ["saturday"]\n',
    "crew.toml": '[people.ada]\nname = "Ada"\nlead = true\nadult = true\n',
    "components/roof.toml": (
        'name = "Roof"\n[pieces.arches]\nname = "Arch"\ncount = 3\nmaterial = "ash"\n'
        '[tasks.bend]\ntitle = "Bend"\neach = ["arches"]\n'
    ),
}


@pytest.fixture
def wagon(tmp_path: Path) -> Path:
    for path, text in FILES.items():
        (tmp_path / path).parent.mkdir(exist_ok=True)
        (tmp_path / path).write_text(text)
    return tmp_path


def roof(wagon: Path) -> str:
    return (wagon / "components/roof.toml").read_text()


def test_pieces_are_listed_by_their_kind_and_one_with_all_that_is_known(
    call: Shell, wagon: Path
) -> None:
    assert "  Arches: 3, ash  [roof/arches]" in call("pieces", wagon).out
    of_a_kind = call("pieces", wagon, "arches").out
    assert "Arch 2, ash  [roof/arches/2]" in of_a_kind
    one = call("pieces", wagon, "arches/2").out
    assert "material: ash" in one
    assert "Bend: Arch 2" in one


def test_nine_ribs_a_ridge_and_two_sills_are_added_with_one_command(
    call: Shell, wagon: Path
) -> None:
    added = call("add-pieces", wagon, "roof", "ribs 1 to 9, ridge", "2 sills + 1 spare")
    assert added.code == 0, added.err
    assert "added to Roof: Rib 1 to 9, Ridge, Sill 1 to 2 and 1 spare" in added.out
    form = call("pieces", wagon, "--json").form
    ids = [piece["id"] for piece in form["pieces"]]
    assert ids[3:] == [*(f"roof/ribs/{n}" for n in range(1, 10)), "roof/ridge", "roof/sills/1",
                       "roof/sills/2", "roof/sills/3"]  # fmt: skip
    assert form["pieces"][-1]["spare"] is True
    assert form["pieces"][0]["tasks"] == [{"id": "roof/bend/arches/1", "state": "ready"}]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("9", "names no piece"),
        ("ribs 0", "is no number of pieces"),
        ("ribs 4 to 9", 'there are no ribs in "Roof" yet'),
        ("ribs 9 to 4", "is no number of pieces"),
        ("3 arches", "arches 1 to 3 are there already"),
        ("5000 ribs", "is no number of pieces"),
        ("9 ribs, 2 ribs", "is written twice"),
    ],
)
def test_pieces_that_cannot_be_added_are_told_in_one_sentence(
    call: Shell, wagon: Path, typed: str, says: str
) -> None:
    ended = call("add-pieces", wagon, "roof", typed)
    assert ended.code in (1, 2)
    assert says in ended.err
    assert roof(wagon) == FILES["components/roof.toml"]


def test_more_of_a_kind_go_on_behind_those_that_there_are(call: Shell, wagon: Path) -> None:
    assert call("add-pieces", wagon, "roof", "arches 4 to 7").code == 0
    assert "count = 7" in roof(wagon)


def test_one_arch_is_described_alone_and_what_is_usual_is_not_said_again(
    call: Shell, wagon: Path
) -> None:
    told = ("--as-found", "original", "--keep", "yes", "--material", "ash", "--period", "1930")
    assert call("describe", wagon, "arches/2", *told).code == 0
    assert '[pieces.arches.2]\nas_found = "original"\nperiod = "1930"\nkeep = true\n' in roof(wagon)
    assert call("describe", wagon, "arches", "--clear", "material", "--spares", "1").code == 0
    assert "material" not in roof(wagon)
    (arch,) = call("pieces", wagon, "arches/2", "--json").form["pieces"]
    assert (arch["as_found"], arch["keep"]) == ("original", True)
    wrong = call("describe", wagon, "arches/2", "--as-found", "lovely")
    assert wrong.code == 1
    assert '"lovely" is no as_found' in wrong.err


def test_a_wire_is_described_with_its_ends_and_as_dead(call: Shell, wagon: Path) -> None:
    assert call("add-pieces", wagon, "roof", "lamp wire").code == 0
    told = ("--runs-from", "switchboard", "--runs-to", "tail lamp", "--live", "dead")
    assert call("describe", wagon, "lamp-wire", *told).code == 0
    assert "dead, from switchboard to tail lamp" in call("pieces", wagon, "roof").out


def test_pieces_that_a_task_or_the_logbook_names_stay(call: Shell, wagon: Path) -> None:
    named = call("remove-pieces", wagon, "arches")
    assert named.code == 1
    assert '"Arches" is named by "Bend"' in named.err
    failed = call("fail", wagon, "arches/3", "--why", "split", "--by", "ada")
    assert failed.code == 0, failed.err
    in_log = call("remove-pieces", wagon, "arches/3")
    assert in_log.code == 1
    assert "the logbook names" in in_log.err
    assert call("add-pieces", wagon, "roof", "ridge").code == 0
    assert call("remove-pieces", wagon, "ridge").code == 0
    assert "ridge" not in roof(wagon)


ODD = """\
name = "Deck"
[pieces.boards]
name = "Board"
count = 2
pictures = ["pictures/none.jpg"]
[tasks.plane]
title = "Plane"
each = ["boards"]
[tasks.oil]
title = "Oil"
[tasks.lay]
title = "Lay"
after = ["plane", "oil"]
enough = { plane = 3, oil = 1 }
within = { "roof/bend" = "8 hours" }
spares = true
[tasks.sweep]
title = "Sweep"
after = ["oil"]
enough = { plane = 1 }
"""


def test_check_names_line_and_column_of_what_is_wrong_with_these_keys(
    call: Shell, wagon: Path
) -> None:
    (wagon / "components/deck.toml").write_text(ODD)
    told = call("check", wagon).out
    for place, sentence in (
        ("deck.toml:5:13", 'there is no picture "pictures/none.jpg"'),
        ("deck.toml:14:12", '"enough" is 3, and "Plane" is for 2 pieces'),
        ("deck.toml:14:23", '"enough" names "Oil", which is not for each of several'),
        ("deck.toml:15:12", '"roof/bend" does not come before this task'),
        ("deck.toml:16:1", '"Lay" is for spares too, and is done once'),
        ("deck.toml:20:12", '"enough" names "Plane", which does not come before'),
    ):
        assert place in told, (place, told)
        assert sentence in " ".join(told.split()), (sentence, told)


def test_a_reviewer_asks_about_work_on_what_is_kept_for_ever(call: Shell, wagon: Path) -> None:
    assert "kept for ever" not in call("review", wagon).out
    assert call("describe", wagon, "arches/2", "--keep", "yes").code == 0
    asked = " ".join(call("review", wagon).out.split())
    assert '"Bend" is done to what is kept for ever: Arch 2' in asked
