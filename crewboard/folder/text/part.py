"""Unfinished files: named so that they are known as such, and swept when their writer is gone."""

from __future__ import annotations

import os
import re
import time

# .crewboard-<computer>-<process>-<random>.part
_NAME = re.compile(r"\.crewboard-(?P<computer>[0-9a-f]{8})-(?P<process>\d+)-[0-9a-f]{8}\.part\Z")
OLDEST = 24 * 3600.0
"""Seconds after which an unfinished file is swept whatever its writer: no write takes a day."""


def name_for_part(folder: str) -> str:
    """A new name in the folder for a file that is still being written."""
    return os.path.join(
        folder, f".crewboard-{_computer()}-{os.getpid()}-{os.urandom(4).hex()}.part"
    )


def is_part(name: str) -> bool:
    """Whether a file of this name is one that was never finished."""
    return _NAME.match(name) is not None


def clean_leftovers(root: str | os.PathLike[str], *, now: float | None = None) -> list[str]:
    """Sweep unfinished files below `root`, return their paths. Links are not followed.

    Only those are swept whose process is dead on this computer, or that are a day old: on a
    shared drive the process may be alive on another computer. `now` is in seconds of the epoch.
    Never raises: what cannot be swept stays for the next time.
    """
    moment = time.time() if now is None else now
    swept = list[str]()
    for path, name, changed in _parts(os.fspath(root)):
        if _abandoned(name, moment - changed):
            try:
                os.unlink(path)
            except OSError:
                continue
            swept.append(path)
    return swept


def _parts(root: str) -> list[tuple[str, str, float]]:
    found, folders = list[tuple[str, str, float]](), [root]
    while folders:
        try:
            with os.scandir(folders.pop()) as entries:
                for entry in entries:
                    if entry.is_dir(follow_symlinks=False):
                        if entry.name != ".git":
                            folders.append(entry.path)
                    elif is_part(entry.name):
                        changed = entry.stat(follow_symlinks=False).st_mtime
                        found.append((entry.path, entry.name, changed))
        except OSError:
            continue
    return found


def _abandoned(name: str, age: float) -> bool:
    match = _NAME.match(name)
    if match is None:
        return False
    if age > OLDEST:
        return True
    process = int(match["process"])
    return match["computer"] == _computer() and process != os.getpid() and not _alive(process)


def _alive(process: int) -> bool:
    if os.name == "nt":  # os.kill would end the process there; wait for the file's age instead
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True


def _computer() -> str:
    """Eight digits that tell this computer from others on one shared drive."""
    from zlib import crc32

    name = os.environ.get("COMPUTERNAME", "") if os.name == "nt" else os.uname().nodename
    return f"{crc32(name.encode('utf-8', 'replace')):08x}"
