"""Copies of the plan's files, as sync programs, file managers and editors leave them beside.

They are known by what is left of a name when that is taken off which any of them adds, and by what
stands in them; not by one program's way of naming them.
"""

import os
import re
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from crewboard.folder.read.component_file import ComponentFile
from crewboard.folder.read.fault import Fault
from crewboard.folder.read.files import COMPONENTS, ONE_OF_A_KIND, component_path, is_id, stem_of

# "copy" as file managers write it where they speak another language.
_COPY = "copy|kopie|copie|copia|cópia|kopia|kopi|kopio|kopya|másolat|duplicate|duplikat"
_CLASH = r"(?:sync[-_ ]?)?(?:conflict|konflikt|conflit|conflicto|conflitto)\w*|in conflict|case"
_OLD = "orig|original|old|backup|bak|tmp|temp|new|mine|theirs|ours|local|remote|base|head"
# Compiled when they are first used: a folder without such copies needs none of them.
_TAKEN_OFF = (
    r"\s*[\(\[{][^()\[\]{}]*[\)\]}]\s*",  # (1), (conflicted copy of the laptop), [conflict]
    r"[\s._-]*sync-conflict-.*$",
    r"~.*$",
    rf"^(?:{_COPY}) (?:of|von|de|di|da|van|av|af) ",
    rf"[\s._-]+(?:{_COPY}|{_CLASH}|{_OLD})(?:[\s._-]+[\d\s._:T-]*)?$",
    r"\s+[\d\s:._T-]+$",
    r"[\s._-]+$|^[\s._-]+",
)


FOLD = "crewboard fold shows what it says otherwise, and which of the two shall count"


def copy_in_words(path: str, original: str) -> str:
    """What is wrong with a copy of that file."""
    if path.lower() == original.lower():
        return f"this differs only in capital letters from {original}, and is not read"
    return f"this seems to be a copy of {original}, and is not read"


def original_of(path: str) -> str:
    """The file of the plan of which a file beside it is called like a copy; empty of any other.

    Names that differ only in capital letters, or in those of the ending, are such names too.
    """
    folder, slash, name = path.rpartition("/")
    if folder + slash not in ("", COMPONENTS) or ".toml" not in name.lower():
        return ""
    stem = _without_additions(name)
    if not folder:
        file = f"{stem.lower()}.toml"
        return file if file in ONE_OF_A_KIND and file != path else ""
    file = component_path(stem)
    return file if is_id(stem) and file != path else ""


def _without_additions(name: str) -> str:
    """ "deck" of "Copy of deck (2).toml"."""
    end = name.lower().index(".toml")
    stem = name[:end]
    for _ in range(3):  # "deck - Copy (2) (conflict)" has one thing behind another
        before = stem
        for addition in _TAKEN_OFF:
            stem = re.sub(addition, "", stem, flags=re.IGNORECASE) or stem
        if stem == before:
            break
    return stem


def copies_in(root: str, files: Mapping[str, ComponentFile]) -> dict[str, str]:
    """The copies of the plan's files in a folder, by their names and by what stands in them: path
    -> the path of the file that it is a copy of, both from the folder, with `/`."""
    named = {
        path: original
        for prefix in ("", COMPONENTS)
        for path in _listed(root, prefix)
        if (original := original_of(path)) and not _is_read(path, files)
    }
    among = copies_among(files)
    return named | {component_path(copy): component_path(one) for copy, one in among.items()}


def copy_beside(root: str, original: str) -> str:
    """A file that is called like a copy of that file of the plan, beside its place; or empty."""
    prefix = original.rpartition("/")[0]
    paths = _listed(root, prefix and f"{prefix}/")
    return next((path for path in paths if original_of(path) == original), "")


def _listed(root: str, prefix: str) -> list[str]:
    try:
        with os.scandir(os.path.join(root, prefix)) as entries:
            return sorted(prefix + e.name for e in entries if e.is_file(follow_symlinks=False))
    except OSError:
        return []


def _is_read(path: str, files: Mapping[str, ComponentFile]) -> bool:
    """Whether a file that is called like a copy is read as a component: then its contents tell."""
    return path.startswith(COMPONENTS) and stem_of(path) in files


def taken_out(files: dict[str, ComponentFile]) -> list[Fault]:
    """Take the copies out, so that no task stands there twice; what is wrong with each."""
    copies = copies_among(files)
    for stem in copies:
        del files[stem]
    pairs = ((component_path(copy), component_path(one)) for copy, one in copies.items())
    return [Fault(p, 1, 1, "copy", copy_in_words(p, original), FOLD) for p, original in pairs]


class _Contents(NamedTuple):
    name: str
    ids: frozenset[str]


def copies_among(files: Mapping[str, ComponentFile]) -> dict[str, str]:
    """Which of the component files are copies of another: stem -> stem of the other.

    One is, where its name is the other's with something before or behind it, or with other
    capitals, and both say the same name and mostly the same parts and tasks.
    """
    by_fold: dict[str, list[str]] = {}
    for stem in files:
        by_fold.setdefault(stem.casefold(), []).append(stem)
    if len(files) < 2:
        return {}
    copies = {}
    for stem in files:
        for other in _shorter(stem, by_fold):
            if _alike(_contents(stem, files[stem]), _contents(other, files[other])):
                copies[stem] = other
                break
    return copies


def _shorter(stem: str, by_fold: Mapping[str, list[str]]) -> list[str]:
    """The stems that this one may be a longer form of, or another spelling of."""
    fold = stem.casefold()
    inner = [part for cut in range(1, len(fold)) for part in (fold[:cut], fold[cut:])]
    twins = _small_letters_first(by_fold[fold])
    longer_than = [other for part in inner for other in by_fold.get(part, ())]
    return [*twins[: twins.index(stem)], *longer_than]


def _small_letters_first(stems: Iterable[str]) -> list[str]:
    return sorted(stems, key=lambda stem: (stem != stem.lower(), stem))


def _contents(stem: str, file: ComponentFile) -> _Contents:
    names = (full.partition("/")[2] for full in (*file.components, *file.tasks))
    return _Contents(file.components[stem].name, frozenset(filter(None, names)))


def _alike(one: _Contents, other: _Contents) -> bool:
    fewer = min(len(one.ids), len(other.ids))
    return one.name == other.name and 2 * len(one.ids & other.ids) >= fewer


def same_but_for_capitals(stems: Iterable[str]) -> dict[str, str]:
    """Component files that are one file where capital letters make no difference: the later ->
    the first."""
    first: dict[str, str] = {}
    twins = {}
    for stem in _small_letters_first(stems):
        other = first.setdefault(stem.casefold(), stem)
        if other != stem:
            twins[stem] = other
    return twins
