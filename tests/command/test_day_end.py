"""The page at the end of a day: what it brought, and what comes first next time."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell, open_shop
from tests.terminal.shop import make_shop

FRAME = """\
name = "Frame"

[tasks.glue]
title = "Glue the sill"
hours = 3
hold = { kind = "glue", lasts = "24 hours", release = "time" }

[tasks.plane]
title = "Plane the posts"
hours = [1, 2, 3]

[tasks.oil]
title = "Oil the hinges"
after = ["glue"]
"""


@pytest.fixture
def day(tmp_path: Path, call: Shell) -> tuple[Path, str]:
    """Ada glued the sill and began to plane the posts, which takes longer than was thought."""
    shop = make_shop(tmp_path / "van", components={"frame": FRAME})
    assert call("sign-in", shop, "ada", "ben", "--at", "2026-05-02T09:00").code == 0
    open_shop(call, shop, "--at", "2026-05-02T09:00")
    for words in (
        ("begin", "glue", "--who", "ada", "--at", "2026-05-02T09:30"),
        ("finish", "glue", "--at", "2026-05-02T12:00"),
        ("begin", "plane", "--who", "ada", "--at", "2026-05-02T12:30"),
        ("hours", "ada", "2.5", "glue", "--at", "2026-05-02T15:00"),
        ("hours", "ada", "4", "plane", "--at", "2026-05-02T15:00"),
        ("stop", "plane", "--at", "2026-05-02T15:30"),
    ):
        done = call(words[0], shop, *words[1:], "--by", "ada")
        assert done.code == 0, (words, done.err)
    return shop, " ".join(call("day-end", shop, "--at", "2026-05-02T16:00").out.split())


def test_it_says_the_hours_of_each_and_who_has_none(day: tuple[Path, str]) -> None:
    assert "Ada Marsh 6.5 h: 1 person, 6.5 h in all" in day[1]
    assert "no hours yet: Ben Holt" in day[1]


def test_it_says_what_began_finished_and_stopped(day: tuple[Path, str]) -> None:
    assert 'begun: "Plane the posts" finished: "Glue the sill"' in day[1]
    assert 'stopped for today: "Plane the posts"' in day[1]


def test_it_says_which_clock_started_and_when_to_look(day: tuple[Path, str]) -> None:
    assert 'clock started: "Glue the sill" until Sun 3 May 12:00' in day[1]


def test_it_asks_how_many_hours_are_left_of_what_took_longer(day: tuple[Path, str]) -> None:
    assert 'longer than thought: "Plane the posts": how many hours are left?' in day[1]


def test_it_names_what_comes_first_on_the_next_work_day(day: tuple[Path, str]) -> None:
    after = day[1].partition("Next: ")[2]
    assert "Sat 6 Jun 2026" in after
    assert "Oil the hinges" in after, "the glue has set by then"


def test_closing_the_day_prints_it(day: tuple[Path, str], call: Shell) -> None:
    shop, _ = day
    closed = call(
        "close-day", shop, "--at", "2026-05-02T16:00", "--by", "ada", "--despite", "all is off"
    )
    assert closed.code == 0, closed.err
    assert "Sat 2 May 2026, closed" in closed.out
    assert "1 person, 6.5 h in all" in " ".join(closed.out.split())
