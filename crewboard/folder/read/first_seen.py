"""When each task was first seen in the folder: by git, or by the folder's own daily copies.

Too slow for each look; read only when asked for.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from contextlib import suppress
from datetime import date
from typing import NamedTuple

from crewboard.folder.cannot import NotKept
from crewboard.folder.read.files import COMPONENTS
from crewboard.folder.toml.decode import parse_toml

# Nothing that a folder's own settings name is run: no pager, no other diff, no watcher.
_GIT = ("git", "-c", "core.fsmonitor=false", "-c", "log.showSignature=false", "--no-pager")
_LOG = ("log", "--reverse", "--relative", "--date=short", "--format=commit %ad", "-p", "-U0", "-M")
_PLAIN = ("--no-ext-diff", "--no-textconv", "--no-color", "--no-notes", "--", COMPONENTS)
_SECONDS = 120
_TABLE = re.compile(r"""\+\s*\[\s*tasks\s*\.\s*(?:"([^"]*)"|'([^']*)'|([\w-]+))\s*\]""")
_FILE = re.compile(rf"{COMPONENTS}([^/]+)\.toml\Z")


class FirstSeen(NamedTuple):
    """Task -> the day on which it was first seen; of `from_the_start` only that they were there by
    then already. `told_by` is what knows it, in words."""

    days: dict[str, date]
    from_the_start: frozenset[str]
    told_by: str


def seen_by_git(root: str | os.PathLike[str]) -> FirstSeen:
    """What the history of the components' files tells; nothing where there is no git, or none of
    this folder."""
    from subprocess import SubprocessError, run

    text = ""
    env = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
    env |= {"GIT_OPTIONAL_LOCKS": "0", "GIT_TERMINAL_PROMPT": "0"}
    with suppress(OSError, SubprocessError):
        asked = [*_GIT, *_LOG, *_PLAIN]
        done = run(asked, cwd=root, capture_output=True, timeout=_SECONDS, env=env, check=True)
        text = done.stdout.decode(errors="replace")
    days: dict[str, date] = {}
    for day, task, before in _tables_added(text):
        known = days.get(before) if before else None
        days.setdefault(task, known or day)
    first = min(days.values(), default=None)
    return FirstSeen(days, frozenset(t for t, day in days.items() if day == first), "git")


def seen_in_copies(root: str | os.PathLike[str]) -> FirstSeen:
    """What the daily copies tell. A copy is made before the first entry of its day: a task that is
    in the next one came on the day of the last one without it, or soon after."""
    from crewboard.folder.disk.archive import copies_of
    from crewboard.folder.disk.unpack import members

    days: dict[str, date] = {}
    start: frozenset[str] = frozenset()
    before: date | None = None
    for copy in copies_of(root):
        here: set[str] = set()
        with suppress(NotKept):
            for path, data in members(copy.path):
                if (file := _FILE.match(path)) is not None:
                    here.update(_tasks_of(file[1], data))
        if before is None:
            start = frozenset(here)
        for task in here:
            days.setdefault(task, before or copy.at.date())
        before = copy.at.date() if here else before
    return FirstSeen(days, start, "the daily copies")


def _tables_added(log: str) -> Iterator[tuple[date, str, str]]:
    """Day, task and, of one whose file was renamed, its id before; oldest first."""
    day, stem, old, names = date.min, "", "", dict[str, set[str]]()
    for line in log.split("\n"):
        if line.startswith("commit "):
            with suppress(ValueError):
                day = date.fromisoformat(line[7:].strip())
        elif line.startswith("rename from "):
            old = _stem(line[12:])
        elif line.startswith("rename to "):
            stem = _stem(line[10:])
            for name in sorted(names.get(old, ())):
                names.setdefault(stem, set()).add(name)
                yield day, f"{stem}/{name}", f"{old}/{name}"
        elif line.startswith("+++ "):
            stem = _stem(line[4:].strip().strip('"').removeprefix("b/"))
        elif stem and (table := _TABLE.match(line)) is not None:
            name = table[1] or table[2] or table[3]
            names.setdefault(stem, set()).add(name)
            yield day, f"{stem}/{name}", ""


def _stem(path: str) -> str:
    file = _FILE.match(path.strip().strip('"'))
    return file[1] if file is not None else ""


def _tasks_of(stem: str, data: bytes) -> Iterator[str]:
    values = parse_toml(data)
    tasks = values.get("tasks") if isinstance(values, dict) else None
    if isinstance(tasks, dict):
        yield from (f"{stem}/{name}" for name in tasks)
