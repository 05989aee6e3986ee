"""The page on the wall stays true while nobody writes anything."""

from __future__ import annotations

import re
from base64 import b64encode
from datetime import datetime, timedelta
from hashlib import sha256
from pathlib import Path

from crewboard.folder.read.folder import Folder
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.paper.wall import wall_page
from crewboard.telling.wall import Wall, wall
from crewboard.telling.wall_ahead import walls

SAMPLE = Path(__file__).parents[2] / "sample_project"
MORNING = datetime(2026, 5, 2, 10, 40)


def hung_up(at: datetime = MORNING) -> Board:
    """The sample as a crew's own folder, that is at every moment at once."""
    folder = Folder(SAMPLE)
    vehicle = folder.plan.vehicle._replace(shown_at=None)
    return assess(folder.plan._replace(vehicle=vehicle), folder.logbook, at)


def due(shown: Wall) -> list[str]:
    return [line.text for line in shown.alone.lines if line.small == "due for a look"]


def told(shown: Wall) -> object:
    """What it says apart from how near a day is."""
    going, here, coming, job = shown.parts
    looks = [line.text for line in coming.lines if line.text.startswith("now:")]
    return (shown.alone.heading, due(shown), shown.missing, going, here, looks, job)


def test_a_hold_that_ends_while_nothing_is_written_is_due_for_a_look_on_the_wall() -> None:
    stages = dict(walls(hung_up()))
    assert "Rear crate doors" not in due(stages[MORNING])
    assert "Rear crate doors" in due(stages[datetime(2026, 5, 2, 13, 48)])


def test_what_the_wall_says_later_is_what_it_would_say_then() -> None:
    board = hung_up()
    stages = walls(board)
    for hours in range(0, 24 * 14, 7):
        at = MORNING + timedelta(hours=hours)
        shown = [stage for since, stage in stages if since <= at][-1]
        then = wall(assess(board.plan, board.logbook, at, board.order))
        assert told(shown) == told(then), at


def test_nobody_of_yesterday_is_here_on_the_wall_of_the_next_day() -> None:
    stages = walls(hung_up())
    assert stages[0][1].parts[1].heading == "HERE (2)"
    sunday = next(stage for since, stage in stages if since.date() > MORNING.date())
    assert sunday.parts[1].lines[0].text == "nobody is signed in"
    assert sunday.parts[3].heading == "NEXT WORK DAY"


def test_a_time_of_today_is_never_past_on_the_wall() -> None:
    stages = walls(hung_up())
    for since, shown in stages:
        text = str((shown.alone, shown.parts))
        times = re.findall(r"(?<!\w )\b(\d\d:\d\d)(?=[:'])", text)
        assert all(time > f"{since:%H:%M}" for time in times), (since, times)


def test_the_page_holds_each_later_wall_and_runs_only_the_script_that_turns_to_it() -> None:
    page = wall_page(hung_up())
    stages = re.findall(r'<div class="stage" data-from="([^"]+)"( hidden)?>', page)
    assert stages[0] == ("2026-05-02T10:40", "")
    assert ("2026-05-02T13:48", " hidden") in stages
    assert "Made Sat 2 May 2026 10:40." in page
    (script,) = re.findall(r"<script>(.*?)</script>", page, re.DOTALL)
    code = b64encode(sha256(script.encode()).digest()).decode()
    assert f"default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-{code}'" in page


def test_an_example_shown_at_one_moment_stays_at_it() -> None:
    folder = Folder(SAMPLE)
    assert len(walls(assess(folder.plan, folder.logbook, MORNING))) == 1
