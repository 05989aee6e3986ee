"""For every test: nothing is remembered on the computer that runs it, and the short form draws the
same examples each time, so that the door gives one answer; the long form draws anew."""

from __future__ import annotations

import gc
from pathlib import Path

import pytest
from hypothesis import settings

from tests.long_form import LONG
from tests.quick import be_quick, compile_once, look_for_circles_seldom
from tests.slowest import slowest_files

settings.register_profile("door", derandomize=True)
compile_once()
if not LONG:
    settings.load_profile("door")
    be_quick()


def pytest_collection_finish() -> None:
    look_for_circles_seldom()


def pytest_runtest_teardown() -> None:
    gc.enable()  # a command that a test called in this process has stopped it, being a short run


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    for line in slowest_files(terminalreporter):
        terminalreporter.write_line(line)


@pytest.fixture(autouse=True)
def _nothing_remembered(
    tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> None:
    home: Path = tmp_path_factory.getbasetemp() / "remembered"
    for name in ("XDG_STATE_HOME", "LOCALAPPDATA"):
        monkeypatch.setenv(name, str(home))
    (home / "crewboard" / "remembered.json").unlink(missing_ok=True)
