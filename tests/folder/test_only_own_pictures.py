"""Whoever names a picture names a file of the folder: anything else is refused when it is said, by
commands, forms and edits of the plan alike."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.folder.edit.plan_edits import Add, Change
from crewboard.folder.read.own_file import wrong_file
from crewboard.logbook.acts import Found, Pictured, TookIn
from crewboard.logbook.fields import EntryField
from crewboard.logbook.kinds import KINDS_OF_ENTRY, KindOfEntry
from crewboard.workbench import Said, Workbench
from tests.a_bench import LATE, say
from tests.folder.a_vehicle import make
from tests.folder.test_pictures_of_the_record import FIELDS

HERE = "pictures/here.jpg"
OUTSIDE = (
    *("../secret.jpg", "/etc/hostname", "pictures/../../secret.jpg", "pictures/link.jpg"),
    *("file:///etc/hostname", "C:\\secret.jpg", "pictures/a\0.jpg", " ", "link/secret.jpg"),
)
NOWHERE = ("pictures/nowhere.jpg", "pictures", "here.jpg", "pictures/here.jpg/x")


@pytest.fixture
def bench(tmp_path: Path) -> Workbench:
    van = make(tmp_path / "van")
    (tmp_path / "secret.jpg").write_bytes(b"\xff\xd8\xff")
    (van / "pictures").mkdir()
    (van / HERE).write_bytes(b"\xff\xd8\xff")
    (van / "pictures/link.jpg").symlink_to(tmp_path / "secret.jpg")
    (van / "pictures/other.jpg").symlink_to("here.jpg")
    (van / "link").symlink_to(tmp_path)
    return Workbench(van)


def act_of(kind: KindOfEntry, field: EntryField, name: str) -> object:
    """One of the kind that names the picture in that field, and what it must name in others."""
    held = {"piece": "", "component": "frame", "length": "2 m", "picture": HERE}
    needed = {
        other.name: held.get(other.kind) or next(iter(other.words), "x")
        for other in kind.fields
        if other.needed
    }
    return kind.act(**{**needed, field.name: (name,) if field.many else name})


@pytest.mark.parametrize(
    ("kind", "field"),
    FIELDS,
    ids=lambda one: getattr(one, "word", getattr(one, "name", "")).replace(" ", "-"),
)
def test_every_kind_of_entry_refuses_what_is_not_in_the_folder(
    bench: Workbench, kind: KindOfEntry, field: EntryField
) -> None:
    if kind.word in ("done", "made", "taken off", "reused"):  # these need a piece
        bench.change(Add("piece", "frame/rib", {"name": "Rib", "as_found": "original"}))
    for name in (*OUTSIDE, *NOWHERE):
        act = act_of(kind, field, name)
        if "piece" in act._fields and kind.word in ("done", "made", "taken off", "reused"):  # type: ignore[attr-defined]
            act = act._replace(piece="frame/rib")  # type: ignore[attr-defined]
        outcome = say(bench, act)
        told = [refusal for refusal in outcome.refused if refusal.code == "picture"]
        assert [r.says for r in told] == [
            f'the picture "{name}" is not inside the folder'
            if name in OUTSIDE
            else f'there is no picture "{name}"'
        ]
        assert all(refusal.mend and not refusal.yields for refusal in told)


def test_what_lies_in_the_folder_is_taken_by_whatever_link_inside_it(bench: Workbench) -> None:
    for name in (HERE, "pictures/other.jpg"):
        assert say(bench, Pictured(name, component="frame")).kept


def test_a_name_that_differs_in_capitals_is_told_as_it_is_spelled_here(bench: Workbench) -> None:
    wrong = wrong_file(str(bench.folder.root), "Pictures/HERE.JPG")
    assert wrong is not None
    assert wrong.mend == f'it is called "{HERE}" here'
    (refusal,) = say(bench, Pictured("Pictures/HERE.JPG", component="frame")).refused
    assert str(refusal) == f'there is no picture "Pictures/HERE.JPG"; it is called "{HERE}" here'


def test_a_finding_whose_picture_is_gone_can_still_be_corrected(bench: Workbench) -> None:
    (entry,) = say(bench, Found("soft", component="frame", pictures=(HERE,))).entries
    (bench.folder.root / HERE).unlink()
    put_right = Found("soft at the foot", component="frame", pictures=(HERE,))
    assert bench.correct(entry.id, put_right, LATE, by="ada", now=LATE).kept
    another = put_right._replace(pictures=(HERE, "pictures/nowhere.jpg"))
    refused = bench.correct(entry.id, another, LATE, by="ada", now=LATE).refused
    assert [refusal.says for refusal in refused] == ['there is no picture "pictures/nowhere.jpg"']


@pytest.mark.parametrize("name", [*OUTSIDE, *NOWHERE])
def test_an_edit_of_the_plan_names_no_other_picture(bench: Workbench, name: str) -> None:
    before = {path: path.read_bytes() for path in bench.folder.root.glob("components/*")}
    for edit in (
        Change("component", "frame", {"pictures": (name,)}),
        Change("task", "frame/scrape", {"pictures": (HERE, name)}),
        Add("piece", "frame/rib", {"name": "Rib", "pictures": (name,)}),
    ):
        outcome = bench.change(edit)
        assert not outcome.kept
        assert {path: path.read_bytes() for path in before} == before
    assert bench.change(Change("component", "frame", {"pictures": (HERE,)})).kept


def test_a_plan_that_names_a_lost_picture_can_still_be_edited(bench: Workbench) -> None:
    assert bench.change(Change("component", "frame", {"pictures": (HERE,)})).kept
    (bench.folder.root / HERE).unlink()
    assert bench.change(Change("component", "frame", {"about": "the frame"})).kept


def test_a_file_that_was_taken_in_is_asked_for_too(bench: Workbench) -> None:
    assert KINDS_OF_ENTRY[TookIn] in [kind for kind, _ in FIELDS]
    lines = [Said(TookIn(HERE), LATE), Said(TookIn("pictures/no.jpg"), LATE)]
    outcome = bench.record(lines, by="ada", now=LATE)
    assert (outcome.kept, outcome.line) == (False, 1)
