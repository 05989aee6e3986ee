"""A day is planned alike on every machine: bounded by work done, not by the clock."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys

import pytest

from tests.command.calling import REPOSITORY, SAMPLE

PLAN = ("plan-day", str(SAMPLE), "--at", "2026-05-02T09:00", "--seconds", "0.3", "--json")


def planned(cores: str, order_of_sets: str) -> bytes:
    """The plan from a process of its own, on these processors where that can be said."""
    only = ["taskset", "-c", cores] if cores and shutil.which("taskset") else []
    run = subprocess.run(
        [*only, sys.executable, "-m", "crewboard", *PLAN],
        capture_output=True,
        env={**os.environ, "PYTHONPATH": str(REPOSITORY), "PYTHONHASHSEED": order_of_sets},
        timeout=300,
    )
    assert run.returncode == 0, run.stderr
    return run.stdout


def test_fresh_processes_on_one_core_and_on_all_give_the_same_plan() -> None:
    pytest.importorskip("ortools")
    first = planned("0", "0")
    assert b'"by": "solver"' in first
    for cores, order_of_sets in (("", "1"), ("0", "2"), ("", "3")):
        assert planned(cores, order_of_sets) == first
