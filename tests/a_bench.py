"""What is written on a workbench, and the day's file that it goes into."""

from __future__ import annotations

from datetime import datetime

from crewboard.workbench import Outcome, Said, Workbench

DAY = "days/2026/2026-05-02.toml"
LATE = datetime(2026, 5, 2, 15, 30)


def say(bench: Workbench, act: object, at: datetime = LATE) -> Outcome:
    return bench.record([Said(act, at)], by="ada", now=at)  # type: ignore[arg-type]


def day_text(bench: Workbench) -> str:
    return (bench.folder.root / DAY).read_text()
