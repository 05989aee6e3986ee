"""Two people of one group write in one folder, a year long, whoever of them came first."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from crewboard.folder.disk.archive import copies_of
from crewboard.folder.disk.lock import folder_lock
from crewboard.folder.disk.restore import restore as bring_back
from crewboard.folder.edit.fold import fold_all
from crewboard.folder.edit.new import NewVehicle, new_folder
from crewboard.folder.edit.plan_edits import Add, Change
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Noted
from crewboard.logbook.logged import LoggedRow
from crewboard.workbench import Outcome, Said, Workbench
from tests.folder.disk.somebody import ADA, CREW, EVE, TOM, Somebody, needs_root, rights
from tests.folder.disk.somebody import shared_place as shared

NEW_YEAR = datetime(2027, 1, 2, 10)
# The long form writes on every work day of two years, the short form on a few.
DAYS = 24 if os.environ.get("CREWBOARD_LONG") else 4


def kept(outcome: Outcome) -> None:
    assert outcome.kept, outcome.refused
    assert not outcome.remarks, outcome.remarks


def makes(root: Path) -> None:
    new_folder(root, NewVehicle("Our van", people=("Ada", "Tom"), components=("frame", "deck")))


def writes(root: Path, now: datetime) -> None:
    """What one work day brings: lines, rows of a logger, changes of the plan, an undo."""
    bench = Workbench(root)
    at = now.replace(hour=9)
    kept(bench.record([Said(Noted("came in"), at), Said(Noted("tidied"), at)], by="ada", now=at))
    kept(bench.take_rows([LoggedRow(at, 14.0, 15.0, 60.0, 62.0)], at.date()))
    task = f"t{now:%y%m%d}"
    kept(bench.change(Add("task", f"frame/{task}", {"title": "Scrape"}), today=at.date()))
    kept(bench.change(Change("task", f"frame/{task}", {"title": "Scrape it"}), today=at.date()))
    kept(bench.undo(by="ada", now=now))
    kept(bench.undo_last_of("ada", now=now))


def brings_back(root: Path, now: datetime) -> None:
    with folder_lock(root):
        bring_back(copies_of(root)[0].path, root, now)


def folds_in(root: Path, now: datetime) -> None:
    day = root / f"days/{now:%Y}/{now:%Y-%m-%d}.toml"
    copy = day.with_name(f"{day.stem} (of tom).toml")
    copy.write_bytes(day.read_bytes().replace(b"[entries]", LINE))
    copy.chmod(rights(day)[1])
    with folder_lock(root):
        assert fold_all(root)


LINE = b'[entries]\nk7f3q2zz = { at = 2027-01-02T10:00:00, kind = "note", text = "a" }'


@pytest.fixture(autouse=True)
def warm(tmp_path: Path) -> None:
    """Import what the people's processes will need: they may not read where Python is installed."""
    root = tmp_path / "warm"
    for act in (writes, brings_back, folds_in):
        makes(root) if not root.exists() else None
        act(root, NEW_YEAR)
    shutil.rmtree(root)


@pytest.mark.parametrize("mask", [0o022, 0o077])
def test_everything_that_a_year_brings_has_the_rights_of_the_vehicles_folder(
    tmp_path: Path, mask: int
) -> None:
    """Whoever runs the tests: the rights alone."""
    place = tmp_path / "place"
    place.mkdir()
    place.chmod(0o2770)
    before = os.umask(mask)
    try:
        makes(place / "van")
        for act in (writes, brings_back):
            act(place / "van", NEW_YEAR)
    finally:
        os.umask(before)
    modes = {(path.is_dir(), rights(path)[1]) for path in place.rglob("*")}
    assert modes == {(True, 0o2770), (False, 0o660)}
    for name in (".crewboard.lock", ".crewboard/copies", "readings/2027-01.csv", "days/2027"):
        assert (place / "van" / name).exists(), name


@needs_root
@pytest.mark.parametrize("mode", [0o2775, 0o2770, 0o775])
@pytest.mark.parametrize(("first", "second"), [(ADA, TOM), (TOM, ADA)], ids=["ada", "tom"])
def test_two_of_one_group_write_all_year_whoever_came_first(
    first: Somebody, second: Somebody, mode: int
) -> None:
    with shared(mode) as place:
        root = place / "van"
        people = [first, second]

        def turn(act: Callable[[], None]) -> None:
            assert people[0].does(act)
            people.reverse()

        turn(lambda: makes(root))
        days = [NEW_YEAR + timedelta(30) * n for n in range(DAYS)]
        for now in days:
            turn(lambda now=now: writes(root, now))  # type: ignore[misc]
            turn(lambda now=now: writes(root, now + timedelta(1)))  # type: ignore[misc]
        turn(lambda: folds_in(root, NEW_YEAR))
        turn(lambda: brings_back(root, days[-1]))
        turn(lambda: writes(root, days[-1] + timedelta(2)))
        turn(lambda: writes(root, days[-1] + timedelta(3)))
        assert Folder(root).faults == []
        assert {rights(path)[0] for path in place.rglob("*")} == {CREW}
        for path in place.rglob("*"):
            assert rights(path)[1] == (mode if path.is_dir() else mode & 0o666), path


@needs_root
def test_who_is_not_of_the_group_is_told_whose_the_folder_is() -> None:
    with shared(0o2775) as place:
        root = place / "van"
        assert ADA.does(lambda: makes(root))
        assert ADA.does(lambda: writes(root, NEW_YEAR))

        def looks_and_tries() -> None:
            bench = Workbench(root)
            assert bench.faults == []
            outcome = bench.record([Said(Noted("hello"), NEW_YEAR)], by="tom", now=NEW_YEAR)
            (refusal,) = outcome.refused
            assert refusal.says.startswith("nothing was saved: you may not write van: it is owned")
            assert f"and the group {CREW} may write in it" in refusal.says
            assert f"have you put into the group {CREW}" in refusal.mend

        assert EVE.does(looks_and_tries)


@needs_root
def test_a_file_that_its_owner_keeps_to_themselves_is_named_with_whose_it_is() -> None:
    with shared(0o2775) as place:
        root = place / "van"
        assert ADA.does(lambda: makes(root))
        (root / "crew.toml").chmod(0o600)

        def looks() -> None:
            (fault,) = [f for f in Workbench(root).faults if f.code == "unreadable"]
            owner = f"user {ADA.user}"
            assert f"it is owned by {owner}, and only {owner} may read it" in fault.sentence
            assert fault.hint == f"Ask {owner} to run: chmod g+r {root / 'crew.toml'}"

        assert TOM.does(looks)
