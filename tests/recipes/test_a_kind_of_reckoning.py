"""A new kind of reckoning is a file with its `KIND`, and a line: all else comes from that."""

from __future__ import annotations

import sys
from pathlib import Path
from types import ModuleType

import pytest

from crewboard.plan.length import shown
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.kinds import KINDS, ListedKind
from crewboard.trade.reckoning import Reckoning, Source
from tests.command.calling import Shell
from tests.terminal.shop import make_shop

AT = ("--at", "2026-05-02T10:00", "--by", "ada")


def wedge(given: Given) -> Reckoning:
    """Not shipped: a wedge is so thick at its head."""
    long, slope = given.length("length"), given.whole("slope")
    return Reckoning(
        (f"{shown(long / slope, given.units)} thick at the head",),
        sources=(Source("one in so many", "", "common practice"),),
        figures={"head_mm": long / slope},
    )


@pytest.fixture(autouse=True)
def one_more_kind(monkeypatch: pytest.MonkeyPatch) -> None:
    listed = ListedKind("how thick a wedge is at its head")
    asks = (
        Ask("length", "length of the wedge", "length"),
        Ask("slope", "one in so many", "count", needed=False, otherwise="8"),
    )
    file = ModuleType(listed.module("wedge"))
    file.KIND = KindOfReckoning("wedge", "A wedge", asks, wedge)  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, file.__name__, file)
    monkeypatch.setitem(KINDS, "wedge", listed)


def test_it_is_listed_asked_worked_out_kept_and_redone(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "100")
    call, van = Shell(capsys), make_shop(tmp_path / "van")
    assert "wedge: how thick a wedge is at its head" in call("reckon", van).out
    assert "slope= one in so many; otherwise 8" in call("reckon", van, "wedge").out
    given = ("--given", "length=160")
    told = call("reckon", van, "wedge", *given)
    assert "20 mm thick at the head" in told.out
    assert "assumes: one in so many: 8, where nobody says otherwise" in told.out
    assert "source: one in so many (common practice, no source)" in told.out
    assert call("reckon", van, "wedge", *given, "--json").form["figures"] == {"head_mm": 20}
    assert call("reckon", van, "wedge", *given, "--task", "scrape", "--keep", *AT).code == 0
    (kept,) = call("log", van, "--kind", "reckoned", "--json").form["entries"]
    assert kept["given"] == ["length = 160 mm"]
    assert "wedge: 20 mm thick at the head" in call("task", van, "scrape", *AT[:2]).out
    again = call("reckon", van, "--again", kept["id"], "--given", "slope=10", *AT[:2])
    assert "before: 20 mm thick at the head" in again.out
    assert "now: 16 mm thick at the head" in again.out
    assert "because: new: slope = 10" in again.out
