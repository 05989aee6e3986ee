"""What goes first is what somebody who is here, or expected, may do."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.command.calling import Shell, open_shop
from tests.command.trailer import make_trailer

CREW = """\
[people.ada]
name = "Ada Marsh"
adult = true
lead = true
skills = ["joinery"]
certificates = { "fit test" = 2026-04-01, "first aid" = 2027-01-31 }

[people.ben]
name = "Ben Holt"
adult = true
skills = ["welding"]

[people.cleo]
name = "Cleo Rand"
adult = true
certificates = { "fit test" = 2027-01-31 }
"""
# Sanding goes before everything else; the rest is free.
BODY = """\
name = "Body"

[tasks.sand]
title = "Sand the old paint"
hours = [4, 6, 8]
hazards = ["lead-paint"]
place = "tent"

[tasks.prime]
title = "Prime the body"
after = ["sand"]
hours = [8, 9, 10]

[tasks.weld]
title = "Weld the bracket"
hours = [1, 2, 3]
skills = ["welding"]

[tasks.lead]
title = "Take the asbestos rope out"
hazards = ["asbestos"]

[tasks.tidy]
title = "Tidy the racks"
hours = [1, 1, 1]
"""
SATURDAY = "2026-05-02"


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "200")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    return make_trailer(tmp_path, CREW, BODY)


def ranked(call: Shell, shop: Path, at: str = "09:30") -> dict[str, str]:
    """Each task in its order, with why nobody may do it now."""
    first: list[dict[str, Any]] = call("day", shop, "--at", f"{SATURDAY}T{at}", "--json").form[
        "first"
    ]
    return {each["task"].partition("/")[2]: each["not_today"] for each in first}


def test_what_nobody_here_may_do_stands_below_with_its_reason(call: Shell, shop: Path) -> None:
    for who in ("ada", "ben"):
        call("sign-in", shop, who, "--at", f"{SATURDAY}T09:00")
    order = ranked(call, shop)
    assert list(order) == ["weld", "tidy", "sand", "lead"]
    assert order["sand"] == 'not today: nobody here has the certificate "fit test" in date'
    told = call("day", shop, "--at", f"{SATURDAY}T09:30").out
    assert "1. Sand" not in told
    assert order["sand"] in told
    # Cleo, whose fit test is in date, comes: now it goes first again.
    call("sign-in", shop, "cleo", "--at", f"{SATURDAY}T10:00")
    assert next(iter(ranked(call, shop, "10:05").items())) == ("sand", "")


def test_who_said_that_they_come_counts_before_they_are_here(call: Shell, shop: Path) -> None:
    call("sign-in", shop, "ada", "--at", f"{SATURDAY}T09:00")
    assert ranked(call, shop)["weld"] == "not today: nobody here has the skill welding"
    call("expect", shop, "ben", "--at", f"{SATURDAY}T08:00")
    order = ranked(call, shop)
    assert order["weld"] == ""
    assert "nobody here or expected" in order["sand"]


def test_before_anybody_came_it_is_asked_of_who_is_expected(call: Shell, shop: Path) -> None:
    assert ranked(call, shop)["sand"] == ""  # Cleo may come
    call("expect", shop, "cleo", "--not-coming", "--at", f"{SATURDAY}T08:00")
    assert ranked(call, shop)["sand"].startswith("not today: nobody expected has the certificate")


def test_in_the_evening_it_is_asked_of_who_usually_comes_not_of_who_stayed_away(
    call: Shell, shop: Path
) -> None:
    call("expect", shop, "cleo", "--at", f"{SATURDAY}T08:00")
    for who in ("ada", "ben"):
        call("sign-in", shop, who, "--at", f"{SATURDAY}T09:00")
        call("sign-out", shop, who, "--at", f"{SATURDAY}T15:00")
    assert ranked(call, shop, "15:30")["weld"] == "not today: nobody expected has the skill welding"
    assert ranked(call, shop, "20:00")["weld"] == ""


def test_what_nobody_in_the_crew_may_do_names_the_certificate(call: Shell, shop: Path) -> None:
    says = 'not today: nobody in the crew has the certificate "asbestos licence" in date'
    assert ranked(call, shop)["lead"] == says


def test_the_forecast_says_that_its_dates_suppose_a_certificate_that_nobody_has(
    call: Shell, shop: Path
) -> None:
    told = call("forecast", shop, "--at", f"{SATURDAY}T09:30", "--runs", "20").out
    says = (
        'found: somebody for "Take the asbestos rope out": nobody in the crew has the certificate '
        '"asbestos licence" in date'
    )
    assert says in " ".join(told.split())
    assert '"Sand the old paint"' not in told  # Cleo could do that


def test_what_may_not_be_near_what_is_going_on_waits_below(call: Shell, shop: Path) -> None:
    body = shop / "components" / "body.toml"
    body.write_text(
        body.read_text()
        + """
[tasks.grind]
title = "Burn the rivets off"
hazards = ["hot-work"]
place = "tent"
"""
    )
    crew = shop / "crew.toml"
    crew.write_text(crew.read_text().replace("{ ", '{ "hot work" = 2027-01-01, ', 1))
    for who in ("ada", "ben", "cleo"):
        call("sign-in", shop, who, "--at", f"{SATURDAY}T09:00")
    at = ("--at", f"{SATURDAY}T09:10")
    open_shop(call, shop, *at)
    refused = call("begin", shop, "grind", "--who", "ada", "--watch", "ben", *at, "--json")
    for refusal in refused.form["refused"]:
        check = refusal["says"].split('"')[1]
        assert call("sign", shop, "grind", check, "--who", "ada", *at).code == 0
    assert ranked(call, shop, "09:10")["sand"] == ""
    assert (
        call(
            "begin", shop, "grind", "--who", "ada", "--watch", "ben", "--at", f"{SATURDAY}T09:12"
        ).code
        == 0
    )
    says = 'not now: not near hot work, and "Burn the rivets off" is under way'
    assert ranked(call, shop)["sand"] == says
    late = ranked(call, shop, "15:30")
    assert late["grind"] == "not today: it had to end by 15:00 for its fire watch before closing"
