"""Work that has to be begun so soon after other work, as facts of the work, by commands."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import AShop, lay_down
from tests.command.calling import Shell

FRAME = """\
name = "Frame"
[pieces.rails]
name = "Rail"
count = 3
[tasks.scrape]
title = "Scrape to bare metal"
each = ["rails"]
hours = [1, 2, 3]
[tasks.prime]
title = "Prime"
each = ["rails"]
after = ["scrape"]
within = { scrape = "4 hours" }
hours = [1, 1, 1]
hold = { kind = "dry", lasts = "2 days" }
[tasks.paint]
title = "Paint the frame"
after = ["prime"]
hours = [3, 4, 5]
[tasks.wheels]
title = "Turn the wheels"
hours = [20, 40, 60]
"""


@pytest.fixture
def wagon(tmp_path: Path) -> Path:
    return lay_down(tmp_path / "wagon", {"frame": FRAME})


class Work(AShop):
    """The wagon's work on a day, and what must follow it."""

    def following(self, at: str) -> list[tuple[str, str, bool]]:
        return [
            (f["task"].removeprefix("frame/"), f["by"][11:16], f["too_late"])
            for f in self.board(at)["must_follow"]
        ]


@pytest.fixture
def work(call: Shell, wagon: Path) -> Work:
    return Work(call, wagon)


def test_the_primer_must_follow_the_same_day(work: Work) -> None:
    ended = work.do("scrape/rails/2", "09:10", "11:40")
    assert '"Prime: Rail 2" by 15:40: 4 hours after "Scrape to bare metal: Rail 2"' in ended.err
    assert work.following("11:40") == [("prime/rails/2", "15:40", False)]
    told = " ".join(work.call("day", work.folder, *work.at("12:00")).out.split())
    assert "must follow Prime: Rail 2 [frame/prime/rails/2] by 15:40" in told
    why = " ".join(work.call("why", work.folder, "prime/rails/2", *work.at("12:00")).out.split())
    assert "to be begun by Sat 2 May 2026 15:40" in why


def test_what_must_follow_goes_before_all_else(work: Work) -> None:
    assert work.board("09:00")["first"][0]["task"] != "frame/prime/rails/2"
    work.do("scrape/rails/2", "09:10", "11:40")
    assert work.board("11:40")["first"][0]["task"] == "frame/prime/rails/2"


def test_a_begin_in_time_meets_it_however_long_the_work_takes(work: Work) -> None:
    work.do("scrape/rails/2", "09:10", "11:40")
    assert work.say("begin", "prime/rails/2", "--who", "ada", at="15:40").code == 0
    assert work.following("16:20") == []


def test_bare_metal_that_was_left_too_long_is_scraped_again_or_a_lead_says_why(work: Work) -> None:
    work.do("scrape/rails/2", "09:10", "11:40")
    assert work.following("15:41") == [("prime/rails/2", "15:40", True)]
    refused = work.say("begin", "prime/rails/2", "--who", "tom", at="15:41")
    assert refused.code != 0
    assert "too late since Sat 2 May 2026 15:40" in refused.err
    assert "has to be done again (reopen it)" in refused.err
    reason = ("--despite", "it lay dry and shows no bloom")
    by_tom = work.say("begin", "prime/rails/2", "--who", "tom", *reason, at="15:41", by="tom")
    assert by_tom.code != 0
    last = work.board("15:41")["first"][-1]
    assert last["task"] == "frame/prime/rails/2"
    assert "too late since 15:40" in last["not_today"]
    assert work.say("begin", "prime/rails/2", "--who", "tom", *reason, at="15:42").code == 0
    assert work.following("15:43") == []


def test_scraping_again_starts_the_time_anew(work: Work) -> None:
    work.do("scrape/rails/2", "09:10", "10:00")
    assert work.say("reopen", "scrape/rails/2", "--why", "rust", at="14:30").code == 0
    assert work.following("14:31") == []
    work.do("scrape/rails/2", "14:31", "15:00")
    assert work.following("15:01") == [("prime/rails/2", "19:00", False)]


def test_a_finish_that_is_put_right_moves_the_time_and_one_taken_back_ends_it(work: Work) -> None:
    work.do("scrape/rails/2", "09:10", "11:40")
    kept = work.call("log", work.folder, "--json").form["entries"]
    line = next(entry["id"] for entry in kept if entry["kind"] == "finished")
    moved = work.call("correct", work.folder, line, "--set", "at=10:30", "--by", "ada")
    assert moved.code == 0, moved.err
    assert work.following("12:00") == [("prime/rails/2", "14:30", False)]
    taken_back = ("take-back", work.folder, line, "--why", "the wrong rail", "--by", "ada")
    assert work.call(*taken_back).code == 0
    assert work.following("12:01") == []


def test_a_rail_that_failed_has_to_be_primed_no_more(work: Work) -> None:
    work.do("scrape/rails/2", "09:10", "11:40")
    assert work.say("fail", "rails/2", "--why", "rusted through", at="12:00").code == 0
    assert work.following("12:01") == []


def test_a_finish_of_before_the_logbook_starts_no_time(work: Work) -> None:
    frame = work.folder / "components/frame.toml"
    done = "hours = [1, 2, 3]\nfinished = 2026-05-01\n"
    frame.write_text(FRAME.replace("hours = [1, 2, 3]\n", done))
    assert work.following("16:00") == []


def test_four_hours_are_four_hours_across_a_clock_change(work: Work) -> None:
    work.day = "2026-03-28"  # the night on which 02:00 becomes 03:00
    work.do("scrape/rails/2", "22:00", "23:30")
    assert work.following("23:31") == [("prime/rails/2", "04:30", False)]


def test_what_follows_all_rails_has_to_follow_the_first_of_them(work: Work) -> None:
    frame = work.folder / "components/frame.toml"
    frame.write_text(
        FRAME.replace('title = "Prime"\neach = ["rails"]\n', 'title = "Prime them all"\n')
    )
    for number, finished in (("2", "10:00"), ("1", "11:00"), ("3", "12:00")):
        work.do(f"scrape/rails/{number}", "09:10", finished)
    assert work.following("12:01") == [("prime", "14:00", False)]
    assert work.following("15:30") == [("prime", "14:00", True)]
    late = work.board("15:30")["must_follow"][0]["again"]
    assert late == ["frame/scrape/rails/2", "frame/scrape/rails/1"]


def test_whoever_begins_too_late_in_the_day_hears_that_the_primer_cannot_follow(
    work: Work,
) -> None:
    early = work.say("begin", "scrape/rails/1", "--who", "ada", at="09:10")
    assert "has to be begun within" not in early.err
    late = work.say("begin", "scrape/rails/2", "--who", "tom", at="15:00")
    assert late.code == 0
    assert '"Prime: Rail 2" has to be begun within 4 hours after it' in late.err
    assert "the shop closes at 16:30" in late.err


def test_several_of_a_series_are_told_in_one_row(work: Work) -> None:
    for number in "123":
        work.do(f"scrape/rails/{number}", "09:10", f"1{number}:00")
    told = " ".join(work.call("day", work.folder, *work.at("13:01")).out.split())
    assert "Due for a look (1)" in told
    assert "must follow Prime: Rails 1-3" in told


def test_a_task_that_does_not_come_before_is_a_mistake_at_its_place(work: Work) -> None:
    frame = work.folder / "components/frame.toml"
    frame.write_text(
        FRAME.replace('within = { scrape = "4 hours" }', 'within = { wheels = "1 day" }')
    )
    checked = work.call("check", work.folder, *work.at("09:00"))
    assert 'components/frame.toml:13:12: "wheels" does not come before this task' in checked.out
    assert 'add "wheels" to its after, or remove it here' in " ".join(checked.out.split())


def test_one_that_comes_before_by_others_between_is_none(work: Work) -> None:
    frame = work.folder / "components/frame.toml"
    frame.write_text(
        FRAME.replace('after = ["prime"]\n', 'after = ["prime"]\nwithin = { scrape = "3 weeks" }\n')
    )
    assert work.call("check", work.folder, *work.at("09:00")).code == 0
    work.do("scrape/rails/1", "09:10", "10:00")
    assert ("paint", "10:00", False) in work.following("10:01")


def test_a_time_that_is_over_before_the_hold_is_asked_about(work: Work) -> None:
    frame = work.folder / "components/frame.toml"
    frame.write_text(
        FRAME.replace('after = ["prime"]\n', 'after = ["prime"]\nwithin = { prime = "1 day" }\n')
    )
    asked = " ".join(work.call("review", work.folder, *work.at("09:00")).out.split())
    assert '"Paint the frame" has to be begun within 1 day after "Prime"' in asked
    assert "the hold of that lasts 2 days" in asked


def test_a_finish_without_a_begin_is_asked_about_where_the_work_came_too_late(work: Work) -> None:
    work.do("scrape/rails/1", "09:10", "10:00")
    done = ("finish", "prime/rails/1", "--who", "tom", "--began")
    asked = work.say(*done, "14:01", at="15:00")
    assert "too late since Sat 2 May 2026 14:00" in asked.err
    assert work.say(*done, "14:00", at="15:00").code == 0


def test_the_end_of_the_day_says_what_must_follow_before_the_next(call: Shell, wagon: Path) -> None:
    begun = ("begin", wagon, "scrape/rails/1", "--who", "ada", "--by", "ada")
    assert call(*begun, "--at", "2026-05-02T13:00").code == 0
    done = ("finish", wagon, "scrape/rails/1", "--by", "ada", "--at", "2026-05-02T15:00")
    assert call(*done).code == 0
    day = " ".join(call("day-end", wagon, "--at", "2026-05-02T16:00").out.split())
    assert 'must follow: "Prime: Rail 1" by 19:00: 4 hours after "Scrape' in day
    why = " ".join(call("why", wagon, "prime", "--at", "2026-05-02T20:00").out.split())
    assert "Rail 1: ready: too late since 19:00: 4 hours after" in why


def test_work_stopped_and_then_finished_is_only_finished(call: Shell, wagon: Path) -> None:
    for verb, at in (
        ("begin", "10:00"),
        ("stop", "11:00"),
        ("begin", "12:00"),
        ("finish", "13:00"),
    ):
        who = ("--who", "ada") if verb == "begin" else ()
        words = (verb, wagon, "wheels", *who, "--by", "ada", "--at", f"2026-05-02T{at}")
        assert call(*words).code == 0
    end = call("day-end", wagon, "--at", "2026-05-02T16:00").out
    assert 'finished: "Turn the wheels"' in end
    assert "stopped for today" not in end
