"""For every test: nothing is remembered on the computer that runs it."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def _nothing_remembered(
    tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> None:
    home: Path = tmp_path_factory.getbasetemp() / "remembered"
    for name in ("XDG_STATE_HOME", "LOCALAPPDATA"):
        monkeypatch.setenv(name, str(home))
    (home / "crewboard" / "remembered.json").unlink(missing_ok=True)
