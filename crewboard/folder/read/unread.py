"""What of the folder cannot be read, as the values that the order of work is told by."""

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import Any, NamedTuple

from crewboard.folder.read.copies import original_of
from crewboard.folder.read.fault import MISSING, Fault, KeyPath, Misfit, Remark
from crewboard.folder.read.files import (
    COMPONENTS,
    DAYS,
    HAZARDS,
    READINGS,
    Role,
    component_path,
    day_of,
    day_path,
    is_id,
    role_of,
    stem_of,
)
from crewboard.folder.read.losses import LOST_LINES, MEANT
from crewboard.logbook.kinds import BY_WORD
from crewboard.logbook.logbook import Logbook
from crewboard.order.unreadable import Unread, Unreadable

_KINDS: dict[Role, Unread] = {
    "vehicle": "vehicle",
    "crew": "crew",
    "supplies": "supplies",
    "hazards": "hazards",
    "component": "component",
    "day": "day",
    "stray": "day",
    "readings": "readings",
}


def unread_file(path: str, why: str, mend: str = "", *, remembered: bool = False) -> Unreadable:
    """A whole file that cannot be read, or a folder of ours (its path ends with `/`)."""
    if path.endswith("/") or not path:
        kind: Unread = "readings" if path == READINGS else "folder"
        return Unreadable(path or "./", kind, why, mend, remembered=remembered)
    role = role_of(path)
    about = _about(path) if role == "component" else ""
    return Unreadable(path, _KINDS[role], why, mend, about, day_of(path), remembered)


def _about(path: str) -> str:
    """The component of which a file speaks: a copy speaks of that of its original."""
    stem = stem_of(path)
    return stem if is_id(stem) else stem_of(original_of(path)) or stem


def missed(path: str, who_knew: str) -> Unreadable:
    """A file that is not there, and was known before: "the look of 2 May", "a copy of 25 April"."""
    mend = f'put {path} back: "crewboard restore" shows the copies'
    return unread_file(path, f"it is gone, and {who_knew} knew it", mend)


def named_by_the_logbook(logbook: Logbook, files: Container[str]) -> Iterator[Unreadable]:
    """The files of components that are not there though the logbook names what stood in them. The
    tool itself takes nothing out that the logbook names."""
    named = frozenset[str]().union(*(day.named for day in logbook.days.values()))
    for stem in sorted({name.partition("/")[0] for name in named}):
        if is_id(stem) and component_path(stem) not in files:
            yield missed(component_path(stem), "the logbook")


def not_given(unread: Mapping[str, OSError], files: Container[str]) -> list[Fault]:
    """The files and folders that the drive holds back, but for those that were read before."""
    return [
        Fault(path or "./", 1, 1, "unreadable", f"this cannot be read: {error.strerror}", hint)
        for path, error in unread.items()
        if path not in files
        for hint in ["crewboard fold gives it its name" if is_ours_in_capitals(path) else ""]
    ]


def is_ours_in_capitals(path: str) -> bool:
    """Whether it is one of our folders but for capital letters: no folder is read under that."""
    return path != path.lower() and path.lower() in (DAYS, COMPONENTS, READINGS)


def missing_component(path: str) -> Fault:
    """A component's file that is not there though the logbook names what stood in it."""
    sentence = f"there is no {path}, and the logbook names what stood in it"
    return Fault(
        path, 1, 1, MISSING, sentence, "bring it back from a copy (crewboard copies lists them)"
    )


def is_ours(path: str) -> bool:
    """Whether what stands at this path, or in this folder, is read for the board."""
    if path.endswith("/") or not path:
        return path in ("", "./") or path.lower().startswith((DAYS, COMPONENTS, READINGS))
    return role_of(path) in _KINDS and role_of(path) != "stray"


def broken_file(path: str, fault: Fault, *, remembered: bool) -> Unreadable:
    """A file of which nothing can be read."""
    placed = fault.code == "toml"
    why = f"line {fault.line}: {fault.sentence}" if placed else fault.sentence
    for lead_in in ("the file cannot be read: ", "this cannot be read: "):
        why = why.removeprefix(lead_in)
    mend = f"mend {path}" if placed or not fault.hint else fault.hint
    return unread_file(path, why, mend, remembered=remembered)


def lost_lines(day: date, count: int) -> tuple[Fault, Unreadable]:
    """A day that says less than at the last look."""
    path = day_path(day)
    lines = "1 entry that stood" if count == 1 else f"{count} entries that stood"
    sentence = f"{lines} here at the last look {'is' if count == 1 else 'are'} gone"
    hint = f"put them back, or, {MEANT}"
    fault = Fault(path, 1, 1, LOST_LINES, sentence, hint)
    return fault, unread_file(path, sentence, hint, remembered=True)


# --- parts of a file -----------------------------------------------------------------------------

# Mistakes in these keys of a task change nothing of when it may be done.
_HARMLESS_OF_TASK = {"title", "method", "pictures", "hours", "due", "place"}
_HARMLESS_OF_COMPONENT = {"name", "about", "pictures"}
# Entries that keep nothing back: without them there is rather more to wait for than less. Those of
# the record move nothing of the work either, nor do those of what is still to come.
_HARMLESS_KINDS = {"note", "hours", "check"}
# Of the other files only these keys may hold work back.
_TELLING = {
    "vehicle": {"timezone", "shop", "work_days", "jigs"},
    "crew": {"under_18", "eighteen_on", "needs_beside", "joined", "left"},
    "supplies": {"in_stock", "arrived", "quantity", "unit"},
}


def unread_parts(
    path: str, values: Mapping[str, Any], misfits: Sequence[Misfit], faults: Sequence[Fault]
) -> tuple[Unreadable, ...]:
    """What of a file that can be read, but for these mistakes, may hold work back.

    `faults` are the mistakes with their places: those of lines that stand twice, then `misfits`.
    """
    others = len([fault for fault in faults if fault.code == "two-wordings"])
    parts = [_part(path, fault) for fault in faults[:others]]
    for misfit, fault in zip(misfits, faults[others:], strict=False):
        about = _concerned(path, misfit.path, values, misfit.code)
        if about is not None:
            parts.append(_part(path, fault, about))
    return tuple(dict.fromkeys(parts))


def _part(path: str, fault: Fault, about: str = "") -> Unreadable:
    whole = unread_file(path, f"line {fault.line}: {fault.sentence}", fault.hint)
    mend = f"mend {path}, line {fault.line}" + (f": {fault.hint}" if fault.hint else "")
    kind: Unread = "task" if "/" in about else whole.kind
    return whole._replace(kind=kind, mend=mend, about=about or whole.about, partly=True)


def _concerned(path: str, keys: KeyPath, values: Mapping[str, Any], code: str) -> str | None:
    """Of what a mistake at a key speaks ("" the whole file); None where it holds nothing back."""
    role, key = role_of(path), str(keys[-1]) if keys else ""
    match role, keys:
        case "component", ("tasks", str(name), *rest):
            return None if rest and rest[0] in _HARMLESS_OF_TASK else f"{stem_of(path)}/{name}"
        case "component", _:
            return None if key in _HARMLESS_OF_COMPONENT else ""
        case "day", ("entries", str(entry_id), *_):
            return None if _harmless(_kind_of(values, entry_id)) else ""
        case "day", _:
            return None if key == "date" else ""
        case "vehicle", ("shop", "breaks" | "small_jobs", *_):
            return None
        case "vehicle", (str(first), *_) if code != "unknown-key":
            return "" if first in _TELLING["vehicle"] else None
        case (("crew" | "supplies"), (_, str(name), str(last), *_)):
            return (name if role == "supplies" else "") if last in _TELLING[role] else None
    return None


def _harmless(word: str) -> bool:
    kind = BY_WORD.get(word)
    return word in _HARMLESS_KINDS or (kind is not None and (kind.of_record or kind.ahead))


def _kind_of(values: Mapping[str, Any], entry_id: str) -> str:
    line = values["entries"].get(entry_id)
    return str(line.get("kind", "")) if isinstance(line, Mapping) else ""


def unread_sheets(misfits: Sequence[Misfit], faults: Sequence[Fault]) -> Iterator[Unreadable]:
    """The crew's own hazard sheets with mistakes: what they ask for is not known wholly."""
    for misfit, fault in zip(misfits, faults, strict=False):
        yield _part(HAZARDS, fault, str(misfit.path[0]) if misfit.path else "")


class UnknownName(NamedTuple):
    """A name of nothing in the plan: what it stands for may hold the work back, or be a danger."""

    unread: Unreadable
    rests_on: tuple[str, ...]  # the files in which it would stand


def unknown_names(remarks: Sequence[Remark], faults: Sequence[Fault]) -> Iterator[UnknownName]:
    """The names of nothing in the plan's files."""
    for remark, fault in zip(remarks, faults, strict=True):
        if remark.code == "unknown-name":
            of_task = remark.path[:1] == ("tasks",)
            about = f"{stem_of(remark.file)}/{remark.path[1]}" if of_task else ""
            yield UnknownName(_part(remark.file, fault, about), remark.rests_on)


def with_those_who_name(
    whole: Iterable[Unreadable], unknown: Sequence[UnknownName]
) -> Iterator[Unreadable]:
    """The files that cannot be read, each with the tasks that name what would stand in it; then the
    names that would stand in none of them."""
    files = {one.file: one for one in whole}
    for file, unread in files.items():
        naming = (name.unread.about for name in unknown if file in name.rests_on)
        yield unread._replace(named_by=tuple(dict.fromkeys(filter(None, naming))))
    yield from (name.unread for name in unknown if not any(f in files for f in name.rests_on))
