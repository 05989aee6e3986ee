"""A gap of the record is a rule and a sentence: all who tell gaps have it from there."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from crewboard.fabric import gaps
from crewboard.fabric.gaps import Gap, Treated
from crewboard.logbook.acts import DoneTo
from crewboard.telling.gaps import SENTENCES
from tests.command.calling import Shell
from tests.terminal.shop import make_shop

BOARDS = 'name = "Boards"\n\n[pieces.board]\nname = "Board"\nas_found = "original"\n'
BY = ("--by", "ada", "--at", "2026-05-02T10:00")


def _no_word_on_cleaning(case: Treated) -> Iterator[Gap]:
    """What was cleaned says with what."""
    for entry, done in case.done:
        if isinstance(done, DoneTo) and done.action == "cleaned" and not done.how:
            yield case.gap("cleaned how", entry)  # type: ignore[arg-type]


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(gaps, "RULES", (*gaps.RULES, _no_word_on_cleaning))
    monkeypatch.setitem(SENTENCES, "cleaned how", "Say how {named} was cleaned {when}.")
    return make_shop(tmp_path / "van", components={"boards": BOARDS})


def test_the_new_gap_is_told_with_the_others_and_closed_by_what_it_asks_for(
    van: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    call, says = Shell(capsys), "Say how Board was cleaned on Sat 2 May 2026."
    assert call("done", van, "board", "cleaned", *BY).code == 0
    assert says in call("gaps", van, "--at", "2026-05-02T12:00").out
    assert says in call("day-end", van, "--at", "2026-05-02T12:00").out
    (piece,) = call("gaps", van, "--at", "2026-05-02T12:00", "--json").form["pieces"]
    entry = next(gap["entry"] for gap in piece["gaps"] if gap["code"] == "cleaned how")
    assert call("correct", van, entry, "--set", "how=a dry brush", "--by", "ada").code == 0
    assert says not in call("gaps", van, "--at", "2026-05-02T12:00").out
