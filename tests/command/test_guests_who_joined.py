"""A guest who joins the crew brings the hours along."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.terminal.shop import Watch, make_shop, open_app, reads

AT = ("--at", "2026-05-02T15:00", "--by", "ben")
LATER = ("--at", "2026-06-06T10:00")


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: Shell) -> Path:
    """Ines Bratt was here for an afternoon, as a guest, and has two hours."""
    monkeypatch.setenv("COLUMNS", "100")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    root = make_shop(tmp_path / "van")
    for typed in (
        ("guest", root, "Ines Bratt", "--at", "2026-05-02T12:00", "--by", "ben"),
        ("guest-hours", root, "Ines Bratt", 2, "scrape", *AT),
        ("guest-left", root, "Ines Bratt", *AT),
    ):
        ended = call(*typed)
        assert ended.code == 0, ended.err
    return root


def joins(root: Path, who: str = "bratt", was: str = "Ines Bratt") -> None:
    crew = root / "crew.toml"
    name = f'name = "Ines B."\nadult = true\njoined = 2026-05-20\nwas_guest = ["{was}"]\n'
    crew.write_text(f"{crew.read_text()}\n[people.{who}]\n{name}")


def hours(call: Shell, root: Path) -> dict[str, float]:
    people = call("crew", root, *LATER, "--json").form["people"]
    return {person["id"]: person["hours"]["in_all"] for person in people}


def test_the_hours_of_a_guest_are_theirs_once_they_join(call: Shell, van: Path) -> None:
    joins(van)
    assert hours(call, van)["bratt"] == 2
    assert "Ines B." in call("report", "hours", van, "--sum", "year", *LATER).out
    assert "(guest)" not in call("report", "hours", van, "--sum", "year", *LATER).out
    csv = call("report", "hours-by-year", van, "--as", "csv", *LATER).out
    assert "person,bratt,Ines B.,2,2" in csv
    assert "\nguest," not in csv
    sheet = call("crew", van, "bratt", *LATER).out
    assert "Scrape the frame" in sheet
    assert call("check", van).code == 0


def test_a_guests_presence_is_theirs_too(call: Shell, van: Path) -> None:
    joins(van)
    ended = call("guest-hours", van, "Ines Bratt", 4, "scrape", *AT)
    assert ended.code == 0, ended.err
    out = " ".join(call("check", van).out.split())
    assert "Ines B. has 6 hours on 2026-05-02 and was there for 3" in out


def test_a_name_that_no_guest_bore_is_a_mistake_with_the_nearest(call: Shell, van: Path) -> None:
    joins(van, was="Ines Brat")
    ended = call("check", van)
    out = " ".join(ended.out.split())
    assert ended.code == 1
    assert 'no guest "Ines Brat" ever came' in out
    assert "did you mean Ines Bratt?" in out.replace('"', "")
    assert hours(call, van)["bratt"] == 0


def test_two_people_cannot_have_been_one_guest(call: Shell, van: Path) -> None:
    joins(van)
    joins(van, "second", "ines  bratt")
    ended = call("check", van)
    assert ended.code == 1
    assert "both say that they were the guest" in " ".join(ended.out.split())
    assert {who: h for who, h in hours(call, van).items() if h} == {}


async def test_the_form_of_a_person_takes_the_guest_they_were(van: Path) -> None:
    joins(van, was="Nobody")
    crew = van / "crew.toml"
    crew.write_text(crew.read_text().replace('was_guest = ["Nobody"]\n', ""))
    app = open_app(van, Watch(datetime(2026, 6, 6, 10)))
    async with app.run_test(size=(80, 40)) as pilot:
        await reads(pilot, "0 here")
        await pilot.press("f5")
        await reads(pilot, "Ines B.")
        await pilot.press("end", "e")
        await reads(pilot, "Edit:", "came as a guest")
        await pilot.press(*["tab"] * 8, "enter")
        await reads(pilot, "Ines Bratt")
        await pilot.press("space", "enter", "ctrl+s")
        await reads(pilot, "2 h")
    assert 'was_guest = ["Ines Bratt"]' in crew.read_text()
