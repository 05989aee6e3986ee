"""Closing a day: who is still here leaves; a forgotten day is said, and can still be closed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.terminal.shop import make_shop

CLOSES = "2026-05-02T16:00"
NEXT = "2026-06-06T09:00"
AFTER_CHECKS = ("tools", "rags", "covers", "lamps", "mains-off")


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


@pytest.fixture
def shop(tmp_path: Path, run: Shell) -> Path:
    """A Saturday with Ada and Ben, on which the frame was scraped."""
    root = make_shop(tmp_path / "van")
    run("sign-in", root, "ada", "ben", "--at", "2026-05-02T09:00")
    run("hours", root, "ben", "5", "frame/scrape", "--at", "2026-05-02T15:30")
    return root


def sign(run: Shell, shop: Path, *checks: str, at: str = CLOSES) -> list[str]:
    """What was said against each signature of the lead."""
    return [
        run("sign", shop, "day", f"the-shop/{check}", "--who", "ada", "--by", "ada", "--at", at).err
        for check in checks
    ]


def here(run: Shell, shop: Path, at: str) -> list[str]:
    return [each["who"] for each in run("day", shop, "--at", at, "--json").form["here"]]


def test_everybody_is_out_cannot_be_signed_while_somebody_is_in(run: Shell, shop: Path) -> None:
    (refused,) = sign(run, shop, "everyone-out")
    assert "Ben Holt is still signed in" in refused
    run("sign-out", shop, "ben", "--at", CLOSES)
    assert sign(run, shop, "everyone-out") == [""]


def test_what_mends_several_open_checks_is_said_once(run: Shell, shop: Path) -> None:
    lines = run("close-day", shop, "--by", "ada", "--at", CLOSES).err.splitlines()
    open_checks = [line for line in lines if "of the shop itself is not signed" in line]
    assert len(open_checks) == len(AFTER_CHECKS) + 1
    # Anyone who is here may sign all but the last, which a lead signs.
    told = [line.partition("; look, then sign it: ")[2] for line in open_checks]
    assert told[-2].startswith("anyone who is here may sign")
    assert told[-1].startswith("a lead signs it")
    assert told[:-2] == [""] * (len(AFTER_CHECKS) - 1)


def test_closing_by_command_signs_out_whoever_is_here(run: Shell, shop: Path) -> None:
    run("sign-out", shop, "ben", "--at", CLOSES)
    assert sign(run, shop, *AFTER_CHECKS, "everyone-out") == [""] * 6
    closed = run("close-day", shop, "--at", CLOSES, "--by", "ada")
    assert closed.code == 0, closed.err
    assert here(run, shop, "2026-05-02T16:01") == []
    assert "16:00" in run("report", "day", shop, "--at", "2026-05-02T17:00").out
    assert "LEFT OPEN" not in run("day", shop, "--at", NEXT).out


def test_a_day_that_was_never_closed_is_said_first_on_the_next_one(run: Shell, shop: Path) -> None:
    run("sign-out", shop, "ada", "--at", CLOSES)
    sign(run, shop, "tools", at="2026-05-02T15:00")
    board = run("day", shop, "--at", NEXT).out.splitlines()
    first = " ".join(" ".join(board[2:6]).split())
    assert first.startswith("LEFT OPEN: Sat 2 May 2026 was never closed")
    assert "never signed out: Ben Holt" in first
    assert 'not signed: "bins looked through for rags", "covers on, openings railed"' in first
    assert 'and "everyone out or accounted for"' in first


def test_a_day_that_was_never_closed_is_named_by_the_check(run: Shell, shop: Path) -> None:
    (line,) = [
        line for line in run("check", shop, "--at", NEXT).out.splitlines() if "never closed" in line
    ]
    assert line.startswith("days/2026/2026-05-02.toml")
    assert "never signed out: Ada Marsh and Ben Holt" in line
    assert "--at 2026-05-02T16:00" in line
    assert "never closed" not in run("check", shop, "--at", "2026-05-02T23:00").out


def test_a_past_day_is_closed_by_the_same_command(run: Shell, shop: Path) -> None:
    run("sign-in", shop, "cleo", "--at", "2026-06-06T09:00")
    why = ("--despite", "everybody had gone by then", "--by", "ada")
    early = run("close-day", shop, "--at", "2026-05-02T12:00", "--by", "ada")
    assert early.code == 1
    assert "goes on until 15:30" in early.err
    assert run("close-day", shop, "--at", CLOSES, *why).code == 0
    assert "LEFT OPEN" not in run("day", shop, "--at", NEXT).out
    assert "never closed" not in run("check", shop, "--at", NEXT).out
    assert here(run, shop, "2026-06-06T09:30") == ["cleo"]


def test_a_day_that_was_closed_with_somebody_still_in_is_said_too(run: Shell, shop: Path) -> None:
    """So it was written down before closing signed people out."""
    path = shop / "days/2026/2026-05-02.toml"
    line = f'zz = {{ at = {CLOSES}:00, kind = "day closed", despite = "late", by = "ada" }}\n'
    path.write_text(path.read_text() + line)
    said = " ".join(run("day", shop, "--at", NEXT).out.split())
    assert "LEFT OPEN: on Sat 2 May 2026 Ada Marsh and Ben Holt never signed out." in said
    assert run("sign-out", shop, "ada", "ben", "--at", "2026-05-02T16:00").code == 0
    assert "LEFT OPEN" not in run("day", shop, "--at", NEXT).out


def test_who_signs_out_on_another_day_is_told_of_the_day_that_was_left(
    run: Shell, shop: Path
) -> None:
    refused = run("sign-out", shop, "ben", "--at", "2026-05-03T00:30")
    assert "never signed out on Sat 2 May 2026" in refused.err
    assert "--at 2026-05-02T16:00" in refused.err


@pytest.fixture
def welding(shop: Path, run: Shell) -> Path:
    """The bracket was welded until half past three, and the fire watch runs."""
    day = shop / "days/2026/2026-05-02.toml"
    line = 'at = 2026-05-02T14:00:00, kind = "begun", task = "frame/weld", crew = ["ada", "ben"]'
    day.write_text(day.read_text() + f"w1 = {{ {line} }}\n")
    ended = ("hot-work/ended", "--who", "ben", "--at", "2026-05-02T15:30")
    assert run("sign", shop, "weld", *ended).code == 0
    return shop


WHY = ("--despite", "the heating failed")


def test_closing_inside_a_watch_asks_a_lead_who_stays(run: Shell, welding: Path) -> None:
    sign(run, welding, *AFTER_CHECKS)
    refused = run("close-day", welding, "--at", CLOSES, *WHY, "--by", "ada").err
    assert "say who stays: the fire watch runs until 16:30" in refused
    assert "--stays" in refused
    nobody = run("close-day", welding, "--at", CLOSES, *WHY, "--by", "ada", "--stays", "cleo").err
    assert "Cleo Rand is not here and cannot stay" in nobody
    no_lead = run("close-day", welding, "--at", CLOSES, *WHY, "--by", "ben", "--stays", "ben").err
    assert "a lead who is here closes the day" in no_lead
    closed = run("close-day", welding, "--at", CLOSES, *WHY, "--by", "ada", "--stays", "ben")
    assert closed.code == 0, closed.err
    assert "Ben Holt stays" in closed.out
    assert here(run, welding, "2026-05-02T16:10") == ["ben"]
    board = " ".join(run("day", welding, "--at", "2026-05-02T16:10").out.split())
    assert "Stays behind: Ben Holt: the fire watch runs until 16:30" in board
    early = run("sign-out", welding, "ben", "--at", "2026-05-02T16:10")
    assert "Ben Holt stays: the fire watch runs until 16:30" in early.err
    gone = ("sign-out", welding, "ben", "--at", "2026-05-02T16:10", *WHY)
    assert run(*gone, "--by", "ben").code == 1, "only a lead lets who stays go"
    home = run("sign-out", welding, "ben", "--at", "2026-05-02T16:31")
    assert home.code == 0, home.err


def test_a_watch_is_told_by_the_day_the_holds_and_the_talk_with_its_end(
    run: Shell, welding: Path
) -> None:
    for words in (("day",), ("holds",), ("briefing",)):
        told = " ".join(run(*words, welding, "--at", "2026-05-02T15:40").out.split())
        assert "fire watch after" in told, words
        assert "until 16:30" in told, words
