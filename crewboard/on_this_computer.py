"""What is remembered on this computer, for whoever sits at it: never in the vehicle's folder, which
goes from one computer to the next."""

from __future__ import annotations

import os
from contextlib import suppress
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

# What follows imports where it is used: every look at a folder asks `learned_of`.
_LEARNED = "learned"
MOST_LEARNED = 24
"""Files with what was learned, of a folder each: the oldest goes when there is one more."""


def _home() -> str:
    """Where programs keep such things: `$XDG_STATE_HOME` of the XDG Base Directory Specification,
    `%LOCALAPPDATA%` on Windows."""
    named = os.environ.get("LOCALAPPDATA" if os.name == "nt" else "XDG_STATE_HOME", "")
    if not (named and os.path.isabs(named)):
        named = os.path.join(os.path.expanduser("~"), ".local", "state")
    return os.path.join(named, "crewboard")


def remembered(what: str) -> str:
    """What was last remembered under this name; empty where nothing was, or it cannot be read."""
    return _all().get(what, "")


def remember(what: str, value: str) -> None:
    """Keep it for the next time. Where that cannot be, it is not kept: nothing depends on it."""
    import json

    with suppress(OSError):  # a full disk, no home at all
        _put(_home(), "remembered.json", json.dumps(_all() | {what: value}).encode())


def draft_of(what: str) -> str:
    """What was typed of this and not saved yet; empty where nothing was, or it cannot be read."""
    try:
        return _draft(what).read_text(encoding="utf-8")
    except (OSError, ValueError, RuntimeError):
        return ""


def keep_draft(what: str, text: str) -> bool:
    """Keep what is typed until it is saved, an empty text to keep nothing more; whether that could
    be done."""
    try:
        path = _draft(what)
        if text:
            _put(str(path.parent), path.name, text.encode())
        else:
            path.unlink(missing_ok=True)
    except (OSError, ValueError):
        return False
    return True


def learned_of(what: str) -> bytes:
    """What was learned of this, by `keep_learned`; nothing where that cannot be read."""
    try:
        with open(os.path.join(_home(), _LEARNED, what), "rb") as file:
            return file.read()
    except OSError:
        return b""


def keep_learned(what: str, data: bytes) -> None:
    """Keep what can be learned again, under a name for a file, for as long as others do not take
    its place. Never raises."""
    folder = os.path.join(_home(), _LEARNED)
    with suppress(OSError):
        _put(folder, what, data)
        kept = sorted(os.scandir(folder), key=lambda one: one.stat().st_mtime_ns)
        for one in kept[:-MOST_LEARNED]:
            os.unlink(one.path)


def _put(folder: str, name: str, data: bytes) -> None:
    """The file whole or as it was, and nothing beside it. Raises OSError."""
    from tempfile import NamedTemporaryFile

    os.makedirs(folder, exist_ok=True)
    new = NamedTemporaryFile(dir=folder, delete=False)  # noqa: SIM115
    try:
        with new:
            new.write(data)
        os.replace(new.name, os.path.join(folder, name))
    except BaseException:
        with suppress(OSError):
            os.unlink(new.name)
        raise


def _draft(what: str) -> Path:
    from hashlib import sha256
    from pathlib import Path

    name = sha256(what.encode("utf-8", "backslashreplace")).hexdigest()[:32]
    return Path(_home(), "drafts", f"{name}.json")


def _all() -> dict[str, str]:
    import json

    try:
        with open(os.path.join(_home(), "remembered.json"), encoding="utf-8") as file:
            kept = json.loads(file.read(100_000))
    except (OSError, ValueError, RecursionError):
        return {}
    if not isinstance(kept, dict):
        return {}
    return {name: value for name, value in kept.items() if isinstance(value, str)}
