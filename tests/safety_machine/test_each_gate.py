"""Each gate switched off by itself: the second reading sees what it would have kept out."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest
from hypothesis import Phase, settings
from hypothesis.stateful import run_state_machine_as_test

from tests.long_form import LONG
from tests.safety_machine.gates import GATES, switch_off
from tests.safety_machine.machine import Days
from tests.safety_machine.played import Played
from tests.safety_machine.scripts import SCRIPTS
from tests.safety_machine.settings import PLAYED

MORNING = datetime(2026, 5, 2, 9)
every_gate = pytest.mark.parametrize("gate", GATES)


def test_every_gate_has_a_day_on_which_it_alone_is_needed() -> None:
    assert set(SCRIPTS) == set(GATES)


@every_gate
def test_the_gate_stands_and_nothing_is_wrong(gate: str, tmp_path: Path) -> None:
    played = Played(tmp_path)
    outcomes = []
    for outcome in SCRIPTS[gate](played):
        outcomes.append(outcome)
        assert played.wrong(outcome.entries[-1].at if outcome.entries else MORNING) == set()
    assert [outcome.kept for outcome in outcomes] == [True] * (len(outcomes) - 1) + [False]


@every_gate
def test_without_the_gate_something_dangerous_goes_on_and_is_seen(
    gate: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    switch_off(gate, monkeypatch)
    played = Played(tmp_path)
    for steps, outcome in enumerate(SCRIPTS[gate](played), 1):
        assert outcome.kept, (steps, outcome.refused)
        if wrong := played.wrong(outcome.entries[-1].at if outcome.entries else MORNING):
            print(f"{gate}: seen after {steps} steps: {sorted(wrong)[0].what}")
            return
    raise AssertionError(f"nobody saw that {gate} was switched off")


@pytest.mark.skipif(not LONG, reason="random days until one shows it: CREWBOARD_LONG=1")
@every_gate
def test_random_days_without_the_gate_show_it_too(
    gate: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Told gate by gate with -s; what chance does not meet in so many days, the scripts show."""
    switch_off(gate, monkeypatch)
    played = []

    class Counted(Days):
        def __init__(self) -> None:
            super().__init__()
            played.append(1)

    days = settings(PLAYED, max_examples=200, phases=(Phase.generate,))
    try:
        run_state_machine_as_test(Counted, settings=days)
        print(f"{gate}: not met in {len(played)} days")
    except AssertionError as seen:
        print(f"{gate}: seen on day {len(played)}: {str(seen).splitlines()[0]}")
