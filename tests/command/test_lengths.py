"""Lengths and extents typed at commands and written into files."""

from __future__ import annotations

from pathlib import Path

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Measured
from tests.command.calling import Shell

AT = ("--at", "2026-05-03T10:00", "--by", "ada")


def measured(van: Path) -> list[Measured]:
    acts = [entry.act for entry in Folder(van).logbook.record()]
    return [act for act in acts if isinstance(act, Measured)]


def test_a_length_is_kept_as_it_was_typed_with_its_unit(call: Shell, van: Path) -> None:
    for typed in ("7'9", "2⅜", "2400"):
        ended = call("measured", van, typed, "--component", "frame", *AT)
        assert ended.code == 0, ended.err
    assert [act.value for act in measured(van)] == ["7'9 in", "2 3/8 mm", "2400 mm"]


def test_a_length_without_a_unit_takes_the_units_of_the_folder(call: Shell, van: Path) -> None:
    vehicle = van / "vehicle.toml"
    vehicle.write_text('units = "imperial"\n' + vehicle.read_text())
    assert call("measured", van, "2⅜", "--component", "frame", *AT).code == 0
    assert [act.value for act in measured(van)] == ["2 3/8 in"]


def test_what_is_no_length_is_refused_in_one_sentence(call: Shell, van: Path) -> None:
    for typed in ("1/0", "1 3", "3/4/8", "٣", "2,400"):
        ended = call("measured", van, typed, "--component", "frame", *AT)
        assert ended.code
        assert typed in ended.err
        assert "write" in ended.err
        assert "Traceback" not in ended.err
    assert measured(van) == []


def test_a_wrong_length_in_a_days_file_is_told_and_its_entry_kept(call: Shell, van: Path) -> None:
    with (van / "days/2026/2026-05-02.toml").open("a", encoding="utf-8") as day:
        for number, value in enumerate(('"3/4/8"', '"2 m"')):
            day.write(
                f'zzmeasu{number} = {{ at = 2026-05-02T12:20:00, by = "ada", '
                f'kind = "measured", value = {value}, tolerance = "1 3" }}\n'
            )
    ended = call("check", van)
    told = [
        fault
        for fault in call("check", van, "--json").form["mistakes"]
        if fault["code"] == "no-length"
    ]
    assert [fault["column"] > 1 for fault in told] == [True] * 3
    assert '"3/4/8" is not a length' in ended.out
    assert '"1 3" is not a length' in ended.out
    assert [act.value for act in measured(van)] == ["3/4/8", "2 m"]


def test_a_wrong_extent_of_a_piece_is_told_in_one_sentence(call: Shell, van: Path) -> None:
    frame = van / "components/frame.toml"
    for extent in ("12", "0 m2", "3/4/8 m", "2,400 m2"):
        before = frame.read_text()
        frame.write_text(f'{before}\n[pieces.rail-x]\nname = "Rail"\nextent = "{extent}"\n')
        told = call("check", van).out
        assert extent in told
        assert "Traceback" not in told
        frame.write_text(before)
