"""The clock of the steam box by command: from an answer in one step, on the day, in `why`."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Reckoned, Steamed
from tests.command.calling import Shell

DAY = "2026-05-02T"
RIBS = """
[pieces.ribs]
name = "Rib"
count = 3
material = "ash"
size = "26 x 52 x 2300 mm"

[tasks.bend]
title = "Bend"
each = ["ribs"]
hold = { kind = "bend set", lasts = "1 month" }
"""
RATE = ("--given", "rate=25 min/cm")


@pytest.fixture
def shop(van: Path, call: Shell) -> Path:
    with (van / "components/frame.toml").open("a", encoding="utf-8") as frame:
        frame.write(RIBS)
    call("sign-in", van, "ada", "tom", *at("09:00"))
    anyhow = ("--despite", "the sills are outside")
    for piece in (1, 2):
        begun = call("begin", van, f"bend/ribs/{piece}", "--who", "ada", *anyhow, *at("09:30"))
        assert begun.code == 0, begun.err
    return van


def at(time: str) -> tuple[str, ...]:
    return ("--at", f"{DAY}{time}", "--by", "ada")


def words(text: str) -> str:
    return " ".join(text.split())


def test_from_the_answer_it_starts_in_one_step_and_stands_on_the_day(
    call: Shell, shop: Path
) -> None:
    """26 mm at 25 min/cm are 65 minutes: 09:37 and 65 are 10:42."""
    started = call("reckon", shop, "steaming", "--task", "bend", *RATE, "--clock", *at("09:37"))
    assert started.code == 0, started.err
    day = call("day", shop, *at("09:50")[:2])
    assert words(day.out).count("out at 10:42") >= 2, "both that are under way went in"
    assert "steaming Rib 1: Bend" in words(day.out)
    form = call("day", shop, "--json", *at("10:50")[:2]).form
    assert [(one["task"], one["due"]) for one in form["in_the_box"]] == [
        ("frame/bend/ribs/1", True),
        ("frame/bend/ribs/2", True),
    ]
    assert "overdue Rib 1: Bend" in words(call("day", shop, *at("10:50")[:2]).out)
    why = call("why", shop, "bend/ribs/1", *at("09:50")[:2])
    assert "steaming, out at 10:42" in words(why.out)


def test_it_is_kept_with_its_answer_and_the_rate_is_known_the_next_time(
    call: Shell, shop: Path
) -> None:
    both = ("--clock", "--keep", *at("09:37"))
    assert call("reckon", shop, "steaming", "--task", "bend/ribs/1", *RATE, *both).code == 0
    acts = [entry.act for day in Folder(shop).logbook.days.values() for entry in day.counting]
    assert [entry.act for entry in Folder(shop).logbook.record() if isinstance(entry.act, Reckoned)]
    assert [act.lasts.minutes for act in acts if isinstance(act, Steamed) and act.lasts] == [65]
    again = call("reckon", shop, "steaming", "--task", "bend/ribs/2", "--given", "by=boiling")
    assert "25 min/cm, as given Sat 2 May 2026" in words(again.out)
    assert "65 min by the crew's own rate" in words(again.out) or "1 h 5 min" in again.out


def test_without_a_rate_of_the_crew_it_runs_by_the_shop_rule_and_says_so(
    call: Shell, shop: Path
) -> None:
    """Second-hand: an hour an inch, so 26 mm are 61.4, told as 62 minutes."""
    answer = call("reckon", shop, "steaming", "--task", "bend", "--clock", *at("09:37"))
    assert "its clock: 1 h 2 min, by the shop rule" in words(answer.out)
    assert "out at 10:39" in words(call("day", shop, *at("09:40")[:2]).out)


def test_out_comes_what_went_in_first_and_a_finish_takes_out_the_rest(
    call: Shell, shop: Path
) -> None:
    for time in ("09:40", "09:55"):
        assert call("steam", shop, "bend/ribs/1", "--lasts", "30 min", *at(time)).code == 0
    assert call("steam", shop, "bend/ribs/1", "--out", *at("10:10")).code == 0
    day = words(call("day", shop, *at("10:11")[:2]).out)
    assert "out at 10:25" in day
    assert "10:10" not in day.replace("since 10:10", "")
    assert call("finish", shop, "bend/ribs/1", *at("10:27")).code == 0
    assert "out at" not in call("day", shop, *at("10:28")[:2]).out


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (("bend/ribs/3", "--lasts", "1 hour"), '"Bend: Rib 3" is not under way'),
        (("bend/ribs/1",), "say how long it stays in"),
        (("bend/ribs/1", "--lasts", "2 days"), "longer than a day in the steam box"),
        (("bend/ribs/1", "--out"), 'nothing of "Bend: Rib 1" is in the steam box'),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(
    call: Shell, shop: Path, typed: tuple[str, ...], told: str
) -> None:
    before = Folder(shop).logbook.days
    ended = call("steam", shop, *typed, *at("09:40"))
    assert ended.code == 1
    assert told in words(ended.err)
    assert len(Folder(shop).logbook.days) == len(before)


def test_only_the_time_in_the_box_starts_a_clock(call: Shell, shop: Path) -> None:
    arc = ("--given", "chord=2060 mm", "rise=320 mm", "--clock")
    refused = call("reckon", shop, "arc", "--task", "bend", *arc, *at("09:40"))
    assert refused.code == 1
    assert "starts no clock" in refused.err
    nowhere = call("reckon", shop, "steaming", "--given", "thickness=1 in", "--clock", *at("09:40"))
    assert nowhere.code == 1
    assert "--task" in nowhere.err
