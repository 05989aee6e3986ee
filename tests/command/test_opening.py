"""The shop is opened first; who gives first aid; whom to call; the talk on one page."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.telling.short_talk import MOST_WORDS
from tests.command.calling import SAMPLE, Shell, open_shop
from tests.terminal.shop import CREW, VEHICLE

WORK = """\
name = "Frame"

[tasks.carry]
title = "Carry the panels in"
hazards = ["noise"]

[tasks.draw]
title = "Draw the frame"
"""


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Ada and Ben may give first aid."""
    monkeypatch.setenv("COLUMNS", "300")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    first_aid = 'certificates = { "first aid" = 2027-01-31 }'
    crew = CREW.replace('"hot work" = 2027-01-31', '"first aid" = 2027-01-31')
    crew = crew.replace('name = "Ben Holt"', f'name = "Ben Holt"\n{first_aid}')
    (tmp_path / "components").mkdir()
    hospital = '[shop]\nhospital = "St Agnes, Weir Road"'
    (tmp_path / "vehicle.toml").write_text(VEHICLE.replace("[shop]", hospital))
    (tmp_path / "crew.toml").write_text(crew)
    (tmp_path / "components" / "frame.toml").write_text(WORK)
    return tmp_path


def at(time: str) -> tuple[str, str]:
    return "--at", f"2026-05-02T{time}"


def refused(call: Shell, shop: Path, task: str) -> set[str]:
    ended = call("begin", shop, task, "--who", "ben", *at("09:20"), "--json")
    return {refusal["code"] for refusal in ended.form.get("refused", ())}


def test_work_with_hazards_waits_until_the_shop_is_opened_and_other_work_does_not(
    call: Shell, shop: Path
) -> None:
    assert call("sign-in", shop, "ada", "ben", *at("09:00")).code == 0
    assert "unopened" in refused(call, shop, "carry")
    reason = ("--despite", "we are in a hurry", "--by", "ada")
    assert call("begin", shop, "carry", "--who", "ben", *at("09:20"), *reason).code == 1
    assert refused(call, shop, "draw") == set()
    day = call("day", shop, *at("09:10")).out
    assert "Not opened: 3 opening checks to sign before any work with hazards." in day
    open_shop(call, shop, *at("09:10"))
    assert "unopened" not in refused(call, shop, "carry")
    day = call("day", shop, *at("09:30")).out
    assert "Not opened" not in day
    assert "First aid: Ada Marsh" in day


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ((), "Ada Marsh and Ben Holt could be named"),
        (("--named", "dov"), "Dov Quill is named, and not here"),
        (("--named", "eva"), 'it takes somebody here with the certificate "first aid" in date'),
        (("--why", "nobody has the paper"), "could be named"),  # though somebody is here
    ],
)
def test_the_first_aider_is_named_is_here_and_holds_the_certificate(
    call: Shell, shop: Path, typed: tuple[str, ...], says: str
) -> None:
    assert call("sign-in", shop, "ada", "ben", "eva", *at("09:00")).code == 0
    sign = ("sign", shop, "day", "first-aid", "--who", "ada", *at("09:10"))
    ended = call(*sign, *typed)
    assert ended.code == 1
    assert says in ended.err


def test_without_anybody_to_name_a_lead_says_why(call: Shell, shop: Path) -> None:
    assert call("sign-in", shop, "eva", *at("09:00")).code == 0
    sign = ("sign", shop, "day", "first-aid", *at("09:10"))
    why = ("--why", "our first-aider is on holiday")
    assert "is signed by a lead" in call(*sign, "--who", "eva", *why).err
    assert "or write in a few words" in call(*sign, "--who", "eva", "--why", "x").err


def test_a_word_is_said_when_the_named_first_aider_leaves(call: Shell, shop: Path) -> None:
    assert call("sign-in", shop, "ada", "ben", *at("09:00")).code == 0
    open_shop(call, shop, *at("09:10"))
    assert "first-aider" not in call("sign-out", shop, "ben", *at("10:00")).err
    assert call("sign-in", shop, "ben", *at("10:10")).code == 0
    left = call("sign-out", shop, "ada", *at("11:00"))
    assert "Ada Marsh left: nobody here is named as first-aider; sign again who it is" in left.err
    assert "First aid: Ada Marsh left" in call("day", shop, *at("11:05")).out
    again = ("sign", shop, "day", "first-aid", "--who", "ben", "--named", "ben", *at("11:10"))
    assert call(*again).code == 0
    assert "First aid: Ben Holt" in call("day", shop, *at("11:15")).out


def test_the_hospital_stands_beside_the_emergency_number(call: Shell, shop: Path) -> None:
    assert call("sign-in", shop, "ada", *at("09:00")).code == 0
    for words in (("briefing",), ("briefing", "--whole"), ("report", "incidents")):
        name, *more = words
        typed = (name, shop, *more) if name == "briefing" else (name, *more, shop)
        out = call(*typed, *at("10:00")).out
        assert "call: 112" in out, words
        assert "hospital: St Agnes, Weir Road" in out, words
    sheet = call("report", "day", shop, *at("10:00")).out
    assert "hospital: St Agnes, Weir Road" in sheet


def test_the_report_of_incidents_says_what_the_law_may_ask_with_source_and_mark(
    call: Shell, shop: Path
) -> None:
    hurt = ("incident", shop, "cut thumb", "--injury", "--who", "ben", *at("10:00"))
    assert call(*hurt).code == 0
    out = " ".join(call("report", "incidents", shop, *at("11:00")).out.split())
    assert "What the law may ask to be reported (no advice: ask those named)" in out
    for words in ("US: ", "29 CFR 1904.39(a); verified)", "GB: ", "EU: ", "insurer"):
        assert words in out


def test_the_talk_of_a_usual_day_fits_one_page(call: Shell) -> None:
    out = call("briefing", SAMPLE, *at("09:00")).out
    assert len(out.split()) <= MOST_WORDS
    for words in ("In an emergency", "hospital", "What can hurt today", "Leave alone"):
        assert words in out
    whole = call("briefing", SAMPLE, "--whole", *at("09:00")).out
    assert len(whole.split()) > 2 * MOST_WORDS
