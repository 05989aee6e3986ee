"""The record is made once for a board, and again only where something was written down between."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from random import Random

import pytest

from crewboard.fabric import fabric as made
from crewboard.fabric.fabric import fabric_of
from crewboard.workbench import Workbench

SAMPLE = Path(__file__).parents[2] / "sample_project"
NOW = datetime(2026, 5, 2, 9)


def test_at_any_moments_in_any_order_it_is_the_record_of_that_moment() -> None:
    bench = Workbench(SAMPLE)
    written = sorted(e.at for day in bench.logbook.days.values() for e in day.record)
    chance = Random(1)
    for _ in range(12):
        at = chance.choice(written)
        for moment in (at - timedelta(minutes=1), at, at + timedelta(minutes=1)):
            assert bench.fabric(moment) == fabric_of(bench.plan, bench.logbook, moment), moment


def test_a_minute_later_it_is_not_made_again(monkeypatch: pytest.MonkeyPatch) -> None:
    bench, times = Workbench(SAMPLE), list[datetime]()

    def counted(*asked: object) -> made.Fabric:
        times.append(asked[2])  # type: ignore[arg-type]
        return fabric_of(*asked)  # type: ignore[arg-type]

    monkeypatch.setattr(made, "fabric_of", counted)
    for minutes in range(5):
        fabric = bench.fabric(NOW + timedelta(minutes=minutes))
        assert fabric is bench.board(fabric.at).fabric
        assert fabric.at == NOW + timedelta(minutes=minutes)
    assert times == [NOW]
