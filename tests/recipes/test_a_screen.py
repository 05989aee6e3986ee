"""A screen is added by one file and one line, and is reached by its key: tried on a copy."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

REPOSITORY = Path(__file__).parents[2]

# terminal/screens/places.py
PLACES = '''
"""The places of the shop, and the work that could be begun at each."""

from collections import Counter

from crewboard.telling.row import Row
from crewboard.terminal.page import Page
from crewboard.terminal.widgets.rows import Column, RowList


class PlacesPage(Page):
    word = "Places"
    explains = ("Where there is work today, and how many tasks could be begun there.",)

    def body(self):
        yield RowList((Column(), Column(9, right=True)), empty="no task names a place")

    def show(self, board):
        ready = Counter(each.task.place for each in board.in_state("ready") if each.task.place)
        rows = [Row(place, (place, f"{count} ready"), "safe") for place, count in ready.items()]
        self.query_one(RowList).fill(rows)
'''

# terminal/screens/__init__.py
LINE = '    PageEntry("f10", "places", "Places", f"{_HERE}.places:PlacesPage"),\n'

DRIVEN = """
import asyncio, sys
from datetime import datetime
from crewboard.terminal.app import CrewboardApp
from crewboard.workbench import Workbench

def seen(app):
    strips = app.screen._compositor.render_strips()
    return "\\n".join("".join(part.text for part in strip) for strip in strips)

async def drive(folder):
    app = CrewboardApp(Workbench(folder), lambda: datetime(2026, 5, 2, 9))
    async with app.run_test(size=(170, 40)) as pilot:
        for key in ("f10", "f1"):
            await pilot.press(key)
            await pilot.pause(0.3)
            print(seen(app))

asyncio.run(drive(sys.argv[1]))
"""


@pytest.fixture
def house(tmp_path: Path) -> Path:
    """A copy of the program in which the recipe was followed."""
    shutil.copytree(
        REPOSITORY / "crewboard",
        tmp_path / "crewboard",
        ignore=shutil.ignore_patterns("__pycache__"),
    )
    screens = tmp_path / "crewboard/terminal/screens"
    (screens / "places.py").write_text(PLACES, encoding="utf-8")
    pages = (screens / "__init__.py").read_text(encoding="utf-8")
    (screens / "__init__.py").write_text(_with_line(pages), encoding="utf-8")
    return tmp_path


def _with_line(pages: str) -> str:
    """The table of pages with one more line at its end."""
    above, table, below = pages.partition("PAGES: tuple[PageEntry, ...] = (\n")
    assert table, "the recipe names a table that is not there"
    lines = below.splitlines(keepends=True)
    end = lines.index(")\n")
    return above + table + "".join([*lines[:end], LINE, *lines[end:]])


def test_a_screen_is_one_file_and_one_line_and_its_key_opens_it(house: Path) -> None:
    run = subprocess.run(
        [sys.executable, "-c", DRIVEN, str(REPOSITORY / "sample_project")],
        env=os.environ | {"PYTHONPATH": str(house)},
        capture_output=True,
        text=True,
        check=False,
        cwd=house,
    )
    assert run.returncode == 0, run.stderr
    assert re.search(r"\w+ +[1-9] ready", run.stdout)
    assert "F10 Places" in run.stdout  # the bottom line names it
    assert "Places: help" in run.stdout
    assert "Where there is work today" in run.stdout
