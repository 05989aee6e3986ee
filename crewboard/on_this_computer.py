"""What is remembered on this computer, for whoever sits at it: never in the vehicle's folder, which
goes from one computer to the next."""

import json
import os
from hashlib import sha256
from pathlib import Path
from tempfile import NamedTemporaryFile


def _home() -> Path:
    """Where programs keep such things: `$XDG_STATE_HOME` of the XDG Base Directory Specification,
    `%LOCALAPPDATA%` on Windows."""
    named = os.environ.get("LOCALAPPDATA" if os.name == "nt" else "XDG_STATE_HOME", "")
    home = Path(named) if named and os.path.isabs(named) else Path.home() / ".local" / "state"
    return home / "crewboard"


def remembered(what: str) -> str:
    """What was last remembered under this name; empty where nothing was, or it cannot be read."""
    return _all().get(what, "")


def remember(what: str, value: str) -> None:
    """Keep it for the next time. Where that cannot be, it is not kept: nothing depends on it."""
    try:
        home = _home()
        home.mkdir(parents=True, exist_ok=True)
        with NamedTemporaryFile("w", encoding="utf-8", dir=home, delete=False) as new:
            json.dump(_all() | {what: value}, new)
        os.replace(new.name, home / "remembered.json")
    except (OSError, RuntimeError):  # a full disk, no home at all
        return


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
        if not text:
            path.unlink(missing_ok=True)
            return True
        path.parent.mkdir(parents=True, exist_ok=True)
        with NamedTemporaryFile("w", encoding="utf-8", dir=path.parent, delete=False) as new:
            new.write(text)
        os.replace(new.name, path)
    except (OSError, ValueError, RuntimeError):
        return False
    return True


def _draft(what: str) -> Path:
    name = sha256(what.encode("utf-8", "backslashreplace")).hexdigest()[:32]
    return _home() / "drafts" / f"{name}.json"


def _all() -> dict[str, str]:
    try:
        with open(_home() / "remembered.json", encoding="utf-8") as file:
            kept = json.loads(file.read(100_000))
    except (OSError, ValueError, RuntimeError, RecursionError):
        return {}
    if not isinstance(kept, dict):
        return {}
    return {name: value for name, value in kept.items() if isinstance(value, str)}
