"""Acting as somebody: a process of its own with the user, groups and umask of another person."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from importlib import import_module
from pathlib import Path
from tempfile import mkdtemp
from typing import NamedTuple

import pytest

from tests.folder.disk.failing_disk import in_a_child

# Who is not root may not be able to read where Python is installed: nothing is imported by them.
for module in ("filelock", "pwd", "grp", "shlex", "encodings.ascii", "crewboard.folder.disk.whose"):
    with suppress(ImportError):
        import_module(module)

CREW = 54321
"""The number of the group that the crew shares; no system needs to know it."""

needs_root = pytest.mark.skipif(
    not hasattr(os, "fork") or os.geteuid() != 0, reason="only root can act as several people"
)


class Somebody(NamedTuple):
    """A person of the system: user, own group, the groups beside it, what they keep from others."""

    user: int
    group: int
    groups: tuple[int, ...] = ()
    umask: int = 0o022

    def does(self, act: Callable[[], object]) -> bool:
        """Whether the person's process lived to its end. What fails in it fails here."""
        return in_a_child(lambda: self._alone(act))

    def _alone(self, act: Callable[[], object]) -> None:
        os.setgroups(self.groups)
        os.setgid(self.group)
        os.setuid(self.user)
        os.umask(self.umask)
        act()


ADA = Somebody(54001, 54001, (CREW,), 0o077)
TOM = Somebody(54002, 54002, (CREW,), 0o022)
EVE = Somebody(54003, 54003)


@contextmanager
def shared_place(mode: int = 0o2775, group: int = CREW) -> Iterator[Path]:
    """A folder of that group, where those who are not root can reach it."""
    outer = Path(mkdtemp())
    try:
        outer.chmod(0o755)
        place = outer / "place"
        place.mkdir()
        os.chown(place, -1, group)
        place.chmod(mode)
        yield place
    finally:
        shutil.rmtree(outer)


def rights(path: Path) -> tuple[int, int]:
    """The file's group, and its mode without its kind."""
    kind = path.stat()
    return kind.st_gid, kind.st_mode & 0o7777
