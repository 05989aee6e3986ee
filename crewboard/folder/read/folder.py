"""Reading a vehicle's folder: all of it once, then only what changed."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from crewboard.folder.disk.read import read_at_most
from crewboard.folder.disk.watch import Trace, fingerprint
from crewboard.folder.read.beside import is_twin, unread_strays
from crewboard.folder.read.component_file import ComponentFile
from crewboard.folder.read.copies import copies_in
from crewboard.folder.read.fault import Fault, causes_first
from crewboard.folder.read.file_read import NO_FILE, FileRead, gone
from crewboard.folder.read.files import (
    CREW,
    HAZARDS,
    SUPPLIES,
    VEHICLE,
    Role,
    day_of,
    month_of,
    role_of,
    stem_of,
)
from crewboard.folder.read.learned import FromEarlier
from crewboard.folder.read.losses import let_go_by
from crewboard.folder.read.memory import Memory
from crewboard.folder.read.one_file import read_bytes
from crewboard.folder.read.put_together import put_together, shown
from crewboard.folder.read.unread import (
    UnknownName,
    broken_file,
    is_ours,
    missing_component,
    named_by_the_logbook,
    not_given,
    unread_file,
    with_those_who_name,
)
from crewboard.logbook.day import Day
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.logged import Logged
from crewboard.order.unreadable import Unreadable
from crewboard.plan.plan import Plan
from crewboard.plan.vehicle import FORMAT

if TYPE_CHECKING:
    from pathlib import Path


class Folder:
    """A vehicle's folder as it was when last looked at.

    `plan` and `logbook` hold what could be read; `faults` tell the rest. Reading never writes.
    """

    def __init__(self, root: str | os.PathLike[str]) -> None:
        self._root = os.fspath(root)
        self._files: dict[str, FileRead] = {}
        self._imagined: dict[str, bytes | None] = {}
        self._told: tuple[Fault, ...] = ()
        self._unknown: tuple[UnknownName, ...] = ()
        self._of_sheets: tuple[Unreadable, ...] = ()
        self._let_go: set[str] = set()
        self._memory = Memory(self._root)
        self._learned = FromEarlier(self._root)
        self._lost: tuple[Unreadable, ...] = ()
        self._named: tuple[Unreadable, ...] = ()
        self.unreadable: tuple[Unreadable, ...] = ()
        self.logbook = Logbook()
        self.plan: Plan
        self.refresh(first=True)

    @property
    def root(self) -> Path:
        from pathlib import Path  # costs as much time as reading a year of days

        return Path(self._root)

    # --- looking -------------------------------------------------------------------------------

    def refresh(self, *, first: bool = False) -> frozenset[str]:
        """Read again what changed on the disk; the paths that did.

        Where the drive does not give a folder any more (it was pulled out), what was read stays.
        """
        self._unread: dict[str, OSError] = {}
        now = fingerprint(self._root, self._unread)
        if self._files and not now:  # nobody empties a folder: an empty place is left to a drive
            self._unread.setdefault("", FileNotFoundError(2, "the folder is empty"))
        if self._unread:
            lost = tuple(path for path in self._unread if path.endswith("/") or not path)
            known = {path: file.trace for path, file in self._files.items()}
            now = {p: trace for p, trace in known.items() if p.startswith(lost)} | now
        changed = set[str]()
        for path in now.keys() | self._files.keys():
            if self._is_new(path, now):
                before = self._files.pop(path, None)
                if path in now:
                    self._files[path] = self._read(path, now[path]).after(before)
                elif before is not None and is_ours(path) and path not in self._let_go:
                    self._files[path] = gone(path, before, self._unread.get(path))
                if before is None or self._files.get(path) != before:
                    changed.add(path)
        self._let_go.clear()
        roles = {role_of(path) for path in changed}
        if roles & {"day"} or first:
            self._bind_days(changed, first)
            changed |= self._no_longer_missed(now)
        if "readings" in roles:
            self._bind_logged()
        named_anew = "day" in roles and bool(self.not_read)
        plan_changed = roles - {"day", "stray", "readings", "other"} or named_anew or first
        if self._look_for_lost() or plan_changed:
            self._assemble()
        self.unreadable = self._unreadable()
        return frozenset(changed)

    def let_go(self, paths: Iterable[str]) -> None:
        """These files were taken out on purpose: at the next look nobody asks where they are."""
        paths = tuple(paths)
        self._let_go.update(paths)
        self._memory.forget(paths)

    def remember(self, *, make_folder: bool = False) -> None:
        """Keep for the next look what stands here now, where this folder can be written to."""
        if VEHICLE in self._files and not (self.newer or self.gone):
            self._memory.keep(make_folder=make_folder)
            self._learned.keep(self._files.keys())

    @property
    def missed(self) -> tuple[str, ...]:
        """The files, and the entries of days by their ids, that were here before and are gone."""
        return self._memory.missed(self._files)

    def _no_longer_missed(self, now: Mapping[str, Trace]) -> set[str]:
        """Read anew what was missed until somebody said that it may be gone."""
        missed = [path for path, file in self._files.items() if file.stands_in or file.lost]
        let_go = let_go_by(self.logbook) if missed else set()
        changed = {
            path for path in missed if not let_go.isdisjoint((path, *self._files[path].lost))
        }
        for path in changed:
            before = self._files.pop(path)
            if path in now:
                self._files[path] = self._read(path, now[path]).after(before.without(let_go))
        self._bind_days(changed, first=False)
        return changed

    def imagined(self, texts: Mapping[str, bytes | None]) -> Folder:
        """The folder as it would be with these files (None: without that file).

        What an edit would do, before it is made.
        """
        from copy import copy

        other = copy(self)
        other._files = dict(self._files)
        other._imagined = {**self._imagined, **texts}
        for path, data in texts.items():
            if data is None:
                other._files.pop(path, None)
            else:
                other._files[path] = read_bytes(path, NO_FILE, data)
        other._bind_days(texts, first=False)
        other._assemble()
        return other

    def _is_new(self, path: str, now: dict[str, Trace]) -> bool:
        if role_of(path) == "other":
            return False
        known, trace = self._files.get(path), now.get(path, NO_FILE)
        return known is None or known.trace != trace or (path in self._let_go and path not in now)

    def _bind_days(self, changed: Iterable[str], first: bool) -> None:
        """Put the changed days in the logbook, which stays in the order of the dates."""
        days = dict(self.logbook.days)
        for path in changed:
            day = day_of(path)
            if day is None:
                continue
            file = self._files.get(path)
            if file is not None and isinstance(file.shown, Day):
                first = first or day not in days
                days[day] = file.shown
            else:
                days.pop(day, None)
        days = {d: days[d] for d in sorted(days)} if first else days
        self.logbook = self.logbook._replace(days=days)

    def _bind_logged(self) -> None:
        """Put the rows of a data logger beside the days: as text, read when a hold asks."""
        texts = {m: file.shown for path, file in self._files.items() if (m := month_of(path))}
        kept = {month: text for month, text in texts.items() if isinstance(text, str)}
        self.logbook = self.logbook._replace(logged=Logged(kept))

    def why_not_read(self, path: str) -> str:
        """Why what is written to this path would not be read, empty where it would."""
        for folder, error in self._unread.items():
            if folder.endswith("/") and path.startswith(folder):
                return f"{folder} cannot be read: {error.strerror}"
        return ""

    def reads(self, path: str) -> bool:
        """Whether there is a file at this path, and it was read."""
        file = self._files.get(path)
        return file is not None and file.trace != NO_FILE

    # --- reading one file ----------------------------------------------------------------------

    def _read(self, path: str, trace: Trace) -> FileRead:
        try:
            data = read_at_most(self.path(path), self._root) or b""
        except OSError as error:
            from crewboard.folder.disk.whose import why_not_read

            reason, hint = why_not_read(self.path(path), error)
            sentence = f"the file cannot be read: {reason}"
            # What the drive does not give now it may give at the next look: no trace is kept.
            return FileRead(NO_FILE, None, (Fault(path, 1, 1, "unreadable", sentence, hint),))
        return self._learned.read(path, trace, data)

    def data(self, path: str) -> bytes:
        """The bytes of a file now, nothing where there is none."""
        if path in self._imagined:
            return self._imagined[path] or b""
        try:
            return read_at_most(self.path(path), self._root) or b""
        except OSError:
            return b""

    def path(self, relative: str) -> str:
        """Where a file of the folder lies on the disk."""
        return os.path.join(self._root, relative)

    # --- the whole -----------------------------------------------------------------------------

    def _assemble(self) -> None:
        whole = put_together(self._files, self._lost, self.logbook, self.data)
        self.plan = whole.plan
        self._told, self._unknown, self._of_sheets = whole.told, whole.unknown, whole.of_sheets

    @property
    def faults(self) -> list[Fault]:
        """The mistakes that reading found: first what cannot be read, with the number of those
        that only follow from it, then the others by file and line."""
        return causes_first(self.every_fault, self.not_read)

    @property
    def every_fault(self) -> list[Fault]:
        """Every mistake that reading found, also those that follow from another."""
        faults = [fault for file in self._files.values() for fault in file.faults]
        return [*self._told, *faults, *self._not_there()]

    @property
    def not_read(self) -> dict[str, Fault]:
        """What cannot be read, with the reason: the broken files, those that others need and that
        are not there, and folders (with a last `/`) that are none or that the drive holds back."""
        return self.broken | {fault.file: fault for fault in self._not_there()}

    def _not_there(self) -> list[Fault]:
        missing = self._missing()
        missing += [missing_component(one.file) for one in self._named]
        gone = self._memory.faults({fault.file for fault in missing})
        return [*not_given(self._unread, self._files), *missing, *gone]

    def _missing(self) -> list[Fault]:
        """Files that are not there, though others name what stands in them."""
        if self._files.keys() >= {VEHICLE, CREW, SUPPLIES, HAZARDS}:
            return []
        from crewboard.folder.read.missing import missing_files

        return missing_files(self._root, self._files, self.logbook, self._told)

    @property
    def broken(self) -> dict[str, Fault]:
        """The files of which nothing could be read, with the reason. Nothing writes over them."""
        return {path: file.faults[0] for path, file in self._files.items() if file.broken}

    def _look_for_lost(self) -> bool:
        """Whether other files are gone than at the look before: that were known, or are named."""
        self._memory.look(self._files, self._unread, self.logbook)
        self._named = tuple(named_by_the_logbook(self.logbook, self._files))
        lost = (
            *(unread_file(f.file, f.sentence, f.hint) for f in self._memory.faults(())),
            *(
                unread_file(path, str(error.strerror), f"mend {path}")
                for path, error in self._unread.items()
                if path and path[-1] != "/" and path not in self._files and is_ours(path)
            ),
            *self._named,
        )
        before, self._lost = self._lost, tuple({one.file: one for one in reversed(lost)}.values())
        return self._lost != before

    def _unreadable(self) -> tuple[Unreadable, ...]:
        """What of the plan and the logbook cannot be read, files first: it may hold work back."""
        missed = {fault.file for fault in self._memory.faults(())}
        whole = [
            broken_file(path, fault, remembered=path not in missed and self._was_read(path))
            for path, fault in self.not_read.items()
            if is_ours(path) and not (self.gone and path == "./") and not is_twin(path, self.data)
        ]
        files = {one.file for one in whole}
        whole += [one for one in self._lost if one.file not in files]
        whole += unread_strays(self._files, self.logbook)
        parts = [part for f in self._files.values() if not f.broken for part in f.parts]
        whole_and_names = with_those_who_name(whole, self._unknown)
        return tuple(dict.fromkeys((*whole_and_names, *parts, *self._of_sheets)))

    def _was_read(self, path: str) -> bool:
        if path.endswith("/"):
            return any(p.startswith(path) and f.shown is not None for p, f in self._files.items())
        return path in self._files and self._files[path].shown is not None

    @property
    def gone(self) -> bool:
        """The whole folder cannot be looked at any more; what was read of it is still here."""
        return "" in self._unread and bool(self._files)

    @property
    def newer(self) -> bool:
        """The folder's format is newer than this program: it is only shown."""
        return self.plan.vehicle.format > FORMAT

    @property
    def count(self) -> int:
        """How many TOML files there are, read or not."""
        return len(self._files)

    @property
    def own_hazards(self) -> Mapping[str, Any]:
        """What the crew's own hazards.toml says, by hazard id."""
        hazards: Mapping[str, Any] = shown(self._files, HAZARDS, {})
        return hazards

    @property
    def component_files(self) -> dict[str, ComponentFile]:
        """What each component's file says that can be read, by its stem."""
        return {
            stem_of(path): file.value
            for path, file in sorted(self._files.items())
            if isinstance(file.value, ComponentFile)
        }

    @property
    def plan_copies(self) -> dict[str, str]:
        """Copies of the plan's files that lie here: path -> the path of what it is a copy of."""
        return copies_in(self._root, self.component_files)

    def paths(self, role: Role) -> list[str]:
        """The files of one role, sorted."""
        return sorted(path for path in self._files if role_of(path) == role)
