"""A first run: a new folder for a vehicle, readable by people and without a mistake."""

from __future__ import annotations

import re
from datetime import date, time
from pathlib import Path

import pytest

from crewboard.folder.cannot import NotKept
from crewboard.folder.edit.new import USUAL_COMPONENTS, NewVehicle, new_folder
from crewboard.folder.toml.decode import parse_toml
from crewboard.workbench import Workbench


def test_a_new_folder_has_no_mistake_and_says_what_was_answered(tmp_path: Path) -> None:
    new = NewVehicle(
        'The "old" van [M8]',
        "A bread van",
        ("wednesday",),
        time(10),
        time(15, 30),
        ("Ada Bee", "Ada Cee", "日本 Doe"),
        tuple(usual.id for usual in USUAL_COMPONENTS),
    )
    new_folder(tmp_path / "van", new)
    bench = Workbench(tmp_path / "van")
    assert bench.faults == []
    assert bench.plan.vehicle.name == 'The "old" van [M8]'
    openings = bench.plan.vehicle.work_days.openings_on(date(2026, 5, 6))
    assert openings == ((time(10), time(15, 30)),)
    assert [(p.name, p.lead) for p in bench.plan.crew.values()] == [
        ("Ada Bee", True),
        ("Ada Cee", False),
        ("日本 Doe", False),
    ]
    assert bench.plan.components["deck"].after == ("frame", "wiring", "air-piping")
    assert set(bench.plan.components) == {usual.id for usual in USUAL_COMPONENTS}


def test_what_comes_first_is_named_only_where_it_was_chosen(tmp_path: Path) -> None:
    new_folder(tmp_path, NewVehicle("Van", components=("deck", "wiring", "Crate box")))
    plan = Workbench(tmp_path).plan
    assert plan.components["deck"].after == ("wiring",)
    assert plan.components["crate-box"].name == "Crate box"


def test_a_folder_that_holds_a_vehicle_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "vehicle.toml").write_text("mine")
    with pytest.raises(NotKept, match="holds a vehicle already"):
        new_folder(tmp_path, NewVehicle("Van"))
    assert [p.name for p in tmp_path.iterdir() if not p.name.startswith(".")] == ["vehicle.toml"]
    assert (tmp_path / "vehicle.toml").read_text() == "mine"


def test_files_that_are_there_already_stay_as_they_are(tmp_path: Path) -> None:
    (tmp_path / "crew.toml").write_text('[people.eva]\nname = "Eva"\n')
    written = new_folder(tmp_path, NewVehicle("Van", people=("Ada",)))
    assert "crew.toml" not in written
    assert list(Workbench(tmp_path).plan.crew) == ["eva"]


def test_answers_that_make_no_sense_are_refused_before_anything_is_written(
    tmp_path: Path,
) -> None:
    with pytest.raises(NotKept, match="is not a rule for work days"):
        new_folder(tmp_path, NewVehicle("Van", work_days=("whenever",)))
    with pytest.raises(NotKept, match='"name" is empty'):
        new_folder(tmp_path, NewVehicle("  "))
    assert [p for p in tmp_path.iterdir() if not p.name.startswith(".")] == []


def test_day_files_of_two_people_are_merged_line_by_line(tmp_path: Path) -> None:
    new_folder(tmp_path, NewVehicle("Van"))
    assert "days/**/*.toml merge=union\n" in (tmp_path / ".gitattributes").read_text()


def test_each_line_behind_a_mark_makes_sense_once_the_mark_is_gone(tmp_path: Path) -> None:
    """Nobody has to know where in the file a key belongs: it stands where it counts."""
    new_folder(tmp_path, NewVehicle("Our bus", components=("frame",)))
    for path in ("vehicle.toml", "components/frame.toml", "crew.toml", "supplies.toml"):
        lines = Path(tmp_path, path).read_text(encoding="utf-8").splitlines()
        parse_toml("\n".join(map(_unmarked, lines)).encode())
    vehicle = Path(tmp_path, "vehicle.toml")
    said = vehicle.read_text(encoding="utf-8").replace("# other_work", "other_work")
    vehicle.write_text(said, encoding="utf-8")
    assert Workbench(tmp_path).plan.vehicle.other_work == ("driving", "meetings")


def _unmarked(line: str) -> str:
    """A line that shows a table or a key of its own, as it is once it counts."""
    shown = re.fullmatch(r"# (\[\S*\]|\w+ = .*)", line)
    return shown[1] if shown else line
