"""A path of a picture that leads outside, or to nothing, is told for each field that has one."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.folder.check.check import check
from crewboard.folder.read.folder import Folder
from crewboard.logbook.fields import EntryField
from crewboard.logbook.kinds import KINDS_OF_ENTRY, KindOfEntry
from tests.folder.a_vehicle import make
from tests.naughty import RECORD

FIELDS = [
    (kind, field)
    for kind in KINDS_OF_ENTRY.values()
    for field in kind.fields
    if field.names == "picture"
]
OUTSIDE = (
    "../secret.jpg",
    "/etc/hostname",
    "pictures/../../secret.jpg",
    "pictures/link.jpg",
    "file:///etc/hostname",
    "C:\\\\secret.jpg",
)


def line(kind: KindOfEntry, field: EntryField, name: str) -> str:
    """An entry of the kind with the name in that field, and what it must have in the others."""
    held = {"piece": "frame/x", "one of": "", "length": "2 m", "picture": "pictures/here.jpg"}
    values = {
        other.name: f'"{held.get(other.kind) or next(iter(other.words), "x")}"'
        for other in kind.fields
        if other.needed
    }
    values[field.name] = f'["{name}"]' if field.many else f'"{name}"'
    written = ", ".join(f"{key} = {value}" for key, value in values.items())
    return f'kind = "{kind.word}", {written}'


@pytest.mark.parametrize(
    ("kind", "field"),
    FIELDS,
    ids=lambda one: getattr(one, "word", getattr(one, "name", "")).replace(" ", "-"),
)
def test_a_picture_outside_the_folder_is_told_and_its_entry_kept(
    tmp_path: Path, kind: KindOfEntry, field: EntryField
) -> None:
    van = make(tmp_path / "van")
    (tmp_path / "secret.jpg").write_bytes(b"\xff\xd8\xff")
    (van / "pictures").mkdir()
    (van / "pictures/here.jpg").write_bytes(b"\xff\xd8\xff")
    (van / "pictures/link.jpg").symlink_to(tmp_path / "secret.jpg")
    names = (*OUTSIDE, "pictures/nowhere.jpg", "pictures/here.jpg")
    with (van / "days/2026/2026-05-02.toml").open("a", encoding="utf-8") as day:
        for number, name in enumerate(names):
            written = line(kind, field, name)
            at = f"2026-05-02T12:0{number}:00"
            day.write(f'zzpict{number} = {{ at = {at}, by = "ada", {written} }}\n')
    folder = Folder(van)
    told = [fault for fault in check(folder).mistakes if fault.code == "picture"]
    assert len(told) == len(names) - 1
    assert sum("is not inside the folder" in fault.sentence for fault in told) == len(OUTSIDE)
    assert all(fault.hint for fault in told)
    (kept,) = (day.ids for day in folder.logbook.days.values() if day.date.day == 2)
    assert {f"zzpict{number}" for number in range(len(names))} <= kept


def test_every_kind_of_the_record_that_has_pictures_is_asked_about() -> None:
    assert len([kind for kind, _ in FIELDS if kind in RECORD]) >= 12
