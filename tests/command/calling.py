"""Calling the command line, in this process or in one of its own."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import IO, Any, NamedTuple

import pytest

from crewboard.command.run import main

REPOSITORY = Path(__file__).parent.parent.parent
SAMPLE = REPOSITORY / "sample_project"
# What a finish says of work that nobody wrote to have begun.
DONE = ("--who", "ada", "--began", "00:10")


class Ended(NamedTuple):
    """How a call ended: its exit code, the data it gave and what it said."""

    code: int
    out: str
    err: str

    @property
    def form(self) -> dict[str, Any]:
        found: dict[str, Any] = json.loads(self.out)
        return found


class Shell:
    """Calls within this process."""

    def __init__(self, capsys: pytest.CaptureFixture[str]) -> None:
        self.capsys = capsys

    def __call__(self, *typed: object) -> Ended:
        self.capsys.readouterr()
        code = main([str(each) for each in typed])
        out, err = self.capsys.readouterr()
        return Ended(code, out, err)


def open_shop(call: Shell, folder: Path, *at: str, who: str = "ada") -> None:
    """Sign the opening checks of a day, as the first-aider or, without one, saying why."""
    sign = ("sign", folder, "day")
    assert call(*sign, "ways-out", "heater-and-air", "--who", who, *at).code == 0
    first_aid = (*sign, "the-shop/first-aid", "--who", who, *at)
    if call(*first_aid, "--named", who).code:
        said = call(*first_aid, "--why", "nobody in this crew has the paper yet")
        assert said.code == 0, said.err


def process(
    *typed: object,
    env: dict[str, str] | None = None,
    cwd: Path | None = None,
    stdin: IO[bytes] | int = subprocess.DEVNULL,
) -> subprocess.CompletedProcess[bytes]:
    """A call as a process of its own, without a terminal."""
    return subprocess.run(
        [sys.executable, "-m", "crewboard", *map(str, typed)],
        capture_output=True,
        stdin=stdin,
        env={**os.environ, "PYTHONPATH": str(REPOSITORY), **(env or {})},
        cwd=cwd,
        timeout=180,  # a laptop that does much else, too
    )
