"""One piece of several goes its own way, as facts of the work: it fails, is set aside, redone."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import ONLY_ADA, lay_down
from tests.command.calling import Shell
from tests.command.test_pieces import ARCHES, BY, VEHICLE, bend, state

AT = "2026-05-14T09:00"


@pytest.fixture
def wagon(tmp_path: Path) -> Path:
    """A roof of three arches and a spare, with room for all on the forms."""
    vehicle = VEHICLE + "count = 4\n"
    return lay_down(tmp_path / "wagon", {"roof": ARCHES}, vehicle=vehicle, crew=ONLY_ADA)


def fit(call: Shell, wagon: Path, *numbers: int, at: str = AT) -> None:
    for number in numbers:
        assert (
            call("begin", wagon, f"fit/arches/{number}", "--who", "ada", "--at", at, *BY).code == 0
        )
        assert call("finish", wagon, f"fit/arches/{number}", "--at", at, *BY).code == 0


def test_the_hold_of_an_arch_that_failed_is_over_and_its_form_is_free(
    call: Shell, wagon: Path
) -> None:
    call("begin", wagon, "bend/arches/1", "--who", "ada", "--at", "2026-05-02T08:00", *BY)
    call("finish", wagon, "bend/arches/1", "--at", "2026-05-02T09:00", *BY)
    holds = ("holds", wagon, "--at", "2026-05-02T10:00", "--json")
    assert len(call(*holds).form["holds"]) == 1
    failed = ("fail", wagon, "arches/1", "--why", "split", "--at", "2026-05-02T09:30", *BY)
    assert call(*failed).code == 0
    assert not call(*holds).form["holds"]
    assert state(call, wagon, "bend/arches/2", "2026-05-02T10:00") == "ready"


def test_what_followed_a_fitted_arch_waits_again_once_it_failed(call: Shell, wagon: Path) -> None:
    for number, day in ((1, 2), (2, 5), (3, 8)):
        bend(call, wagon, number, day)
    fit(call, wagon, 1, 2, 3)
    assert state(call, wagon, "canvas", AT) == "ready"
    failed = call("fail", wagon, "arches/3", "--why", "sprang", "--again", "--at", AT, *BY)
    assert failed.code == 0, failed.err
    assert state(call, wagon, "canvas", AT) == "waiting"
    assert state(call, wagon, "battens", AT) == "ready"  # two are enough for them
    why = " ".join(call("why", wagon, "canvas", "--at", AT).out.split())
    assert "Bend: Arch 3" in why
    bend(call, wagon, 3, 16)
    fit(call, wagon, 3, at="2026-05-18T11:00")
    assert state(call, wagon, "canvas", "2026-05-18T11:00") == "ready"


def test_not_made_anew_it_needs_a_spare(call: Shell, wagon: Path) -> None:
    for number, day in ((1, 2), (2, 5), (3, 8)):
        bend(call, wagon, number, day)
    fit(call, wagon, 1, 2, 3)
    assert call("fail", wagon, "arches/3", "--why", "sprang", "--at", AT, *BY).code == 0
    assert state(call, wagon, "canvas", AT) == "waiting"
    assert call("use-spare", wagon, "arches/4", "--for", "arches/3", "--at", AT, *BY).code == 0
    assert state(call, wagon, "fit/arches/4", AT) == "waiting"  # nobody bent the spare so far
    bend(call, wagon, 4, 16)
    fit(call, wagon, 4, at="2026-05-18T11:00")
    assert state(call, wagon, "canvas", "2026-05-18T11:00") == "ready"


def test_one_set_aside_lets_the_others_go_on(call: Shell, wagon: Path) -> None:
    for number, day in ((1, 2), (2, 5)):
        bend(call, wagon, number, day)
    aside = ("set-aside", wagon, "bend/arches/3", "--why", "the blank is too wet", "--at", AT, *BY)
    assert call(*aside).code == 0
    assert state(call, wagon, "bend/arches/3", AT) == "set aside"
    fit(call, wagon, 1, 2)
    assert state(call, wagon, "battens", AT) == "ready"
    assert state(call, wagon, "canvas", AT) == "waiting"  # it is still to be done
    back = ("set-aside", wagon, "bend/arches/3", "--back", "--at", AT, *BY)
    assert call(*back).code == 0
    assert state(call, wagon, "bend/arches/3", AT) == "ready"


def test_one_is_done_again_without_the_others(call: Shell, wagon: Path) -> None:
    for number, day in ((1, 2), (2, 5), (3, 8)):
        bend(call, wagon, number, day)
    fit(call, wagon, 1, 2, 3)
    again = call("reopen", wagon, "fit/arches/2", "--why", "sits proud", "--at", AT, *BY)
    assert again.code == 0, again.err
    assert state(call, wagon, "fit/arches/2", AT) == "ready"
    assert state(call, wagon, "bend/arches/2", AT) == "finished"
    assert {state(call, wagon, f"fit/arches/{n}", AT) for n in (1, 3)} == {"finished"}
    assert state(call, wagon, "canvas", AT) == "waiting"
    assert state(call, wagon, "battens", AT) == "ready"
