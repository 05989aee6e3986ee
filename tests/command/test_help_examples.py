"""Every example that `--help` shows works as it stands: typed in the sample, at its own moment."""

from __future__ import annotations

import shlex
import shutil
from pathlib import Path

import pytest

from crewboard.command.catalogue import all_commands
from crewboard.command.help import overview
from crewboard.command.run import command_of
from tests.command.calling import SAMPLE, Shell, process
from tests.long_form import LONG

EXAMPLES = [(name, each) for name in all_commands() for each in command_of(name).examples]
# What has to be there first: only the day's first entry makes the copy that is brought back.
BEFORE = {
    "restore": "note . first",
    "undo": "note . wrong --by mirela",
    "from-finding": "found . 'old screw holes, puttied'",
    "undone": 'temporary . "props under the ridge" --component roof',
}
# These divide their work among processes, which have to start anew.
ON_THEIR_OWN = {"forecast", "plan-day", "screenshot"}


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    shutil.copytree(SAMPLE, tmp_path / "sample_project")
    return tmp_path


@pytest.mark.parametrize(("name", "example"), EXAMPLES, ids=[each for _, each in EXAMPLES])
def test_each_example_works_as_it_is_shown(
    name: str, example: str, call: Shell, shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    program, *words = shlex.split(example.partition(" > ")[0])
    assert program == "crewboard"
    monkeypatch.chdir(shop / "sample_project" if "." in words else shop)
    if name in BEFORE:
        assert call(*shlex.split(BEFORE[name])).code == 0
    if name == "forecast" and not LONG:  # its words as shown, and fewer courses
        words = [*(w for w in words if w not in ("--runs", "300")), "--runs", "30"]
    if name in ON_THEIR_OWN:
        run = process(*words, cwd=Path.cwd())
        assert run.returncode == 0, run.stderr.decode()
    else:
        ended = call(*words)
        assert ended.code == 0, ended.err


def test_the_examples_of_the_overview_are_shown_by_a_command_or_by_the_screens() -> None:
    shown = [line.strip() for line in overview(100) if line.startswith("  crewboard ")]
    assert shown
    for example in shown:
        words = example.split()
        assert words[1] in all_commands() or words[1] == "sample_project"


def test_every_command_has_an_example() -> None:
    assert {name for name, _ in EXAMPLES} == set(all_commands())
