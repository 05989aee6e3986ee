"""A folder to call commands on, and the caller."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.folder.a_vehicle import make


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    return make(tmp_path / "van")


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


@pytest.fixture
def begun(van: Path) -> Path:
    """The same with nothing to ask about: all that was finished there was begun."""
    begin = 'kind = "begun", task = "frame/prime", crew = ["ada"]'
    with (van / "days/2026/2026-05-02.toml").open("a", encoding="utf-8") as day:
        day.write(f'zzbegun2 = {{ at = 2026-05-02T12:20:00, by = "ada", {begin} }}\n')
    return van
