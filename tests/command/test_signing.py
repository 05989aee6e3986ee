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
    assert 'the check "adult-beside" of young people is not signed' in refused.err
    assert call("sign", here, "saw", "adult-beside", "--who", "ada", *at("09:10")).code == 0
