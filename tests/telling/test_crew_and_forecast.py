"""The crew and the forecast say the same on a screen and from a command."""

from __future__ import annotations

import re
from collections.abc import Iterable

import pytest

from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.screens.forecast import ForecastPage
from tests.command.calling import SAMPLE, Shell
from tests.sample.marigold import AT
from tests.terminal.shop import Watch, open_app, reads, seen, until

MOMENT = f"{AT:%Y-%m-%dT%H:%M}"


def words(text: str) -> str:
    """Running text, without the frame and the hints of a screen."""
    return " ".join(re.sub("[│─▸▆█]", " ", text).split())


def sentences(printed: str) -> Iterable[str]:
    """Each line of a command, without the handle in brackets that only a command needs."""
    return (words(line.partition("  [")[0]) for line in printed.splitlines() if line.strip())


def beside(app: CrewboardApp) -> str:
    """What is told beside the list, of the person under the cursor."""
    lines = (line.rpartition("│")[2] for line in seen(app).splitlines() if "│" in line)
    return words(" ".join(lines))


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


async def test_the_crew_is_told_the_same_on_the_screen_and_by_the_command(run: Shell) -> None:
    """Groups, who is here since when, marks, hours, skills and certificates of each, and which of
    them lapse before work that needs them."""
    printed = run("crew", SAMPLE, "--at", MOMENT).out
    app = open_app(SAMPLE, Watch(AT))
    async with app.run_test(size=(250, 130)) as pilot:
        await pilot.press("f5")
        await reads(pilot, "Here (2)")
        screen = words(seen(app))
        told_of = {""}
        for _ in app.board.plan.crew:
            await until(pilot, lambda: beside(app) not in told_of)
            told_of.add(beside(app))
            await pilot.press("down")
    screen += "; ".join(told_of)
    said = list(sentences(printed))
    heads = [each for each in said if each.endswith(")") and each[:4] in ("Here", "Expe", "Not ")]
    ending = [each for each in said if each.startswith(("LAPSED:", "lapses soon:"))]
    people = [each for each in said if each.startswith(("since", "expected", "not here"))]
    assert len(heads) == 3
    assert len(ending) >= 2
    assert len(people) >= 10
    missing = [each for each in said if each not in screen]
    assert not missing, missing


async def test_a_persons_sheet_is_told_the_same_on_the_screen_and_by_the_command(
    run: Shell,
) -> None:
    printed = run("crew", SAMPLE, "mirela", "--at", MOMENT).out
    app = open_app(SAMPLE, Watch(AT))
    async with app.run_test(size=(100, 80)) as pilot:
        await pilot.press("f5")
        await reads(pilot, "Here (2)")
        await pilot.press("enter")
        await reads(pilot, "Hours by task")
        screen = words(seen(app))
    said = [each for each in sentences(printed) if each not in ("",)]
    assert len(said) > 30
    missing = [each for each in said if each not in screen]
    assert not missing, missing


async def test_the_forecast_is_told_the_same_on_the_screen_and_by_the_command(
    run: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Dates, what is supposed, what would help, components, what sets the date."""
    monkeypatch.setattr(ForecastPage, "runs", 20)
    monkeypatch.setattr(ForecastPage, "ways", 20)
    monkeypatch.setenv("COLUMNS", "100")
    printed = run("forecast", SAMPLE, "--at", MOMENT, "--runs", "20").out
    app = open_app(SAMPLE, Watch(AT))
    async with app.run_test(size=(250, 130)) as pilot:
        await pilot.press("f8")
        await until(pilot, lambda: "no clear gain" in seen(app), 120)
        screen = words(seen(app))
    # What was wrapped goes on further in; the ruler is as long as there is room; the list beside
    # the text has no room for the state of a task, the last word of its row.
    whole = [line for line in printed.splitlines() if not line.startswith("    ")]
    rows = [
        re.sub(r"  (waiting|ready|under way)$", "", r) for r in whole if not set(r) & set("▼─▲")
    ]
    said = [words(row)[:30] for row in rows if row]
    assert len(said) > 30
    for start in ("even chance (50 %)", "earliest possible", "ordered:", "no clear gain:"):
        assert any(each.startswith(start) for each in said)
    assert any(re.match(r"\d+ % \w", each) for each in said), "what sets the date"
    missing = [each for each in said if each not in screen]
    assert not missing, missing
