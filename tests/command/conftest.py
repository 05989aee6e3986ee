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
