"""The crew and the forecast say the same on a screen and from a command."""

from __future__ import annotations

import re
from collections.abc import Iterable

import pytest

from tests.command.calling import SAMPLE, Shell
from tests.sample.marigold import AT
from tests.terminal.shop import Watch, open_app, reads, seen

MOMENT = f"{AT:%Y-%m-%dT%H:%M}"


def words(text: str) -> str:
    """Running text, without the frame and the hints of a screen."""
    return " ".join(re.sub("[│─▸▆█]", " ", text).split())


def sentences(printed: str) -> Iterable[str]:
    """Each line of a command, without the handle in brackets that only a command needs."""
    return (words(line.partition("  [")[0]) for line in printed.splitlines() if line.strip())


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


async def test_the_crew_is_told_the_same_on_the_screen_and_by_the_command(run: Shell) -> None:
    """Groups, who is here since when, marks, and the certificates that lapse."""
    printed = run("crew", SAMPLE, "--at", MOMENT).out
    app = open_app(SAMPLE, Watch(AT))
    async with app.run_test(size=(100, 60)) as pilot:
        await pilot.press("f5")
        await reads(pilot, "Here (1)")
        screen = words(seen(app))
    said = list(sentences(printed))
    heads = [each for each in said if each.endswith(")") and each[:4] in ("Here", "Expe", "Not ")]
    ending = [each for each in said if each.startswith(("LAPSED:", "lapses soon:"))]
    people = [each for each in said if each.startswith(("since", "expected", "not here"))]
    assert len(heads) == 3
    assert len(ending) >= 2
    assert len(people) >= 10
    for each in (*heads, *ending, *people):
        assert each in screen, each


async def test_a_persons_sheet_is_told_the_same_on_the_screen_and_by_the_command(
    run: Shell,
) -> None:
    printed = run("crew", SAMPLE, "mirela", "--at", MOMENT).out
    app = open_app(SAMPLE, Watch(AT))
    async with app.run_test(size=(100, 80)) as pilot:
        await pilot.press("f5")
        await reads(pilot, "Here (1)")
        await pilot.press("enter")
        await reads(pilot, "Hours by task")
        screen = words(seen(app))
    said = [each for each in sentences(printed) if each not in ("",)]
    assert len(said) > 30
    assert [each for each in said if each not in screen] == []
