"""The first screen answers in five seconds: at 80 columns and 24 lines, without scrolling."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from rich.style import Style

from crewboard.logbook.acts import Act, Begun, Finished, HoldStarted, SignIn
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.board import Board
from crewboard.order.left_alone import told_together
from crewboard.order.may.on_it import on_it, under_way_now
from crewboard.order.said import short_names
from crewboard.plan.duration import parse_duration
from crewboard.telling.on_hold import due_together, running_together, time_left, together_title
from crewboard.telling.series import fold, series_title
from crewboard.terminal.widgets.alone_line import AloneLine, in_lines
from crewboard.workbench import Said, Workbench
from tests.telling.facts import SAMPLE
from tests.terminal.shop import PEOPLE, SATURDAY, Watch, make_shop, open_app, reads, seen

SMALL = (80, 24)
MORNING = datetime(2026, 5, 2, 9)
SAMPLES = (MORNING, datetime(2026, 2, 7, 11, 30), datetime(2026, 4, 25, 11), MORNING.replace(day=3))


def begins(title: str) -> str:
    """As much of a title as any row shows."""
    return title[:9]


def has_all(board: Board, screen: str) -> None:
    """Everything that has to be seen at a glance."""
    alone = told_together(board)
    if alone:
        lines = screen.splitlines()
        (at,) = [number for number, line in enumerate(lines) if "LEAVE ALONE" in line]
        assert f"LEAVE ALONE ({len(alone)})" in lines[at]
        more = [line for line in lines[at + 1 : at + 2] if line.startswith("   ")]
        told = " · ".join((lines[at], *more))
        rest = re.search(r"\+(\d+) more", told)
        shown = told.count("·") + 1
        assert shown - 1 + int(rest[1]) == len(alone) if rest else shown >= len(alone)
    for holds in due_together(board):  # those of one series in one row
        assert begins(together_title(board, holds)) in screen
    for holds in running_together(board):  # those of one series that end on one day in one row
        if not holds[0].leave_alone:
            assert begins(together_title(board, holds)) in screen
            assert time_left(board, holds[-1]) in screen
    going = under_way_now(board)
    for task in going:
        assert begins(board.plan.tasks[task].title) in screen
        assert short_names(board.plan, on_it(board, task))[0] in screen
    first = [f.task for f in what_goes_first(board) if f.task not in going and not f.against]
    for number, item in enumerate([*fold(board, first)][:5], 1):
        if isinstance(item, str):
            assert f"{number}. {begins(board.plan.tasks[item].title)}" in screen
        else:
            assert f"{number}. {begins(series_title(board, item.series))}" in screen


@pytest.mark.parametrize("moment", SAMPLES)
async def test_the_first_screen_has_it_all_on_the_samples_days(moment: datetime) -> None:
    app = open_app(SAMPLE, Watch(moment))
    async with app.run_test(size=SMALL) as pilot:
        await reads(pilot, "Marigold")
        has_all(app.board, seen(app))


TASKS = [
    *("Sand the left sill", "Sand the right sill", "Oil the roof boards", "Turn the new knobs"),
    *("Cut the floor boards", "Fit the rear lamp", "Sweep the loft", "Sort the screws"),
    *("Draw the lettering", "Wash the canvas", "Grease the hinges", "Bend the ridge"),
]


def full_shop(root: Path) -> Path:
    """Seven holds, three tasks under way, eight people."""
    rows = "\n".join(
        f'[tasks.t{number}]\ntitle = "{name}"\nhours = [2, 4, 8]\n'
        for number, name in enumerate(TASKS)
    )
    make_shop(root, components={"panels": f'name = "Panels"\n\n{rows}'})
    early = SATURDAY - timedelta(days=1)
    spans = ("2 hours", "1 hour", "30 hours", "2 days", "9 days", "3 weeks", "2 months")
    holds: list[Act] = [
        HoldStarted("glue", f"panels/t{number + 5}", lasts=parse_duration(span))
        for number, span in enumerate(spans)
    ]
    crew: list[Act] = [SignIn(who) for who in [p for p in PEOPLE if p != "cleo"][:8]]
    begun: list[Act] = [
        Begun("panels/t0", ("ada", "ben")),
        Begun("panels/t1", ("dov", "eva", "finn")),
        Begun("panels/t2", ("gus", "hana")),
    ]
    bench = Workbench(root)
    assert bench.record([Said(act, early) for act in holds], by="ada", now=SATURDAY).kept
    assert bench.record([Said(act, SATURDAY) for act in (*crew, *begun)], by="", now=SATURDAY).kept
    return root


async def test_the_first_screen_has_it_all_on_a_full_day(tmp_path: Path) -> None:
    app = open_app(full_shop(tmp_path / "van"))
    async with app.run_test(size=SMALL) as pilot:
        screen = await reads(pilot, "LEAVE ALONE (7)", "Under way", "On hold (5)")
        assert len(app.board.present) == 8
        assert len(under_way_now(app.board)) == 3
        has_all(app.board, screen)
        for names in ("Ada, Ben", "Dov, Eva, Finn", "Gus, Hana"):
            assert names in screen


@pytest.mark.parametrize("plain", [False, True])
async def test_leave_alone_is_the_strongest_line_without_colour(
    tmp_path: Path, plain: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    app = open_app(full_shop(tmp_path / "van"), plain=plain)
    async with app.run_test(size=SMALL) as pilot:
        await reads(pilot, "LEAVE ALONE (7)")
        strip = app.screen.query_one(AloneLine).render_line(0)
        for segment in strip:
            if segment.text.strip():
                assert isinstance(segment.style, Style)
                assert segment.style.reverse
                assert segment.style.bold


def test_what_finds_no_room_is_counted_and_never_left_out() -> None:
    words = [f"thing {number} until Mon" for number in range(9)]
    for width in range(48, 200):
        for most in (1, 2):
            lines = in_lines(" LEAVE ALONE (9) ", words, width, most, count_rest=True) or []
            assert 0 < len(lines) <= most
            assert all(len(line) < width for line in lines)
            shown = sum(f"thing {number}" in " ".join(lines) for number in range(9))
            rest = 9 - shown
            assert (f"+{rest} more" in lines[-1]) == (rest > 0), (width, lines)


async def test_work_that_waits_is_folded_and_opens(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=SMALL) as pilot:
        screen = await reads(pilot, "waits + 3 tasks, for 1 cause")
        assert "Prime the frame  " not in screen
        await pilot.press("end", "enter")
        await reads(pilot, "waits Prime the frame", 'Waiting for "Scrape the frame"')
        await pilot.press("enter")
        await reads(pilot, "waits + 3 tasks, for 1 cause")


async def test_a_full_day_with_room_names_everything_whole(tmp_path: Path) -> None:
    app = open_app(full_shop(tmp_path / "van"))
    async with app.run_test(size=(120, 40)) as pilot:
        screen = await reads(pilot, "LEAVE ALONE (7)", "On hold (5)")
        for title in (*TASKS[:4], *TASKS[7:]):
            assert title in screen


async def test_work_that_is_finished_with_a_hold_moves_beside(tmp_path: Path) -> None:
    root = make_shop(tmp_path / "van")
    acts: list[Act] = [Begun("frame/scrape", ("ada",)), Finished("frame/scrape")]
    bench = Workbench(root)
    assert bench.record([Said(act, SATURDAY) for act in acts], by="ada", now=SATURDAY).kept
    acts = [Begun("frame/prime", ("ada",)), Finished("frame/prime")]
    later = SATURDAY + timedelta(minutes=1)
    assert bench.record([Said(act, later) for act in acts], by="ada", now=later).kept
    app = open_app(root, Watch(later))
    async with app.run_test(size=SMALL) as pilot:
        await reads(pilot, "LEAVE ALONE (1)", "On hold (1)", "Prime the frame")
        await pilot.press("tab")
        await reads(pilot, "drying since 10:01")
        assert app.screen.chosen_hold in app.board.holds  # type: ignore[attr-defined]
