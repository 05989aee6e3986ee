"""A folder with a class of text in every field, and the caller."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.naughty import CLASSES, folder_full_of


@pytest.fixture(params=CLASSES, ids=lambda name: name.replace(" ", "-"))
def text(request: pytest.FixtureRequest) -> str:
    return CLASSES[request.param]


@pytest.fixture
def van(tmp_path: Path, text: str, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    return folder_full_of(text, tmp_path / "van")


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)
