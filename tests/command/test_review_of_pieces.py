"""What is asked about pieces and the same work on several of them, by command."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import ONLY_ADA, lay_down
from tests.command.calling import Shell

VEHICLE = """\
name = "The Plank Wagon"
[work_days]
every = ["saturday"]
[jigs.stand]
name = "Sash stand"
"""
WINDOWS = """\
name = "Windows"
[pieces.panes]
name = "Window"
count = 6
[tasks.rub]
title = "Rub down"
each = ["panes"]
hours = [1, 2, 3]
skills = ["rubbing"]
[tasks.glaze]
title = "Glaze"
each = ["panes"]
after = ["rub"]
hours = [1, 2, 3]
[tasks.curtain]
title = "Hang the curtain"
after = ["glaze"]
hours = [1, 2, 3]
"""
AT = ("--at", "2026-05-02T09:00")


@pytest.fixture
def wagon(tmp_path: Path) -> Path:
    return lay_down(tmp_path, {"glaze": WINDOWS}, vehicle=VEHICLE, crew=ONLY_ADA)


def rewrite(wagon: Path, old: str, new: str) -> None:
    file = wagon / "components/glaze.toml"
    assert old in file.read_text()
    file.write_text(file.read_text().replace(old, new, 1))


def asked(call: Shell, wagon: Path, rule: str) -> list[dict[str, object]]:
    questions = call("review", wagon, *AT, "--json").form["questions"]
    return [question for question in questions if question["rule"] == rule]


def test_a_question_about_six_windows_is_asked_once_where_their_task_is_written(
    call: Shell, wagon: Path
) -> None:
    (question,) = asked(call, wagon, "no such skill")
    assert question["id"] == "glaze/rub"
    assert question["says"] == '"Rub down" needs the skill rubbing, and nobody has it'
    assert question["line"] == WINDOWS.splitlines().index('skills = ["rubbing"]') + 1


def test_a_question_about_some_of_the_windows_says_about_how_many(call: Shell, wagon: Path) -> None:
    call("begin", wagon, "rub/panes/1", "--who", "ada", "--at", "2026-05-01T09:00", "--by", "ada")
    assert asked(call, wagon, "long task") == []
    call("hours-left", wagon, "rub/panes/1", "90", "--at", "2026-05-01T10:00", "--by", "ada")
    (question,) = asked(call, wagon, "long task")
    assert question["id"] == "glaze/rub"
    assert str(question["says"]).endswith("(1 of its 6 pieces)")


def test_a_word_that_points_to_a_hazard_is_asked_about_once_for_all_windows(
    call: Shell, wagon: Path
) -> None:
    rewrite(wagon, '"Rub down"', '"Weld the hinges"')
    questions = call("check", wagon, *AT, "--json").form["questions"]
    (question,) = [each for each in questions if each["code"] == "unnamed-hazard"]
    assert question["sentence"].startswith('"Weld the hinges" says "weld"')


def test_a_link_that_follows_anyway_is_asked_about_once_for_all_windows(
    call: Shell, wagon: Path
) -> None:
    rewrite(
        wagon,
        'title = "Hang the curtain"\nafter = ["glaze"]',
        'title = "Oil"\neach = ["panes"]\nafter = ["rub", "glaze"]',
    )
    (question,) = asked(call, wagon, "follows anyway")
    assert question["id"] == "glaze/curtain"
    assert question["says"] == (
        '"Oil" comes after "Rub down" in any case, through its other predecessors'
    )


def test_more_windows_than_there_are_can_never_be_enough(call: Shell, wagon: Path) -> None:
    assert asked(call, wagon, "more than there are") == []
    rewrite(wagon, 'after = ["glaze"]', 'after = ["glaze"]\nenough = { glaze = 7 }')
    (question,) = asked(call, wagon, "more than there are")
    assert question["do"] == "write at most 6"


def test_a_window_that_failed_and_that_no_spare_stands_for_is_asked_about(
    call: Shell, wagon: Path
) -> None:
    assert asked(call, wagon, "too few pieces") == []
    call("fail", wagon, "panes/3", "--why", "dropped", "--at", "2026-05-02T08:00", "--by", "ada")
    short = asked(call, wagon, "too few pieces")
    assert [question["id"] for question in short] == ["glaze/rub", "glaze/glaze"]
    assert short[0]["says"] == (
        '"Rub down" is to be done to 6 pieces, and 5 are left: Window 3 failed: dropped'
    )


def test_a_spare_that_nobody_makes_is_asked_about_and_blocks_nothing(
    call: Shell, wagon: Path
) -> None:
    rewrite(wagon, "count = 6\n", "count = 6\nspares = 1\n")
    assert asked(call, wagon, "blocked by what is set aside") == []
    (question,) = asked(call, wagon, "spares nobody makes")
    assert str(question["says"]).startswith("nobody makes Window 7 before it is needed")
    rewrite(wagon, 'title = "Rub down"\n', 'title = "Rub down"\nspares = true\n')
    assert asked(call, wagon, "spares nobody makes") == []


def test_a_jig_that_nothing_uses_is_asked_about(call: Shell, wagon: Path) -> None:
    (question,) = asked(call, wagon, "jig nothing uses")
    assert (question["file"], question["line"]) == ("vehicle.toml", 4)
    rewrite(wagon, 'title = "Glaze"\n', 'title = "Glaze"\nuses = ["stand"]\n')
    assert asked(call, wagon, "jig nothing uses") == []


def test_work_in_one_go_that_no_day_is_long_enough_for_is_asked_about(
    call: Shell, wagon: Path
) -> None:
    one_go = 'title = "Glaze"\nin_one_go = true\npeople = [1, 1]\n'
    rewrite(wagon, 'title = "Glaze"\n', one_go)
    assert asked(call, wagon, "in one go, and too long") == []
    rewrite(wagon, 'after = ["rub"]\nhours = [1, 2, 3]', 'after = ["rub"]\nhours = [7, 8, 9]')
    (question,) = asked(call, wagon, "in one go, and too long")
    assert question["id"] == "glaze/glaze"


def test_a_part_whose_pieces_are_worked_on_has_something_to_do(call: Shell, tmp_path: Path) -> None:
    """The tasks may belong to the component: they are done to the part's pieces."""
    wagon = tmp_path / "part"
    (wagon / "components").mkdir(parents=True)
    (wagon / "vehicle.toml").write_text('name = "The Plank Wagon"\n')
    (wagon / "components/body.toml").write_text(
        'name = "Body"\n[parts.side]\nname = "Left side"\n[parts.floor]\nname = "Floor"\n'
        '[pieces.panes]\nname = "Pane"\ncount = 2\npart = "side"\n'
        '[tasks.wash]\ntitle = "Wash"\neach = ["panes"]\n[tasks.fit]\ntitle = "Fit"\n'
        'after = ["wash"]\nenough = { wash = 1 }\n'
    )
    asked = call("review", wagon).out
    assert "Floor has no tasks" in asked
    assert "Left side has no tasks" not in asked
    assert "1 more to finish first (1 of 2 is enough)" in call("why", wagon, "fit").out
