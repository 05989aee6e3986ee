"""Unfinished files: named so that they are known as such, and swept when their writer is gone."""

from __future__ import annotations

import os
import re
import time
from contextlib import suppress

# .crewboard-<computer>-<process>-<random>.part
_NAME = re.compile(r"\.crewboard-(?P<computer>[0-9a-f]{8})-(?P<process>\d+)-[0-9a-f]{8}\.part\Z")
OLDEST = 24 * 3600.0
"""Seconds after which an unfinished file is swept whatever its writer: no write takes a day."""


def name_for_part(folder: str) -> str:
    """A new name in the folder for a file or folder that is still being made."""
    return os.path.join(
        folder, f".crewboard-{this_computer()}-{os.getpid()}-{os.urandom(4).hex()}.part"
    )


def is_part(name: str) -> bool:
    """Whether a file of this name is one that was never finished."""
    return _NAME.match(name) is not None


def clean_leftovers(root: str | os.PathLike[str], *, now: float | None = None) -> list[str]:
    """Sweep unfinished files in `root` and below, return their paths. Links are not followed.

    Only those are swept whose process is dead on this computer, or that are a day old: on a
    shared drive the process may be alive on another computer. `now` is in seconds of the epoch.
    Never raises: what cannot be swept stays for the next time.
    """
    swept, folders = list[str](), [os.fspath(root)]
    while folders:
        folder = folders.pop()
        swept += sweep(folder, now=now)
        with suppress(OSError), os.scandir(folder) as entries:
            folders += [
                entry.path
                for entry in entries
                if entry.name != ".git" and entry.is_dir(follow_symlinks=False)
            ]
    return swept


def sweep(folder: str, *, now: float | None = None) -> list[str]:
    """As `clean_leftovers`, in this one folder: each write does so first, which may make room."""
    swept = list[str]()
    with suppress(OSError), os.scandir(folder) as entries:
        for entry in [entry for entry in entries if is_part(entry.name)]:
            with suppress(OSError):
                changed = entry.stat(follow_symlinks=False).st_mtime
                moment = time.time() if now is None else now
                if _abandoned(entry.name, moment - changed):
                    (os.rmdir if entry.is_dir(follow_symlinks=False) else os.unlink)(entry.path)
                    swept.append(entry.path)
    return swept


def _abandoned(name: str, age: float) -> bool:
    match = _NAME.match(name)
    if match is None:
        return False
    if age > OLDEST:
        return True
    process = int(match["process"])
    return match["computer"] == this_computer() and process != os.getpid() and not _alive(process)


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


def this_computer() -> str:
    """Eight digits that tell this computer from others on one shared drive."""
    from zlib import crc32

    name = os.environ.get("COMPUTERNAME", "") if os.name == "nt" else os.uname().nodename
    return f"{crc32(name.encode('utf-8', 'replace')):08x}"
