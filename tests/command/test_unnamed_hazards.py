"""A hazard that nobody named: words of a task ask, and a lead answers."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.terminal.shop import CREW, VEHICLE

WORK = """\
name = "Frame"

[tasks.clear]
title = "Cut the bolts"
method = "With the torch."
"""
AT = ("--at", "2026-05-02T10:00")


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "300")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    (tmp_path / "components").mkdir()
    (tmp_path / "vehicle.toml").write_text(VEHICLE)
    (tmp_path / "crew.toml").write_text(CREW)
    (tmp_path / "components" / "frame.toml").write_text(WORK)
    return tmp_path


def asked(call: Shell, shop: Path) -> int:
    return call("check", shop, *AT).out.count("and names no hazard such as hot work")


def test_a_word_that_points_to_a_hazard_asks_before_the_work_begins_until_a_lead_answers(
    call: Shell, shop: Path
) -> None:
    assert asked(call, shop) == 1
    begin = ("begin", shop, "clear", "--who", "ben", *AT)
    refused = call(*begin)
    assert refused.code == 1
    assert '"Cut the bolts" says "torch", and names no hazard such as hot work' in refused.err
    assert call(*begin, "--despite", "it is only cold cutting", "--by", "ben").code == 1
    answer = ("no-hazard", shop, "clear", "torch", *AT)
    assert (
        "by a lead who is of age"
        in call(*answer, "--who", "ben", "--why", "it is the name of the saw").err
    )
    assert "say why" in call(*answer, "--who", "ada", "--why", "n/a").err
    assert call(*answer, "--who", "ada", "--why", "it is the name of the saw").code == 0
    assert asked(call, shop) == 0
    assert call(*begin).code == 0


def test_the_lead_who_writes_an_answer_down_is_the_one_who_signs_it(
    call: Shell, shop: Path
) -> None:
    answer = ("no-hazard", shop, "clear", "torch", "--why", "it is the name of the saw", *AT)
    assert "say lead" in call(*answer).err
    assert "by a lead who is of age" in call(*answer, "--by", "ben").err
    assert call(*answer, "--by", "ada").code == 0
    assert asked(call, shop) == 0


def test_a_leads_reason_begins_the_work_once_and_the_question_stays(
    call: Shell, shop: Path
) -> None:
    begin = ("begin", shop, "clear", "--who", "ben", *AT)
    assert call(*begin, "--despite", "the torch stays cold today", "--by", "ada").code == 0
    assert asked(call, shop) == 1


def test_a_new_word_in_the_title_asks_again(call: Shell, shop: Path) -> None:
    answer = ("no-hazard", shop, "clear", "torch", "--who", "ada", *AT)
    assert call(*answer, "--why", "it is the name of the saw").code == 0
    file = shop / "components" / "frame.toml"
    file.write_text(file.read_text().replace("Cut the bolts", "Weld the bolts"))
    assert asked(call, shop) == 1
    assert 'says "weld"' in call("check", shop, *AT).out


def test_an_answer_to_what_is_not_asked_is_refused(call: Shell, shop: Path) -> None:
    answer = ("no-hazard", shop, "clear", "saw", "--who", "ada", "--why", "a hand saw", *AT)
    assert 'ask nothing of "saw"; asked is "torch"' in call(*answer).err


def test_a_task_that_names_the_hazard_is_asked_nothing(call: Shell, shop: Path) -> None:
    file = shop / "components" / "frame.toml"
    file.write_text(file.read_text() + 'hazards = ["hot-work"]\n')
    assert asked(call, shop) == 0
