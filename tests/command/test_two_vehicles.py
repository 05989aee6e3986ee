"""Two vehicles and one crew: the same person's hours on the same day are seen and questioned."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.terminal.shop import CREW, day_file, make_shop

DAY = "2026-05-02"
BY = ("--by", "ben")


@pytest.fixture
def van(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A van whose crew also works on the bus beside it, under short names of its own there."""
    monkeypatch.setenv("COLUMNS", "100")
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    bus = make_shop(tmp_path / "bus")
    (bus / "vehicle.toml").write_text('name = "The Plank Bus"\n')
    (bus / "crew.toml").write_text(CREW.replace("[people.ada]", "[people.marsh]"))
    van = make_shop(tmp_path / "van")
    shares(van, "../bus")
    return van


def shares(van: Path, path: str) -> None:
    text = (van / "vehicle.toml").read_text()
    head = text.partition("[work_days]")[2]
    first = f'format = 1\nname = "The market van"\nshares_crew_with = ["{path}"]\n\n[work_days]'
    (van / "vehicle.toml").write_text(first + head)


def kept(call: Shell, *typed: object) -> str:
    ended = call(*typed, *BY)
    assert ended.code == 0, ended.err
    return ended.err


def refused(call: Shell, *typed: object) -> str:
    ended = call(*typed, *BY)
    assert ended.code == 1, ended.out
    return ended.err


def at(time: str) -> tuple[str, str]:
    return "--at", f"{DAY}T{time}"


def test_hours_that_a_day_has_no_room_for_beside_those_there_are_asked_about(
    call: Shell, van: Path
) -> None:
    bus = van.parent / "bus"
    kept(call, "sign-in", bus, "marsh", *at("09:00"))
    kept(call, "sign-out", bus, "marsh", *at("12:00"))
    kept(call, "hours", bus, "marsh", 3, "scrape", *at("12:00"))
    kept(call, "sign-in", van, "ada", *at("12:30"))
    kept(call, "sign-out", van, "ada", *at("16:00"))
    kept(call, "hours", van, "ada", 2, "scrape", *at("16:00"))
    said = refused(call, "hours", van, "ada", 3, "prime", *at("16:00"))
    assert "Ada Marsh has 3 h on The Plank Bus too: with 5 h here that is 8 h in 6.5 h" in said
    kept(call, "hours", van, "ada", 3, "prime", *at("16:00"), "--despite", "sewed at home")
    kept(call, "hours", van, "ben", 3, "prime", *at("16:00"))  # nobody of that name was there
    assert "The Plank Bus" not in call("check", van).out  # somebody answers for it


def test_more_than_a_day_has_on_both_together_is_asked_about(call: Shell, van: Path) -> None:
    kept(call, "hours", van.parent / "bus", "marsh", 13, "scrape", *at("15:00"))
    said = refused(call, "hours", van, "ada", 12, "scrape", *at("15:00"))
    assert "with 12 h here that is 25 h, more than a day has" in said


def test_hours_here_while_signed_in_there_are_asked_about(call: Shell, van: Path) -> None:
    kept(call, "sign-in", van.parent / "bus", "marsh", *at("09:00"))
    kept(call, "sign-out", van.parent / "bus", "marsh", *at("15:00"))
    said = refused(call, "hours", van, "ada", 4, "scrape", *at("15:30"))
    assert "was signed in from 09:00 to 15:00 at The Plank Bus too, and has 4 h here" in said
    kept(call, "hours", van, "ada", 1, "scrape", *at("15:30"))  # from three to four


def test_check_lists_what_was_written_there_afterwards(call: Shell, van: Path) -> None:
    kept(call, "hours", van, "ada", 6, "scrape", *at("15:00"))
    assert "The Plank Bus" not in call("check", van).out
    kept(call, "hours", van.parent / "bus", "marsh", 6, "scrape", *at("15:00"))
    out = call("check", van).out
    assert f"days/2026/{DAY}.toml" in out
    assert "Ada Marsh has 6 h on The Plank Bus too" in " ".join(out.split())


def test_two_folders_may_name_one_another(call: Shell, van: Path) -> None:
    bus = van.parent / "bus"
    (bus / "vehicle.toml").write_text('name = "The Plank Bus"\nshares_crew_with = ["../van"]\n')
    kept(call, "hours", van, "ada", 6, "scrape", *at("15:00"))
    assert "The market van" in refused(call, "hours", bus, "marsh", 6, "scrape", *at("15:00"))


def _gone(bus: Path) -> None:
    bus.rename(bus.with_name("elsewhere"))


def _a_file(bus: Path) -> None:
    _gone(bus)
    bus.write_text("")


def _a_pipe(bus: Path) -> None:
    _gone(bus)
    os.mkfifo(bus)


def _a_ring(bus: Path) -> None:
    _gone(bus)
    bus.symlink_to(bus)


def _itself(bus: Path) -> None:
    _gone(bus)
    bus.symlink_to("van")


def _no_vehicle(bus: Path) -> None:
    (bus / "vehicle.toml").unlink()


def _broken_vehicle(bus: Path) -> None:
    (bus / "vehicle.toml").write_text("name = [\n")


def _a_day_file(bus: Path) -> Path:
    path = bus / "days/2026" / f"{DAY}.toml"
    path.parent.mkdir(parents=True)
    return path


def _broken_day(bus: Path) -> None:
    _a_day_file(bus).write_text("date = \n[[[")


def _day_is_a_pipe(bus: Path) -> None:
    os.mkfifo(_a_day_file(bus))


def _day_is_a_folder(bus: Path) -> None:
    _a_day_file(bus).mkdir()


def _day_leads_out(bus: Path) -> None:
    _a_day_file(bus).symlink_to("/etc/hostname")


def _crew_in_bytes(bus: Path) -> None:
    (bus / "crew.toml").write_bytes(b"\xff\x00")


SPOILT = [
    _gone, _a_file, _a_pipe, _a_ring, _itself, _no_vehicle, _broken_vehicle, _broken_day,
    _day_is_a_pipe, _day_is_a_folder, _day_leads_out, _crew_in_bytes,
]  # fmt: skip


@pytest.mark.parametrize("spoil", SPOILT)
def test_another_folder_that_cannot_be_read_is_one_sentence_and_the_hours_are_kept(
    spoil: object, call: Shell, van: Path
) -> None:
    assert callable(spoil)
    spoil(van.parent / "bus")
    said = kept(call, "hours", van, "ada", 6, "scrape", *at("15:00"))
    assert 'the other vehicle\'s folder "../bus"' in " ".join(said.split())
    assert "hours = 6" in day_file(van)
    looked = call("check", van)
    assert " ".join(looked.out.split()).count('the other vehicle\'s folder "../bus"') == 1


def test_nothing_is_written_into_the_other_folder(call: Shell, van: Path) -> None:
    bus = van.parent / "bus"
    before = {path: path.read_bytes() for path in bus.rglob("*") if path.is_file()}
    kept(call, "hours", van, "ada", 6, "scrape", *at("15:00"))
    call("check", van)
    assert {path: path.read_bytes() for path in bus.rglob("*") if path.is_file()} == before
