"""The working party: nobody counted twice, watchers, minors, ages, guests, and words at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Ended, Shell
from tests.command.trailer import make_trailer

PAPERS = '{ "hot work" = 2027-01-31, "machines" = 2027-01-31, "fit test" = 2027-01-31 }'
CREW = (
    "".join(
        f'[people.{who}]\nname = "{name}"\nadult = true\n{more}certificates = {PAPERS}\n'
        for who, name, more in (
            ("ada", "Ada Marsh", "lead = true\n"),
            ("ben", "Ben Holt", ""),
            ("cleo", "Cleo Rand", ""),
            ("dov", "Dov Quill", ""),
        )
    )
    + '[people.kit]\nname = "Kit Amber"\nadult = false\nborn = 2010-01-01\n'
    + '[people.eli]\nname = "Eli Stone"\n'
    + '[people.old]\nname = "Olga Reed"\nadult = true\nleft = 2025-01-01\n'
)
BODY = """\
name = "Body"

[tasks.weld]
title = "Weld the bracket"
hazards = ["hot-work"]
place = "bay"

[tasks.carry]
title = "Carry the side in"
hazards = ["manual-handling"]
place = "yard"

[tasks.sand]
title = "Sand the sill"
hazards = ["noise"]
place = "yard"

[tasks.draw]
title = "Draw the corner"
"""
AT = ("--at", "2026-05-02T10:00", "--by", "ada")


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: Shell) -> Path:
    monkeypatch.setenv("COLUMNS", "200")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    folder = make_trailer(tmp_path, CREW, BODY)
    people = ("ada", "ben", "cleo", "dov", "kit", "eli")
    assert call("sign-in", folder, *people, "--at", "2026-05-02T09:00").code == 0
    return folder


def codes(ended: Ended) -> set[str]:
    return {refusal["code"] for refusal in ended.form["refused"]}


def refused(call: Shell, shop: Path, task: str, *who: str) -> set[str]:
    """What stands against it but for checks that are not signed yet."""
    ended = call("begin", shop, task, "--who", *who, *AT, "--json")
    assert ended.code == 1, ended.out
    return codes(ended) - {"unsigned", "unopened"}


def test_hot_work_is_not_begun_before_somebody_watches(call: Shell, shop: Path) -> None:
    assert refused(call, shop, "weld", "ada", "ben") == {"watch"}
    assert refused(call, shop, "weld", "ada", "--watch", "ben") == set()


def test_whoever_works_does_not_watch(call: Shell, shop: Path) -> None:
    assert "watch" in refused(call, shop, "weld", "ada", "ben", "--watch", "ben")


def test_an_age_that_nobody_said_does_nothing_dangerous(call: Shell, shop: Path) -> None:
    assert {"age", "people"} <= refused(call, shop, "carry", "ada", "eli")
    assert call("adult", shop, "eli", "yes").code == 0
    assert refused(call, shop, "carry", "ada", "eli") == set()


def test_an_under_18_makes_up_no_number_of_people(call: Shell, shop: Path) -> None:
    assert "people" in refused(call, shop, "carry", "ada", "kit", "--adult", "ada")


def test_the_adult_beside_an_under_18_is_named(call: Shell, shop: Path) -> None:
    assert "adult" in refused(call, shop, "draw", "ada", "kit")
    assert "adult" not in refused(call, shop, "draw", "ada", "kit", "--adult", "ada")
    assert "adult" in refused(call, shop, "draw", "eli", "kit", "--adult", "eli")


def test_loud_work_is_for_under_18s_only_as_training_that_a_lead_wrote_down(
    call: Shell, shop: Path
) -> None:
    with_kit = ("ada", "ben", "kit", "--adult", "ada")
    assert "under-18" in refused(call, shop, "sand", *with_kit)
    why = ("--why", "hears what a saw does to the ears")
    for lead in ("ben", "kit"):
        assert call("training", shop, "kit", "--hazard", "noise", "--lead", lead, *why, *AT).code
    allowed = call("training", shop, "kit", "--hazard", "noise", "--lead", "ada", *why, *AT)
    assert allowed.code == 0, allowed.err
    assert "under-18" not in refused(call, shop, "sand", *with_kit)


def test_hot_work_is_for_no_under_18_for_training_neither(call: Shell, shop: Path) -> None:
    typed = ("training", shop, "kit", "--task", "weld", "--lead", "ada", "--why", "to see it")
    never = call(*typed, *AT)
    assert never.code == 1
    assert "no under-18 takes part, for training neither" in never.err


def test_who_is_not_of_the_crew_any_more_is_a_guest_and_does_nothing_dangerous(
    call: Shell, shop: Path
) -> None:
    found = call("begin", shop, "carry", "--who", "ada", "old", *AT, "--json")
    strict = {r["code"] for r in found.form["refused"] if not r["yields"]}
    assert {"not-with-us", "people"} <= strict


def test_a_guest_is_signed_in_by_name_shown_and_counted_for_nothing(
    call: Shell, shop: Path
) -> None:
    assert call("guest", shop, "Ines Bratt", "--of", "ada", *AT).code == 0
    assert "Ines Bratt" in call("day", shop, "--at", "2026-05-02T10:05").out
    assert call("guest", shop, "Ines  bratt", *AT).code == 1
    assert call("guest", shop, "Ben Holt", *AT).code == 1
    assert call("guest-left", shop, "Ines Bratt", "--at", "2026-05-02T11:00").code == 0
    assert "Ines Bratt" not in call("day", shop, "--at", "2026-05-02T11:05").out


def test_one_person_left_alone_is_told_from_the_sign_out_and_in_the_day(
    call: Shell, shop: Path
) -> None:
    others = ("ben", "cleo", "dov", "kit", "eli")
    left = call("sign-out", shop, *others, *AT)
    assert left.code == 0
    assert "Ada Marsh is alone in the shop now" in left.err
    assert "Ada Marsh is alone in the shop now" in call("day", shop, *AT[:2]).out
    assert "unsigned" in codes(call("begin", shop, "draw", "--who", "ada", *AT, "--json"))


def test_a_date_of_birth_is_questioned_of_adults(call: Shell, shop: Path) -> None:
    crew = shop / "crew.toml"
    crew.write_text(
        crew.read_text() + '[people.pat]\nname = "Pat"\nadult = true\nborn = 1990-01-01\n'
    )
    checked = call("check", shop, "--at", "2026-05-02T10:00")
    assert "Pat is 18 or older, and the date of birth is kept" in checked.out + checked.err
    assert "nobody has said whether Eli Stone is 18 or older" in checked.out + checked.err


def test_a_paper_without_a_date_is_asked_about_and_a_lead_answers(call: Shell, shop: Path) -> None:
    crew = shop / "crew.toml"
    crew.write_text(crew.read_text().replace('"hot work" = 2027-01-31', '"hot work" = true'))
    begin = ("begin", shop, "weld", "--who", "ada", "--watch", "ben", *AT, "--json")
    (paper,) = [r for r in call(*begin).form["refused"] if r["code"] == "paper"]
    assert paper["yields"]
    assert paper["lead"]
    assert call("seen", shop, "ada", "hot work", "--on", "2026-05-02").code == 0
    assert "paper" not in codes(call(*begin))
