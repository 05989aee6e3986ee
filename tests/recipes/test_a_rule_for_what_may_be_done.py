"""A rule for what may be done is a code, a function and its words: every asker has it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import time
from pathlib import Path

import pytest

from crewboard.order.board import Board
from crewboard.order.may import moment, obstacle, short, words
from crewboard.order.may.obstacle import Obstacle, Sort
from crewboard.plan.hazard import Hazard
from crewboard.plan.task import Task
from tests.command.calling import Shell
from tests.terminal.shop import make_shop

SATURDAY = "2026-05-02"


def _in_the_dark(board: Board, task: Task, _hazards: Sequence[Hazard]) -> Iterator[Obstacle]:
    if task.place == "yard" and board.at.time() >= time(14):
        yield Obstacle("dark")


@pytest.fixture
def shell(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop whose yard has no lamp: nothing is begun there after two."""
    monkeypatch.setitem(obstacle.CODES, "dark", Sort("moment", yields_to="anyone"))
    monkeypatch.setattr(moment, "RULES", [*moment.RULES, _in_the_dark])
    monkeypatch.setitem(
        words._SAYS, "dark", lambda _b, task, _o: (f"{task.place} has no light", "bring a lamp")
    )
    monkeypatch.setitem(short._SHORT, "dark", lambda _b, _o: "it is dark there")
    yard = (
        'name = "Yard"\n\n[tasks.rake]\ntitle = "Rake the gravel"\nhours = [1, 2, 3]\n'
        'place = "yard"\n'
    )
    return make_shop(tmp_path / "van", components={"yard": yard})


def test_begin_asks_and_takes_a_named_persons_reason(van: Path, shell: Shell) -> None:
    late = ("--at", f"{SATURDAY}T14:30", "--who", "ada")
    assert "yard has no light; bring a lamp" in shell("begin", van, "rake", *late).err
    reason = ("--despite", "with a torch", "--by", "ada")
    assert shell("begin", van, "rake", *late, *reason).code == 0


def test_the_ranking_does_not_recommend_it_and_the_day_plan_leaves_it_out(
    van: Path, shell: Shell
) -> None:
    early, late = (("--at", f"{SATURDAY}T{hour}:30") for hour in ("10", "14"))
    assert "it is dark there" not in shell("day", van, *early).out
    assert "not now: it is dark there" in shell("day", van, *late).out
    for at, is_planned in ((early, True), (late, False)):
        plan = shell("plan-day", van, *at, "--seconds", "0", "--json").form
        placed = {each["task"] for each in plan["placed"]}
        assert ("yard/rake" in placed) == is_planned
