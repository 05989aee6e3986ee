"""Two clones of one folder keep a record, each its own lines on the same and on other days, and
merge by plain `git merge`: no conflict, and one fabric, whichever of the two takes in the other."""

from __future__ import annotations

import datetime as dt
import random
import shutil
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from crewboard.command.json_fabric import fabric_form, gaps_form
from crewboard.fabric.fabric import Fabric, fabric_of
from crewboard.fabric.gaps import gaps
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Found, Pictured, TakenBack, TookIn
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.workbench import Said, Workbench
from crewboard.workbench.taking_in import take_in
from tests.fabric.any_entry import OF_PIECES, RECORD, Names, act_of
from tests.folder.disk.clones import Clones
from tests.intake.a_camera import MP4, jpeg, put
from tests.long_form import LONG

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="needs git")
DAYS = (dt.date(2026, 5, 2), dt.date(2026, 5, 16))
LATER = dt.datetime(2026, 12, 1)
FILES = {
    "vehicle.toml": 'name = "Van"\n[work_days]\nevery = ["saturday"]\n',
    "crew.toml": '[people.ada]\nname = "Ada"\nlead = true\nadult = true\n'
    '[people.tom]\nname = "Tom"\nlead = true\nadult = true\n',
    "components/roof.toml": """\
name = "Roof"
[pieces.arches]
name = "Arch"
count = 3
spares = 1
as_found = "original"
extent = "2.4 m"
[pieces.sash]
name = "Sash"
as_found = "missing"
[pieces.patch]
name = "Patch"
as_found = "original"
keep = true
[tasks.splice]
title = "Splice"
pieces = ["arches/1"]
""",
}


class TwoClones:
    """Two people's clones of one folder, each with a phone; what each of them wrote."""

    def __init__(self, root: Path, seed: int) -> None:
        self.dice, self.root = random.Random(seed), root
        self.clones = Clones(root / "trees", 2)
        for name, text in FILES.items():
            path = self.clones.trees[0] / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text)
        put(self.clones.trees[0] / "pictures/2026", "sill.jpg", jpeg())
        (self.clones.trees[0] / ".gitignore").write_text(".crewboard*\n")
        self.clones.fork()
        self.benches = [Workbench(tree) for tree in self.clones.trees]
        self.second = 0
        self.kept: list[tuple[dt.date, Entry]] = []

    def write(self, tree: int, day: dt.date, *acts: Any, replaces: str = "") -> None:
        """Put acts down at one moment of the day, which others may have too: an insistent lead."""
        self.second += 1
        bench, by = self.benches[tree], ("ada", "tom")[tree]
        put_down = dt.datetime(2026, 6, 6, 9) + dt.timedelta(seconds=self.second)
        bench.wall = lambda: put_down
        at = dt.datetime.combine(day, dt.time(self.dice.choice((9, 10))))
        lines = [Said(act, at, replaces, day, "it was so") for act in acts]
        outcome = bench.record(lines, by=by, now=put_down)
        self.kept += [(day, entry) for entry in outcome.entries]

    def step(self, tree: int) -> None:
        """One thing that somebody writes: an entry of any kind, a correction, a taking back."""
        dice, day = self.dice, self.dice.choice(DAYS)
        bench = self.benches[tree]
        here = bench.logbook.days.get(day, Day(day))
        known = [entry for entry in here.entries if not isinstance(entry.act, TakenBack | TookIn)]
        files = sorted(str(p.relative_to(bench.folder.root)) for p in _files(bench.folder.root))
        names = Names([entry.id for entry in known] or ["none"], files)
        kind = dice.choice([*RECORD, *OF_PIECES])
        how = dice.random()
        if known and how < 0.12:
            self.write(tree, day, TakenBack(dice.choice(known).id))
        elif known and how < 0.3:
            line = dice.choice(known)
            replaces = here.last_wording(line.id)
            kind = next(k for k in [*RECORD, *OF_PIECES] if isinstance(line.act, k.act))
            act = act_of(kind, bench.plan, dice.choice, names)
            self.write(tree, day, act, replaces=replaces)
        elif kind.act is TookIn:
            self.from_the_phone(tree, day)
        else:
            self.write(tree, day, act_of(kind, bench.plan, dice.choice, names))

    def from_the_phone(self, tree: int, day: dt.date) -> None:
        """Both phones count alike, and now and then both have the same picture."""
        phone = self.root / f"phone{tree}"
        number, colour = self.dice.randrange(3), self.dice.choice((0, 1 + tree))
        put(phone, f"IMG_{number}.jpg", jpeg("2026:05:01 09:00:00", colour=colour))
        put(phone, f"walk {number} 2026-05-01.mp4", MP4 + bytes([colour]))
        self.second += 1
        now = dt.datetime(2026, 6, 6, 9) + dt.timedelta(seconds=self.second)
        bench, at = self.benches[tree], dt.datetime.combine(day, dt.time(9))
        taken = take_in(bench, [str(phone)], by=("ada", "tom")[tree], at=at, now=now)
        self.kept += [(day, entry) for entry in taken.outcome.entries]


def _files(root: Path) -> list[Path]:
    places = (root / "pictures", root / "recordings")
    return [path for place in places for path in place.rglob("*") if path.is_file()]


def as_said(of: Fabric) -> Any:
    """Everything that the record says; lists of entries of one moment in whatever order."""
    form: dict[str, Any] = fabric_form(of, list(of.pieces.values()))
    for piece in form["pieces"]:
        piece["pictures"] = {kind: sorted(files) for kind, files in piece["pictures"].items()}
        piece["entries"] = sorted(piece["entries"])
    lists = {name: value for name, value in of._asdict().items() if isinstance(value, tuple)}
    entries = [entry for name in lists for entry in lists[name] if isinstance(entry, Entry)]
    return (
        form,
        gaps_form(of, gaps(of)),
        sorted((entry.id, entry.at, repr(entry.act)) for entry in entries),
        Counter((odd.code, odd.entry.id) for odd in of.contradictions),
        sorted(one.act.file for one in of.waiting),
    )


@pytest.mark.parametrize("seed", range(60 if LONG else 6))
def test_the_record_of_two_clones_is_one_after_a_plain_merge(tmp_path: Path, seed: int) -> None:
    both = TwoClones(tmp_path, seed)
    clones, dice = both.clones, both.dice
    for _ in range(2):  # together, and then apart
        for _ in range(dice.randrange(25, 40)):
            both.step(dice.randrange(2))
        for tree in (0, 1):
            clones.commit(tree)
        clones.git(0, "tag", "-f", "apart")
        clones.merge(0, 1)
        one = _said_in(clones.trees[0])
        clones.git(0, "reset", "-q", "--hard", "apart")
        clones.merge(1, 0)
        other = _said_in(clones.trees[1])
        assert one == other
        clones.merge(0, 1)
        assert _said_in(clones.trees[0]) == one
    days = Folder(clones.trees[0]).logbook.days.values()
    assert Counter(e.id for day in days for e in day.entries) == Counter(e.id for _, e in both.kept)
    assert Folder(clones.trees[0]).faults == []
    assert one == _of_all_lines(both), "as if one person had written all of it"


def _said_in(tree: Path) -> Any:
    return as_said(Workbench(tree).fabric(LATER))


def _of_all_lines(both: TwoClones) -> Any:
    """What the record says where every line was written into one book, in the order of writing."""
    plan = both.benches[0].plan
    days: dict[dt.date, list[Entry]] = {}
    for day, entry in both.kept:
        days.setdefault(day, []).append(entry)
    book = Logbook({day: Day(day, tuple(lines)) for day, lines in sorted(days.items())})
    return as_said(fabric_of(plan, book, LATER))


def test_of_two_words_of_one_moment_the_one_put_down_later_counts(tmp_path: Path) -> None:
    both = TwoClones(tmp_path, 0)
    for tree, where in ((0, "shelf 1"), (1, "shelf 2")):
        both.dice.seed(1)  # the same moment of the day
        stored = next(kind.act for kind in RECORD if kind.word == "stored")
        both.write(tree, DAYS[0], stored("roof/arches/1", where))
        both.clones.commit(tree)
    both.clones.git(0, "tag", "apart")
    both.clones.merge(0, 1)
    first = (both.clones.path(0).read_text()).splitlines()
    both.clones.git(0, "reset", "-q", "--hard", "apart")
    both.clones.merge(1, 0)
    assert first != both.clones.path(1).read_text().splitlines(), "the lines stand otherwise"
    both.clones.git(0, "merge", "-q", "--no-edit", "clone1")
    for path in both.clones.trees:
        of = Workbench(path).fabric(LATER)
        assert str(of.pieces["roof/arches/1"].where) == "put away: shelf 2"


def test_lines_put_off_are_asked_for_after_the_merge(tmp_path: Path) -> None:
    """Entries of the record are read only when somebody asks; so they are after a merge."""
    both = TwoClones(tmp_path, 0)
    for tree in (0, 1):
        both.write(tree, DAYS[0], *(Found(f"{tree}: {n}", "", "roof/arches/1") for n in range(4)))
        both.clones.commit(tree)
    both.clones.merge(0, 1)
    bench = Workbench(both.clones.trees[0])
    assert len(bench.fabric(LATER).findings) == 8
    assert {entry.id for entry in bench.logbook.record()} == {entry.id for _, entry in both.kept}


def test_two_phones_with_one_name_bring_two_pictures_together(tmp_path: Path) -> None:
    both = TwoClones(tmp_path, 0)
    for tree in (0, 1):
        put(tmp_path / f"phone{tree}", "IMG_1.jpg", jpeg("2026:05:01 09:00:00", colour=tree))
        bench, now = both.benches[tree], dt.datetime(2026, 5, 2, 9)
        source = [str(tmp_path / f"phone{tree}")]
        taken = take_in(bench, source, by="ada", at=now, now=now)
        (entry,) = taken.outcome.entries
        assert isinstance(entry.act, TookIn)
        both.write(tree, DAYS[0], Pictured(entry.act.file, "before", ("roof/arches/1",)))
        both.clones.commit(tree)
    both.clones.merge(0, 1)
    first = both.clones.trees[0]
    assert {path.read_bytes() for path in _files(first)} == {
        jpeg(),
        *(jpeg("2026:05:01 09:00:00", colour=number) for number in (0, 1)),
    }
    assert len(Workbench(first).fabric(LATER).pieces["roof/arches/1"].pictures["before"]) == 2
