"""A year lived by commands on an invented van, and the questions its crew would ask the board.

The answers in `questions.toml` were worked out by hand from `entries.txt` and the plan, and
committed before the first run.
"""

from __future__ import annotations

import contextlib
import io
import re
import shlex
import shutil
import tomllib
from pathlib import Path
from typing import Any

import pytest

from crewboard.command.run import main
from tests.command.calling import Ended

HERE = Path(__file__).parent
QUESTIONS: list[dict[str, Any]] = tomllib.loads((HERE / "questions.toml").read_text())["question"]
_NAMES = ("id", "task", "who", "component")  # the keys by which one of a list is asked for


def call(*typed: str) -> Ended:
    """A call within this process, also where no test's own capture is at hand."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = main(list(typed))
    return Ended(code, out.getvalue(), err.getvalue())


@pytest.fixture(scope="session")
def year(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with every entry of the year written by the commands, in order of time."""
    folder = tmp_path_factory.mktemp("year") / "plover"
    shutil.copytree(HERE / "plover", folder)
    for line in (HERE / "entries.txt").read_text().splitlines():
        if line and not line.startswith("#"):
            at, by, command, *rest = shlex.split(line)
            ended = call(command, str(folder), *rest, "--by", by, "--at", at)
            assert ended.code == 0, f"{line}: {ended.err}"
    return folder


def answer(form: Any, path: str) -> Any:
    """What stands at `path`: "tasks[frame/prime].state", "first[0].task"; "nothing" for nothing."""
    for name, which in re.findall(r"([a-z_0-9]+)(?:\[([^\]]+)\])?", path):
        form = form[name]
        if which.isdigit():
            form = form[int(which)]
        elif which:
            form = next((one for one in form if which in [one.get(k) for k in _NAMES]), None)
        if form is None:
            return "nothing"
    return form


@pytest.mark.parametrize(
    "question", QUESTIONS, ids=lambda q: f"{q['at']:%Y-%m-%d %H:%M} {q['ask']}"
)
def test_the_board_answers_as_worked_out_by_hand(
    question: dict[str, Any], year: Path, tmp_path: Path
) -> None:
    folder = shutil.copytree(year, tmp_path / "plover") if "exit" in question else year
    command, *rest = shlex.split(question["ask"])
    words = [command, str(folder), *rest, "--at", question["at"].isoformat()]
    if "exit" in question:
        assert call(*words).code == question["exit"], question["because"]
    if "path" in question:
        given = answer(call(*words, "--json").form, question["path"])
        assert given != question.get("is_not"), question["because"]
        assert given == question.get("is", given), question["because"]
    text = (
        " ".join(call(*words).out.split()) if "says" in question or "says_not" in question else ""
    )
    for says in question.get("says", ()):
        assert says in text, question["because"]
    for says in question.get("says_not", ()):
        assert says not in text, question["because"]
