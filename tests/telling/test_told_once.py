"""The same facts before and after, and the same sentences on a screen and from a command."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from datetime import datetime
from itertools import product

import pytest

from crewboard.command import output
from crewboard.command.run import main
from crewboard.order.safety.clocks import still_running
from crewboard.order.said import quoted_title
from crewboard.paper.plain import plain_lines
from crewboard.telling.day import day_head, finished_so_far, waiting_lines
from crewboard.telling.line import Line
from crewboard.terminal.screens.task_sheet import TaskSheetPage
from crewboard.workbench import Workbench
from tests.long_form import LONG
from tests.telling.facts import SAMPLE, STORED, Facts, facts
from tests.terminal.shop import Watch, asked, open_app, reads, seen, until

Printed = Callable[..., list[str]]

SAMPLE_CHANGED = "where the sample itself was changed: tests/telling/facts.py says what to do"


@pytest.fixture(scope="module")
def before() -> Facts:
    stored: Facts = json.loads(STORED.read_text(encoding="utf-8"))
    return stored


@pytest.fixture(scope="module")
def now() -> Facts:
    return facts()


@pytest.mark.parametrize("subject", ["day", "holds"])
def test_day_and_holds_tell_the_facts_that_they_always_told(
    subject: str, before: Facts, now: Facts
) -> None:
    moments = [each for each in before if each.startswith("20")]
    assert len(moments) == 4
    for moment in moments:
        assert now[moment][subject] == before[moment][subject], SAMPLE_CHANGED


def test_the_log_tells_the_facts_that_it_always_told(before: Facts, now: Facts) -> None:
    assert now["log"] == before["log"], SAMPLE_CHANGED


def test_why_leaves_out_no_reason_that_it_always_told(before: Facts, now: Facts) -> None:
    """It has come to name more: the holds that stand before a task which waits for work too."""
    assert now["why"].keys() == before["why"].keys(), SAMPLE_CHANGED
    for task, reasons in before["why"].items():
        told = now["why"][task].split()
        assert set(reasons.split()) <= set(told), task
        assert all(each.startswith("hold:") for each in set(told) - set(reasons.split())), task


# --- the same sentences on the screen and from the command ---------------------------------------

MOMENTS = (datetime(2026, 5, 2, 9), datetime(2026, 2, 7, 11, 30), datetime(2026, 4, 26, 12))
TASKS = ("deck/lay-boards", "windows/strip-sashes", "arches/bend/arches/3")
WHOLE = (500, 260)  # columns and lines in which nothing is cut, wrapped or below the edge
ONLY_PRINTED = ("Marigold:", "Work day, open", "No work day", "Here:", "Waiting (")
"""What of the day the screen has in its head line, without words, or in more detail."""


@pytest.fixture
def printed(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Printed:
    """A command's sentences, one a line, without what one types to name a thing."""
    monkeypatch.setattr(output, "WIDEST", 5000)
    monkeypatch.setenv("COLUMNS", "5000")

    def sentences(*typed: object) -> list[str]:
        capsys.readouterr()
        assert main([str(word) for word in typed]) == 0
        lines = capsys.readouterr().out.splitlines()
        told = (squeezed(re.sub(r"  \[[^\[\]]+\]", "", line)) for line in lines)
        return [line for line in told if line]

    return sentences


def in_words(*lines: Line) -> set[str]:
    """What the room of words itself says, as a command prints it."""
    return {squeezed(line) for line in plain_lines(lines, 5000)}


def squeezed(text: str) -> str:
    return " ".join(text.split())


def at(moment: datetime) -> tuple[str, str]:
    return "--at", moment.isoformat(timespec="minutes")


async def screen_text(
    moment: datetime, *keys: str, moves: int = 0, opened: bool = False, beside: int = 0
) -> str:
    """What the page reads after the keys, and after each of so many arrows down; with `opened`
    also what Enter tells of each row, with `beside` after so many in the list beside."""
    app = open_app(SAMPLE, Watch(moment))
    async with app.run_test(size=WHOLE) as pilot:
        await reads(pilot, "Marigold")
        await pilot.press(*keys)
        await pilot.pause()
        texts = [seen(app)]
        for _ in range(moves):
            if opened:
                await pilot.press("enter")
                await until(pilot, lambda: asked(app))
                texts.append(asked(app))
                await pilot.press("escape")
            await pilot.press("down")
            await pilot.pause()
            texts.append(seen(app))
        for key in ("tab", *["down"] * beside) if beside else ():
            await pilot.press(key)
            await pilot.pause()
            texts.append(seen(app))
    told = "\n".join(squeezed(line) for text in texts for line in text.splitlines())
    told = told.replace("▸ ", "")  # the cursor
    return re.sub(r"(?m)^([a-z]+) [+-] ", r"\1 ", told)  # what folds


@pytest.mark.parametrize("moment", MOMENTS)
async def test_the_day_is_told_alike_on_the_screen_and_by_the_command(
    printed: Printed, moment: datetime
) -> None:
    board = Workbench(SAMPLE).board(moment)
    workable = sum(1 for _ in board.in_state("ready", "under way"))
    holds = len(board.stopping())
    opens = ("end", "enter", "home")  # what waits
    screen = await screen_text(moment, *opens, moves=workable + holds + 2, beside=holds)
    sentences = printed("day", SAMPLE, *at(moment))
    *rest, last = [each for each in sentences if not each.startswith(ONLY_PRINTED)]
    assert len(rest) > 40
    assert last == f"{finished_so_far(board)}."  # which the vehicle's page counts
    for sentence in set(sentences) - {*rest, last}:
        assert sentence in in_words(*day_head(board), *waiting_lines(board))
    for sentence in rest:
        if sentence.startswith("Waiting for"):
            head, _, titles = sentence.rpartition("): ")
            assert f"{head})" in screen
            for title in titles.split(" and ")[0].split("; "):
                assert title.strip('"') in screen
        elif sentence.startswith("LEAVE ALONE ("):
            head, _, alone = sentence.partition(": ")
            assert all(part in screen for part in (head, *alone.split("; ")))
        elif found := re.fullmatch(r"(on hold|leave alone) (.*?) ([\w?]+ ?\w*)( \d+ %)?", sentence):
            assert found[2] in screen  # with a bar between it and the time left
        else:
            assert sentence in screen


@pytest.mark.parametrize("moment", MOMENTS)
async def test_holds_are_told_alike_on_the_screen_and_by_the_command(
    printed: Printed, moment: datetime
) -> None:
    board = Workbench(SAMPLE).board(moment)
    holds = len(board.stopping())
    rows = holds + len(still_running(board))
    screen = await screen_text(moment, "f4", "home", moves=rows, opened=True)
    sentences = printed("holds", SAMPLE, *at(moment))
    assert len(sentences) > 2 * holds > 0
    for sentence in sentences:  # the heading says the state; a series is one row, told beside
        of_it = re.sub("^(due for a look|leave alone|on hold) (?=[A-Z])", "", sentence)
        assert of_it in screen


@pytest.mark.parametrize(("moment", "task"), [*(product if LONG else zip)(MOMENTS, TASKS)])
async def test_a_task_is_told_alike_on_the_screen_and_by_the_command(
    printed: Printed, moment: datetime, task: str
) -> None:
    app = open_app(SAMPLE, Watch(moment))
    async with app.run_test(size=WHOLE) as pilot:
        await reads(pilot, "Marigold")
        app.open_task(task)
        await until(pilot, lambda: isinstance(app.screen, TaskSheetPage))
        await pilot.pause()
        screen = "\n".join(squeezed(line) for line in seen(app).splitlines())
        app.why(task)
        await pilot.pause()
        reasons = squeezed(asked(app).replace("│", " "))
    for sentence in printed("task", SAMPLE, task, *at(moment)):
        assert sentence in screen
    named = f"{quoted_title(app.board.plan, task)}: "  # the heading on the screen says it already
    for sentence in printed("why", SAMPLE, task, *at(moment)):
        assert sentence.removeprefix(named) in reasons
