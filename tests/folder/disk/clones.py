"""Two or three people's clones of one folder, with real git and random histories."""

from __future__ import annotations

import datetime as dt
import os
import random
import subprocess
from pathlib import Path

from crewboard.folder.toml.append import appended, entry_line, new_day, new_id
from crewboard.folder.toml.values import Value

# What keeps git from asking for conflicts to be solved in the day files.
ATTRIBUTES = "days/**/*.toml merge=union\n"
FIRST = dt.date(2026, 5, 2)


class Clones:
    """Working trees of one repository, each on its own branch; all that is merged is by git."""

    def __init__(self, root: Path, count: int) -> None:
        self.trees = [root / f"clone{number}" for number in range(count)]
        self.lines: dict[dt.date, dict[str, str]] = {}
        first = self.trees[0]
        first.mkdir(parents=True)
        self.git(0, "init", "-q", "-b", "clone0")
        (first / ".gitattributes").write_text(ATTRIBUTES)

    def fork(self) -> None:
        """Commit what the first has, and give it to the others."""
        self.commit(0)
        for number in range(1, len(self.trees)):
            self.git(0, "worktree", "add", "-q", "-b", f"clone{number}", str(self.trees[number]))

    def git(self, tree: int, *words: str) -> None:
        quiet = {
            "GIT_CONFIG_NOSYSTEM": "1",
            "GIT_CONFIG_GLOBAL": os.devnull,
            "GIT_AUTHOR_NAME": "a",
            "GIT_AUTHOR_EMAIL": "a@example.org",
            "GIT_COMMITTER_NAME": "a",
            "GIT_COMMITTER_EMAIL": "a@example.org",
        }
        ran = subprocess.run(
            ["git", *words],
            cwd=self.trees[tree],
            env={**os.environ, **quiet},
            capture_output=True,
            text=True,
        )
        assert ran.returncode == 0, (words, ran.stdout, ran.stderr)

    def commit(self, tree: int) -> None:
        self.git(tree, "add", "-A")
        self.git(tree, "commit", "-q", "--allow-empty", "-m", "work")

    def merge(self, into: int, other: int) -> None:
        """Plain `git merge`; fails the test where git reports a conflict."""
        self.git(into, "merge", "-q", "--no-edit", f"clone{other}")

    def path(self, tree: int, day: dt.date = FIRST) -> Path:
        return self.trees[tree] / "days" / f"{day.year}" / f"{day}.toml"

    def log(self, tree: int, day: dt.date, dice: random.Random, by_hand: bool) -> None:
        """Add an entry, sometimes a correction; by hand, sometimes without a last line end."""
        path = self.path(tree, day)
        path.parent.mkdir(parents=True, exist_ok=True)
        text = path.read_bytes() if path.exists() else new_day(day)
        known = self.lines.setdefault(day, {})
        fields: dict[str, Value] = {
            "at": dt.datetime(2026, 5, 2, 9, dice.randrange(60)),
            "by": dice.choice("mno"),
        }
        if known and dice.random() < 0.3:
            fields["replaces"] = dice.choice(list(known))
        entry_id = new_id(dice, known)
        line = entry_line(entry_id, fields)
        known[entry_id] = line
        text = appended(text, line)
        if by_hand and dice.random() < 0.5:
            text = text.removesuffix(b"\n")
        if by_hand and dice.random() < 0.1:
            text += b"\n# a thought\n\n"
        path.write_bytes(text)


def random_history(root: Path, seed: int, *, by_hand: bool, crisscross: bool) -> Clones:
    """Two or three clones that log, correct and merge in any direction; all is in the first."""
    dice = random.Random(seed)
    clones = Clones(root, 3 if crisscross else dice.choice([2, 3]))
    for _ in range(dice.randrange(4)):
        clones.log(0, FIRST, dice, by_hand)
    clones.fork()
    everyone = range(len(clones.trees))
    for _ in range(dice.randrange(8, 25) if crisscross else dice.randrange(2, 8)):
        tree = dice.choice(everyone)
        if dice.random() < (0.4 if crisscross else 0.65):
            for _ in range(dice.randrange(1, 4)):
                day = FIRST + dt.timedelta(dice.choice([0, 0, 0, 1, 2]))
                clones.log(tree, day, dice, by_hand)
            clones.commit(tree)
        else:
            clones.merge(tree, dice.choice([other for other in everyone if other != tree]))
    for other in everyone[1:]:
        clones.merge(0, other)
    return clones
