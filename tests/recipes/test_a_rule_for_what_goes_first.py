"""A rule for what goes first is one line in the list of rules, at the place where it decides."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.order.ahead import first
from crewboard.order.ahead.first import First
from tests.command.calling import Shell
from tests.terminal.shop import Watch, make_shop, open_app, seen, until

AT = ("--at", "2026-05-02T10:00")
BOARDS = (
    'name = "Boards"\n\n[tasks.oil]\ntitle = "Oil the boards"\nhours = 2\n\n'
    '[tasks.warm]\ntitle = "Warm the glue"\nhours = 1\n'
)


def _warmth_first(task: First) -> bool:
    """What has to be warm by noon is begun before all else."""
    return not task.task.endswith("/warm")


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(first, "RULES", [_warmth_first, *first.RULES])
    return make_shop(tmp_path / "van", components={"boards": BOARDS})


def test_without_the_rule_the_order_of_the_files_decides(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    van = make_shop(tmp_path / "plain", components={"boards": BOARDS})
    tasks = [each["task"] for each in Shell(capsys)("day", van, *AT, "--json").form["first"]]
    assert tasks.index("boards/oil") < tasks.index("boards/warm")


def test_the_day_and_the_screen_follow_the_rule(
    van: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shown = Shell(capsys)("day", van, *AT, "--json").form["first"]
    assert shown[0]["task"] == "boards/warm"
    assert "1. Warm the glue" in Shell(capsys)("day", van, *AT).out


async def test_the_screen_follows_the_rule(van: Path) -> None:
    app = open_app(van, Watch())
    async with app.run_test(size=(110, 36)) as pilot:
        await until(pilot, lambda: "1. Warm the glue" in seen(app))
