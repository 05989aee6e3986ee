"""The caller of commands, as for all commands; and a small shop to take files into."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.terminal.shop import make_shop


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Shell:
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    return Shell(capsys)


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "van")
