"""What could be done by the order of work says with it what bars it now, and what is to sign."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.a_shop import lay_down
from tests.command.calling import Shell, open_shop

CREW = """\
[people.ada]
name = "Ada Marsh"
adult = true
lead = true
certificates = { machines = true, "hot work" = 2027-01-31, "first aid" = 2027-01-31 }

[people.tom]
name = "Tom Reed"
adult = true
"""
FRAME = """\
name = "Frame"

[tasks.strip]
title = "Strip the sill"
people = [1, 1]
hazards = ["solvent-strippers"]
place = "bench"

[tasks.weld]
title = "Weld the outrigger"
hazards = ["hot-work"]
place = "bench"

[tasks.rip]
title = "Rip the bearers"
hazards = ["power-saws"]
place = "yard"
"""


@pytest.fixture
def van(tmp_path: Path) -> Path:
    return lay_down(tmp_path / "van", {"frame": FRAME}, crew=CREW)


def told(call: Shell, *typed: object) -> str:
    ended = call(*typed)
    assert ended.code == 0, ended.err
    return " ".join(ended.out.split())


def test_why_of_ready_work_names_the_checks_without_which_it_does_not_begin(
    capsys: pytest.CaptureFixture[str], van: Path
) -> None:
    call, at = Shell(capsys), ("--at", "2026-05-02T09:30")
    why = told(call, "why", van, "strip", *at)
    assert '"Strip the sill": ready now' in why
    assert '3 checks to sign to open the shop: "ways out and alarm in order"' in why
    assert "4 checks to sign before it begins:" in why
    assert '"no methylene chloride in it"' in why
    call("sign-in", van, "ada", "tom", "--by", "ada", *at)
    open_shop(call, van, "--by", "ada", *at)
    assert "to open the shop" not in told(call, "why", van, "strip", *at)


def test_what_bars_work_now_stands_in_place_of_the_word_ready(
    capsys: pytest.CaptureFixture[str], van: Path
) -> None:
    call, at = Shell(capsys), ("--at", "2026-05-02T09:30")
    call("sign-in", van, "ada", "tom", "--by", "ada", *at)
    open_shop(call, van, "--by", "ada", *at)
    unsigned = [
        check["check"]
        for check in call("task", van, "strip", "--json", *at).form["checks"]
        if check["when"] == "before" and check["answer"] == "unsigned"
    ]
    for check in unsigned:
        call("sign", van, "strip", check, "--who", "ada", "--by", "ada", *at)
    begun = call("begin", van, "strip", "--who", "ada", "tom", "--by", "ada", *at)
    assert begun.code == 0, begun.err
    day = told(call, "day", van, *at)
    assert "later Weld the outrigger" in day
    assert "ready Weld the outrigger" not in day
    # Its airing is to come: nothing is due for a look yet.
    assert "Due for a look" not in day
    assert "airing" in day
    why = told(call, "why", van, "weld", *at)
    assert '"Weld the outrigger": ready, but not now' in why


def test_a_certificate_to_be_looked_at_is_not_called_missing(
    capsys: pytest.CaptureFixture[str], van: Path
) -> None:
    call, at = Shell(capsys), ("--at", "2026-05-02T09:30")
    day = told(call, "day", van, *at)
    assert 'certificate "machines" of Ada Marsh to be looked at: crewboard seen' in day
    assert "nobody in the crew has" not in day
    call("seen", van, "ada", "machines", "--on", "2026-05-01")
    assert "to be looked at" not in told(call, "day", van, *at)


def test_the_people_a_task_needs_are_at_least_those_its_hazards_want(
    capsys: pytest.CaptureFixture[str], van: Path
) -> None:
    day = told(Shell(capsys), "day", van, "--at", "2026-05-02T09:30")
    assert "needs: 2 people, bench" in day  # the plan says one, solvent strippers two
