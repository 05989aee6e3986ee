"""Signing checks from the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.terminal.shop import CREW, VEHICLE, day_file

SAWN = """\
name = "Frame"

[tasks.saw]
title = "Cut the posts"
hazards = ["power-saws"]
"""


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Ada and Dov may show machines, Ben may not; all three and Cleo, who is young, are here."""
    monkeypatch.setenv("COLUMNS", "400")
    holds = 'certificates = { "machines" = 2027-01-31 }'
    crew = CREW.replace("[people.dov]", f"[people.dov]\n{holds}")
    crew = crew.replace('"hot work" = 2027-01-31', '"machines" = 2027-01-31')
    (tmp_path / "components").mkdir()
    (tmp_path / "vehicle.toml").write_text(VEHICLE)
    (tmp_path / "crew.toml").write_text(crew)
    (tmp_path / "components" / "frame.toml").write_text(SAWN)
    return tmp_path


def at(time: str) -> tuple[str, str]:
    return "--at", f"2026-05-02T{time}"


@pytest.fixture
def here(shop: Path, call: Shell) -> Path:
    assert call("sign-in", shop, "ada", "ben", "cleo", "dov", *at("09:00")).code == 0
    return shop


def test_that_somebody_was_shown_a_machine_is_signed_for_them_and_read_so_on_every_face(
    here: Path, call: Shell
) -> None:
    shown = ("sign", here, "saw", "shown", "--who", "ada", *at("09:10"), "--by")
    bare = call(*shown, "ben")
    assert bare.code == 1
    assert "for each person by somebody else; say for whom: --for WHO" in bare.err
    signed = call(*shown, "ben", "--for", "ben", "dov")
    assert signed.code == 0
    words = 'Ada Marsh signed for "Cut the posts"'
    assert words in signed.out
    assert ", for Ben Holt: Power saws" in signed.out
    assert "must not be used for, written by Ben Holt  [" in signed.out
    assert 'who = "ada"' in day_file(here)
    assert 'concerns = "ben"' in day_file(here)
    log = " ".join(call("log", here).out.split())
    assert f"{words}, for Ben Holt: Power saws" in log
    assert "must not be used for, written by Ben Holt [" in log
    assert "written by Ben Holt" in call("report", "day", here, *at("10:00")).out
    asked = call("task", here, "saw", "--json", *at("10:00")).form["checks"]
    assert {c["signed_by"] for c in asked if c["check"] == "shown"} <= {"ada", None}


def test_nobody_signs_for_having_shown_themselves_a_machine(here: Path, call: Shell) -> None:
    refused = call("sign", here, "saw", "shown", "--for", "ada", "--by", "ada", *at("09:10"))
    assert refused.code == 1
    assert "Ada Marsh cannot sign this for themselves; Dov Quill may" in refused.err


def test_consent_written_the_older_way_still_reads_as_the_leads_signature_for_the_young_person(
    here: Path, call: Shell
) -> None:
    with (here / "days/2026/2026-05-02.toml").open("a") as file:
        file.write(
            'abcdef12 = { at = 2026-05-02T09:30:00, by = "ada", kind = "check", '
            'hazard = "young-people", check = "consent", who = "cleo" }\n'
        )
    log = " ".join(call("log", here).out.split())
    assert "Ada Marsh signed, for Cleo Rand: Young people: A parent's consent is on file" in log
    assert "written by" not in log


def test_a_check_that_under_18s_bring_along_is_signed_by_its_short_name_before_they_begin(
    here: Path, call: Shell
) -> None:
    refused = call("begin", here, "saw", "--who", "cleo", "ada", "--adult", "ada", *at("09:10"))
    assert 'the check "adult beside named and here" of young people is not signed' in refused.err
    assert call("sign", here, "saw", "adult-beside", "--who", "ada", *at("09:10")).code == 0


def test_a_check_of_a_licensed_trade_is_signed_by_itself(here: Path, call: Shell) -> None:
    file = here / "components" / "frame.toml"
    file.write_text(file.read_text().replace("power-saws", "jacks-and-lifting"))
    crew = here / "crew.toml"
    crew.write_text(crew.read_text().replace('"machines" =', '"lifting" =', 1))
    sign = ("sign", here, "saw", "--who", "ada", *at("09:10"))
    both = call(*sign[:3], "plan", "rated", *sign[3:])
    assert both.code == 1
    assert "is a check of a licensed trade: it is signed by itself" in both.err
    assert call(*sign[:3], "plan", *sign[3:]).code == 0
    alone = call(*sign[:3], "rated", *sign[3:])
    assert alone.code == 0
    assert "Each jack and hoist shows its rated load" in alone.out, "the full text is printed"


@pytest.mark.parametrize(
    ("why", "who", "says"),
    [
        ("x", "ada", "say why the check does not apply"),
        ("-", "ada", "say why the check does not apply"),
        ("n/a", "ada", "say why the check does not apply"),
        ("not needed", "ada", "say why the check does not apply"),
        ("no wood is cut at all", "dov", "is said by a lead who is of age, not by Dov Quill"),
        ("no wood is cut at all", "ada", ""),
    ],
)
def test_that_a_check_does_not_apply_is_a_leads_word_with_a_reason(
    here: Path, call: Shell, why: str, who: str, says: str
) -> None:
    waive = ("sign", here, "saw", "wood-clear", "--does-not-apply", "--why", why, *at("09:10"))
    ended = call(*waive, "--who", who)
    assert (ended.code == 0) is (says == "")
    assert says in ended.err


def test_who_waived_a_check_does_not_do_the_work(here: Path, call: Shell) -> None:
    waive = ("sign", here, "saw", "wood-clear", "--does-not-apply", "--who", "ada")
    assert call(*waive, "--why", "no wood is cut at all", *at("09:10")).code == 0
    begin = ("begin", here, "saw", "--who", "ada", "dov", *at("09:20"))
    refused = call(*begin, "--json").form["refused"]
    assert "waived-by-doer" in {refusal["code"] for refusal in refused}
    others = call("begin", here, "saw", "--who", "dov", *at("09:20"), "--json").form["refused"]
    assert "waived-by-doer" not in {refusal["code"] for refusal in others}


def test_nobody_signs_what_goes_on_before_the_work_has_begun(here: Path, call: Shell) -> None:
    ended = call("sign", here, "saw", "floor", "--who", "ada", *at("09:10"))
    assert ended.code == 1
    assert "was not begun: this check is looked at during the work" in ended.err
