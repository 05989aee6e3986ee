"""The same work on several pieces is no slower for being written once."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.assess import assess
from tests.growth.shapes import AT
from tests.growth.test_growth import forecast_made_ready, lines_run, look, write
from tests.growth.twins import by_hand, with_series


def read(folder: Folder) -> None:
    assert Folder(folder.root).plan.tasks


def rank(folder: Folder) -> None:
    what_goes_first(assess(folder.plan, folder.logbook, AT))


@pytest.mark.parametrize("act", [read, rank, look, forecast_made_ready])
def test_a_series_takes_no_more_work_than_its_tasks_written_out(
    tmp_path: Path, act: object
) -> None:
    assert callable(act)
    short = write(tmp_path / "short", with_series(360, 3))
    long = write(tmp_path / "long", by_hand(360, 3))
    assert len(short.plan.tasks) == len(long.plan.tasks) == 360
    for folder in (short, long):
        act(folder)  # what is imported and remembered once
    once, written = lines_run(lambda: act(short)), lines_run(lambda: act(long))
    assert once <= 1.15 * written, f"{once} lines, {written} for the tasks written out"
