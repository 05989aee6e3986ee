"""Which paths a copy of the folder may hold, and bring back.

A copy can come from anywhere. So it brings back text only, at paths that mean the same on every
system, and never into what other programs steer themselves by: hidden folders, devices, a second
spelling of the folder's own names.
"""

from __future__ import annotations

import re
from unicodedata import category, normalize

from crewboard.folder.read.files import COMPONENTS, CREW, DAYS, HAZARDS, READINGS, SUPPLIES, VEHICLE

OWN_HIDDEN = (".gitattributes", ".gitignore")
_TEXTS = (".toml", ".csv", ".txt", ".md")
_OWN_NAMES = {VEHICLE, CREW, SUPPLIES, HAZARDS, *(d.rstrip("/") for d in (COMPONENTS, DAYS))}
_OWN_NAMES |= {READINGS.rstrip("/")}
_DEVICE = re.compile(r"(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[0-9¹²³])(\..*)?\Z", re.I)
_SHORT_FORM = re.compile(r"[^.]{1,6}~[0-9]+\Z")  # of a hidden folder's name, on Windows
_NOT_ON_WINDOWS = frozenset('<>:"|?*\\')


def is_toml(name: str) -> bool:
    """Whether the tool reads the file as TOML: also a copy that a sync left among the days."""
    lower = name.rpartition("/")[2].lower()
    return lower.endswith(".toml") or (
        name.startswith(DAYS) and ".toml" in lower and not name.endswith("~")
    )


def is_text(name: str) -> bool:
    """Whether a copy takes the file in, and brings it back: by its name, within the folder."""
    if name.rpartition("/")[2].startswith("."):
        return name in OWN_HIDDEN
    return is_toml(name) or name.lower().endswith(_TEXTS)


def trouble(name: str) -> str:
    """Why a file of this path is never brought back; empty where nothing is wrong with it."""
    parts = name.split("/")
    if any(part in ("", ".", "..") for part in parts):
        return "its path leads elsewhere"
    if any(part.startswith(".") for part in parts[:-1]) or parts[0].startswith(".crewboard"):
        return "it is hidden"
    if any(category(char) in ("Cc", "Cf", "Cs", "Zl", "Zp") for char in name):
        return "its name holds characters that are not seen"
    if _NOT_ON_WINDOWS & set(name) or any(part[-1] in ". " for part in parts):
        return "not every system can hold its name"
    if any(_SHORT_FORM.match(part) for part in parts[:-1]) or _is_device(parts):
        return "some systems take its name for another"
    if _as_one(parts[0]) in _OWN_NAMES and parts[0] not in _OWN_NAMES:
        return "its name differs from one of the folder's own only in case"
    return ""


def _is_device(parts: list[str]) -> bool:
    """A component may be called "aux", as far as the system lets it."""
    component = len(parts) == 2 and parts[0] + "/" == COMPONENTS and parts[1].endswith(".toml")
    return any(_DEVICE.match(part) for part in (parts[:-1] if component else parts))


def _as_one(name: str) -> str:
    return normalize("NFKC", name).casefold()
