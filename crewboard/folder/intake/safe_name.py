"""The name that a file gets in the folder: what every system can hold and no terminal obeys."""

from unicodedata import normalize

from crewboard.folder.disk.names import trouble
from crewboard.folder.intake.what_it_is import FileSort
from crewboard.legible import legible

_MOST_LETTERS = 60
_MOST_BYTES = 180  # of 255 that a name may have: a number and an ending come to it
_KEPT = "-_"
_FIGURES = 4  # of the hash: of one name and year, one pair in 65,536 has them alike


def safe_name(name: str, sort: FileSort) -> str:
    """The name with hyphens for all that is neither letter nor figure, and with an ending of its
    sort: its own where that is one."""
    stem, dot, ending = name.rpartition(".")
    if not dot or f".{ending.lower()}" not in sort.endings:
        stem, ending = name, sort.endings[0][1:]
    signs = (char if _is_kept(char) else "-" for char in normalize("NFC", stem))
    parts = [part for part in "".join(signs).split("-") if part]
    short = "-".join(parts)[:_MOST_LETTERS].strip("-_") or sort.word
    while len(short.encode()) > _MOST_BYTES:
        short = short[:-1]
    safe = f"{short}.{ending.lower()}"
    return f"{sort.word}-{safe}" if trouble(f"pictures/{safe}") else safe


def _is_kept(char: str) -> bool:
    return char in _KEPT or (char.isalnum() and legible(char) == char)


def told_apart(name: str, sha256: str) -> str:
    """The name with the first figures of the file's hash: cameras count alike, and two clones of a
    folder that take in a picture each must not give both one name ("IMG_2-3fa8.jpg")."""
    stem, dot, ending = name.rpartition(".")
    return f"{stem}-{sha256[:_FIGURES]}{dot}{ending}"


def numbered(name: str, number: int) -> str:
    """The name for the so many-th file of that name: "sill.jpg", "sill-2.jpg"."""
    stem, dot, ending = name.rpartition(".")
    return name if number == 1 else f"{stem}-{number}{dot}{ending}"


def as_one(name: str) -> str:
    """How a name looks to a system that does not tell capitals from small letters."""
    return normalize("NFC", name).casefold()
