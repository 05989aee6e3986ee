"""Who may write a file, and who can give the right: for the sentence that refuses it."""

from __future__ import annotations

import os
import stat
from contextlib import suppress
from typing import NamedTuple


class Barrier(NamedTuple):
    """What keeps this person from reading or writing: the file or folder at `path`, why it does,
    and what to do about it."""

    path: str
    sentence: str
    hint: str


def barrier_to_writing(path: str | os.PathLike[str]) -> Barrier | None:
    """What stands in the way of writing the file, None where nothing that can be seen does."""
    with suppress(OSError, ImportError):
        target = os.path.realpath(path)
        folder = os.path.dirname(target)
        while not os.path.exists(folder):
            folder = os.path.dirname(folder)
        if not os.access(folder, os.W_OK | os.X_OK):
            return _barrier(folder, "write")
        if not os.path.exists(target):
            return None
        if not os.access(target, os.W_OK):
            return _barrier(target, "write")
        if _only_for_owners(folder, target):
            return _owners_only(folder, target)
    return None


def barrier_to_reading(path: str | os.PathLike[str]) -> Barrier | None:
    """What stands in the way of reading the file, None where nothing that can be seen does."""
    with suppress(OSError, ImportError):
        target = os.path.realpath(path)
        while not os.path.exists(target):
            target = os.path.dirname(target)
        may = os.R_OK | os.X_OK if os.path.isdir(target) else os.R_OK
        if not os.access(target, may):
            return _barrier(target, "read")
    return None


def why_not_read(path: str | os.PathLike[str], error: OSError) -> tuple[str, str]:
    """The reason, and what to do about it where whose the file is explains it."""
    if isinstance(error, PermissionError) and (barrier := barrier_to_reading(path)):
        return barrier.sentence.partition(": ")[2], barrier.hint
    return error.strerror or str(error), ""


def _barrier(path: str, doing: str) -> Barrier:
    kind = os.stat(path)
    owner, group, inside = _user(kind.st_uid), _group(kind.st_gid), stat.S_ISDIR(kind.st_mode)
    it = ("in it" if doing == "write" else "what is in it") if inside else "it"
    needed = {"write": stat.S_IWGRP, "read": stat.S_IRGRP}[doing]
    sentence = f"you may not {doing} {os.path.basename(path)}: "
    quoted = _quoted(path)
    if kind.st_uid == os.geteuid():
        right = {"write": "w", "read": "r"}[doing]
        sentence += f"it is your own, but nobody may {doing} {it}"
        return Barrier(path, sentence, f"Run: chmod u+{right} {quoted}")
    sentence += f"it is owned by {owner}, and only {owner} "
    if kind.st_mode & needed and kind.st_gid not in _our_groups():
        sentence += f"and the group {group} may {doing} {it}"
        return Barrier(path, sentence, f"Ask {owner} to have you put into the group {group}.")
    sentence += f"may {doing} {it}"
    deep = "-R " if inside else ""
    rights = {"write": "g+rwX" if inside else "g+rw", "read": "g+rX" if inside else "g+r"}[doing]
    hint = f"Ask {owner} to run: {_regrouped(path, kind, deep)}chmod {deep}{rights} {quoted}"
    return Barrier(path, sentence, hint)


def _regrouped(path: str, kind: os.stat_result, deep: str) -> str:
    """The command that gives the file to a group that we are in; none where it is in one."""
    ours = _our_groups()
    if kind.st_gid in ours:
        return ""
    above = os.stat(os.path.dirname(path)).st_gid
    group = _group(above) if above in ours else "GROUP"
    return f"chgrp {deep}{group} {_quoted(path)} && "


def _only_for_owners(folder: str, target: str) -> bool:
    kind = os.stat(folder)
    owners = {kind.st_uid, os.stat(target).st_uid}
    return bool(kind.st_mode & stat.S_ISVTX) and not owners & {os.geteuid()} and os.geteuid() != 0


def _owners_only(folder: str, target: str) -> Barrier:
    owner, keeper = _user(os.stat(target).st_uid), _user(os.stat(folder).st_uid)
    name = os.path.basename(target)
    sentence = f"you may not write {name}: it is owned by {owner}, and in this folder only the "
    sentence += "owner of a file may replace it"
    return Barrier(target, sentence, f"Ask {keeper} to run: chmod -t {_quoted(folder)}")


def _our_groups() -> set[int]:
    return {os.getegid(), *os.getgroups()}


def _user(number: int) -> str:
    from pwd import getpwuid

    try:
        return getpwuid(number).pw_name
    except KeyError:
        return f"user {number}"


def _group(number: int) -> str:
    from grp import getgrgid

    try:
        return getgrgid(number).gr_name
    except KeyError:
        return f"{number}"


def _quoted(path: str) -> str:
    from shlex import quote

    return quote(path)
