"""A kind of hold is added by one line in the table of kinds, and nothing else knows of it."""

from __future__ import annotations

import ast
from datetime import datetime
from pathlib import Path

import pytest

from crewboard.plan import hold
from crewboard.plan.duration import parse_duration
from crewboard.plan.hold import KINDS, KindOfHold
from crewboard.terminal.planning.choices import kind_choices
from tests.command.calling import DONE, Shell
from tests.terminal.shop import Watch, make_shop, open_app, reads

AT = ("--at", "2026-05-02T10:00", "--by", "ada")
LATER = ("--at", "2026-05-03T10:00")
HOUSE = Path(hold.__file__).parent.parent


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop that knows one more kind: leather that shrinks onto its frame."""
    shrinks = KindOfHold("leather shrink", "leather is shrinking", "look", "3 weeks")
    monkeypatch.setitem(KINDS, "shrink", shrinks)
    seats = (
        'name = "Seats"\n\n[tasks.cover]\ntitle = "Cover the seats"\nhours = [1, 2, 3]\n'
        'hold = { kind = "shrink", lasts = "5 weeks" }\n\n'
        '[tasks.fit]\ntitle = "Fit the seats"\nhours = [1, 2, 3]\nafter = ["cover"]\n'
    )
    return make_shop(tmp_path / "van", components={"seats": seats})


def test_the_folder_and_the_forms_take_the_new_kind(van: Path, shell: Shell) -> None:
    assert shell("check", van).code == 0
    assert any("leather is shrinking" in choice.note for choice in kind_choices())


def test_the_day_says_what_finishing_starts(van: Path, shell: Shell) -> None:
    assert "starts a 5-week leather shrink" in " ".join(shell("day", van, *AT[:2]).out.split())


def test_the_review_knows_its_longest_plausible_time(van: Path, shell: Shell) -> None:
    said = " ".join(shell("review", van, *AT[:2]).out.split())
    assert "a shrink seldom takes more than 3 weeks" in said


def test_every_face_tells_of_one_that_runs(van: Path, shell: Shell) -> None:
    assert shell("finish", van, "cover", *DONE, *AT).code == 0
    words = "leather is shrinking"
    for typed in (("day", van), ("holds", van), ("why", van, "fit"), ("report", "calendar", van)):
        assert words in shell(*typed, *LATER).out.replace("\r\n ", ""), typed
    told = shell("holds", van, "--json", *LATER).form["holds"]
    assert [each["kind"] for each in told] == ["shrink"]
    assert shell("forecast", van, "--runs", "20", *LATER).code == 0


def test_one_is_started_by_hand(van: Path, shell: Shell) -> None:
    typed = ("hold", van, "shrink", "--task", "bend", "--lasts", "2 days", *AT)
    assert shell(*typed).code == 0
    assert "leather is shrinking" in shell("holds", van, *LATER).out


async def test_the_screen_shows_it(van: Path, shell: Shell) -> None:
    assert shell("finish", van, "cover", *DONE, *AT).code == 0
    app = open_app(van, Watch(datetime(2026, 5, 3, 10)))
    async with app.run_test(size=(110, 36)) as pilot:
        await pilot.press("f4")
        await reads(pilot, "leather is shrinking since Sat 2 May 10:00")


# --- one table ---------------------------------------------------------------------------------


def test_there_is_no_second_table_of_kinds() -> None:
    """No other file names three kinds of holds in one list, table or set."""
    for path in HOUSE.rglob("*.py"):
        if path == Path(hold.__file__):
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            parts = node.keys if isinstance(node, ast.Dict) else getattr(node, "elts", [])
            named = {p.value for p in parts if isinstance(p, ast.Constant)} & KINDS.keys()
            assert len(named) < 3, f"{path.relative_to(HOUSE)} has a table of {named}"


@pytest.mark.parametrize("kind", KINDS)
def test_the_longest_time_of_a_kind_is_a_span(kind: str) -> None:
    assert parse_duration(KINDS[kind].longest)


@pytest.fixture
def shell(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)
