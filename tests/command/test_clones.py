"""Clones of one folder, written by the commands and merged by plain `git merge`.

Everything that a command said was kept counts once in the end, or `crewboard check` names what
clashes. Long form: 200 random histories of two and three clones (the layout itself is proved on
2,000 in tests/folder/disk/test_git_merges.py).
"""

from __future__ import annotations

import os
import random
import shutil
from collections import Counter
from datetime import datetime
from pathlib import Path

import pytest

from crewboard.folder.edit.plan_edits import Add
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Noted
from crewboard.workbench import Said, Workbench
from tests.command.calling import Ended, Shell
from tests.folder.disk.clones import Clones

LONG = bool(os.environ.get("CREWBOARD_LONG"))
pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="needs git")
DAYS = ("2026-05-02", "2026-05-16")
CLASHES = {"two-corrections", "corrected-and-taken-back"}


class Crew:
    """Two or three clones in which the commands write."""

    def __init__(self, root: Path, call: Shell, count: int) -> None:
        self.call = call
        self.clones = Clones(root, count)
        first = self.clones.trees[0]
        (first / ".gitattributes").unlink()  # the folder brings its own
        made = call("new", first, "--name", "Van", "--people", "Ada", "Tom", "Kim")
        assert made.code == 0, made.err
        Workbench(first).change(Add("task", "frame/scrape", {"title": "Scrape"}))
        self.said: list[str] = []
        self.clones.fork()
        self.benches = [Workbench(tree) for tree in self.clones.trees]

    def run(self, tree: int, name: str, *words: str, day: str = DAYS[0]) -> Ended:
        at = () if name in ("correct", "take-back") else ("--at", f"{day}T10:00")
        ended = self.call(name, self.clones.trees[tree], *words, *at, "--by", "ada", "--json")
        if ended.code == 0:
            self.said += [each["id"] for each in ended.form["entries"]]
        return ended

    def ids(self, tree: int) -> list[str]:
        days = Folder(self.clones.trees[tree]).logbook.days.values()
        return [entry.id for day in days for entry in day.entries]

    def checked(self, tree: int) -> list[dict[str, object]]:
        at = f"{DAYS[0]}T23:00"  # before anybody asks why these days were never closed
        form = self.call("check", self.clones.trees[tree], "--at", at, "--json").form
        return [*form["mistakes"], *form["questions"]]


def live_step(crew: Crew, tree: int, dice: random.Random) -> None:
    """One thing a person does at one of the clones; refusals are part of the day."""
    day = dice.choice(DAYS)
    known = crew.ids(tree)
    match dice.randrange(7):
        case 0:
            crew.run(tree, "sign-in", dice.choice(["ada", "tom", "kim"]), day=day)
        case 1 | 2:
            crew.run(tree, "hours", "tom", "0.5", "frame/scrape", day=day)
        case 3:
            crew.run(tree, "note", f'"odd" [b]{dice.random()}[/b]', day=day)
        case 4 if known:
            crew.run(tree, "correct", dice.choice(known), "--set", f"note={dice.random()}")
        case 5 if known:
            crew.run(tree, "take-back", dice.choice(known))
        case _:
            bench, now = crew.benches[tree], datetime.fromisoformat(f"{day}T11:00")
            done = [
                bench.record([Said(Noted("to be undone"), now)], by="tom", now=now),
                bench.undo(by="tom", now=now),
            ]
            assert all(each.kept for each in done)
            crew.said += [entry.id for each in done for entry in each.entries]


@pytest.mark.parametrize("count", [2, 3])
def test_what_the_commands_kept_in_clones_is_there_once_after_plain_merges(
    tmp_path: Path, call: Shell, count: int
) -> None:
    named = 0
    for seed in range(100 if LONG else 4):
        dice = random.Random(100 * count + seed)
        crew = Crew(tmp_path / str(seed), call, count)
        clones = crew.clones
        for _ in range(dice.randrange(3, 8)):
            tree = dice.randrange(count)
            for _ in range(dice.randrange(1, 5)):
                live_step(crew, tree, dice)
            clones.commit(tree)
            if dice.random() < 0.4:
                clones.merge(tree, dice.choice([n for n in range(count) if n != tree]))
        for other in range(1, count):
            clones.merge(0, other)
        assert Counter(crew.ids(0)) == Counter(crew.said), seed
        told = crew.checked(0)
        codes = {str(each["code"]) for each in told}
        assert codes <= CLASHES | {"hours"}, (seed, told)
        named += len(told)
        clones.commit(0)
        shutil.rmtree(tmp_path / str(seed))
    print(f"{named} clashes and questions named")


def test_an_entry_that_two_clones_corrected_is_named_by_check(tmp_path: Path, call: Shell) -> None:
    crew = Crew(tmp_path, call, 2)
    (hours,) = crew.run(0, "hours", "tom", "3", "frame/scrape").form["entries"]
    crew.clones.commit(0)
    crew.clones.merge(1, 0)
    ids = []
    for tree in (0, 1):
        (line,) = crew.run(tree, "correct", hours["id"], "--set", f"hours={4 + tree}").form[
            "entries"
        ]
        ids.append(line["id"])
        crew.clones.commit(tree)
    crew.clones.merge(0, 1)
    (told,) = crew.checked(0)
    assert told["code"] == "two-corrections"
    assert all(f'"{each}"' in str(told["sentence"]) for each in [*ids, hours["id"]])
    # The tool's own way out: one of the two is taken back, and nothing is left to name.
    assert crew.run(0, "take-back", ids[0]).code == 0
    assert crew.checked(0) == []


def test_an_entry_that_one_clone_corrected_and_one_took_back_is_named_by_check(
    tmp_path: Path, call: Shell
) -> None:
    crew = Crew(tmp_path, call, 2)
    (hours,) = crew.run(0, "hours", "tom", "3", "frame/scrape").form["entries"]
    crew.clones.commit(0)
    crew.clones.merge(1, 0)
    assert crew.run(0, "correct", hours["id"], "--set", "hours=4").code == 0
    assert crew.run(1, "take-back", hours["id"]).code == 0
    for tree in (0, 1):
        crew.clones.commit(tree)
    crew.clones.merge(0, 1)
    (told,) = crew.checked(0)
    assert told["code"] == "corrected-and-taken-back"
    assert crew.said[1] in str(told["sentence"])
    assert crew.said[2] in str(told["sentence"])


def test_a_clone_that_writes_crlf_merges_with_one_that_does_not(
    tmp_path: Path, call: Shell
) -> None:
    crew = Crew(tmp_path, call, 2)
    crew.run(0, "sign-in", "tom")
    crew.clones.commit(0)
    crew.clones.merge(1, 0)
    day = crew.clones.path(1)
    day.write_bytes(day.read_bytes().replace(b"\n", b"\r\n"))
    crew.run(1, "hours", "tom", "1", "frame/scrape")
    crew.run(0, "hours", "tom", "2", "frame/scrape")
    for tree in (0, 1):
        crew.clones.commit(tree)
    crew.clones.merge(0, 1)
    assert crew.run(0, "note", "after the merge").code == 0
    assert sorted(crew.ids(0)) == sorted(crew.said)
    assert crew.checked(0) == []
