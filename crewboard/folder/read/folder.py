"""Reading a vehicle's folder: all of it once, then only what changed."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from crewboard.folder.disk.read import read_at_most
from crewboard.folder.disk.watch import Trace, fingerprint
from crewboard.folder.read.assemble import Parts, assemble
from crewboard.folder.read.component_file import ComponentFile, decode_component, unreadable
from crewboard.folder.read.day_file import decode_day, usual_day
from crewboard.folder.read.empty import says_nothing
from crewboard.folder.read.fault import MISSING, Fault, Misfit, Remark, causes_first
from crewboard.folder.read.files import (
    CREW,
    DAYS,
    HAZARDS,
    HINT,
    SUPPLIES,
    VEHICLE,
    Role,
    day_of,
    is_id,
    month_of,
    role_of,
    stem_of,
)
from crewboard.folder.read.hazard_sheets import hazard_ids, read_sheets
from crewboard.folder.read.lists import decode_crew, decode_supplies
from crewboard.folder.read.vehicle_file import decode_vehicle
from crewboard.folder.toml.day import plain_day
from crewboard.folder.toml.decode import parse_text
from crewboard.folder.toml.text import BrokenText, text_of
from crewboard.logbook.day import Day
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.logged import Logged
from crewboard.plan.plan import Plan
from crewboard.plan.vehicle import FORMAT, Vehicle

if TYPE_CHECKING:
    from pathlib import Path

_NO_FILE = Trace(0, 0, 0)


class FileRead(NamedTuple):
    """One file as it was read: what it says (None where it is broken), and its mistakes."""

    trace: Trace
    value: Any
    faults: tuple[Fault, ...]


class Folder:
    """A vehicle's folder as it was when last looked at.

    `plan` and `logbook` hold what could be read; `faults` tell the rest. Reading never writes.
    """

    def __init__(self, root: str | os.PathLike[str]) -> None:
        self._root = os.fspath(root)
        self._files: dict[str, FileRead] = {}
        self._imagined: dict[str, bytes | None] = {}
        self._told: tuple[Fault, ...] = ()
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
            lost = tuple(self._unread)
            known = {path: file.trace for path, file in self._files.items()}
            now = {p: trace for p, trace in known.items() if p.startswith(lost)} | now
        changed = set[str]()
        for path in now.keys() | self._files.keys():
            if self._is_new(path, now):
                before = self._files.pop(path, None)
                if path in now:
                    self._files[path] = self._read(path, now[path])
                if before is None or self._files.get(path) != before:
                    changed.add(path)
        roles = {role_of(path) for path in changed}
        if roles & {"day"} or first:
            self._bind_days(changed, first)
        if "readings" in roles:
            self._bind_logged()
        if roles - {"day", "stray", "readings", "other"} or first:
            self._assemble()
        return frozenset(changed)

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
                other._files[path] = other._decoded(path, _NO_FILE, data)
        other._bind_days(texts, first=False)
        other._assemble()
        return other

    def _is_new(self, path: str, now: dict[str, Trace]) -> bool:
        if role_of(path) == "other":
            return False
        known = self._files.get(path)
        return known is None or known.trace != now.get(path, _NO_FILE)

    def _bind_days(self, changed: Iterable[str], first: bool) -> None:
        """Put the changed days in the logbook, which stays in the order of the dates."""
        days = dict(self.logbook.days)
        for path in changed:
            day = day_of(path)
            if day is None:
                continue
            file = self._files.get(path)
            if file is not None and isinstance(file.value, Day):
                first = first or day not in days
                days[day] = file.value
            else:
                days.pop(day, None)
        days = {d: days[d] for d in sorted(days)} if first else days
        self.logbook = self.logbook._replace(days=days)

    def _bind_logged(self) -> None:
        """Put the rows of a data logger beside the days: as text, read when a hold asks."""
        texts = {m: file.value for path, file in self._files.items() if (m := month_of(path))}
        kept = {month: text for month, text in texts.items() if isinstance(text, str)}
        self.logbook = self.logbook._replace(logged=Logged(kept))

    # --- reading one file ----------------------------------------------------------------------

    def _read(self, path: str, trace: Trace) -> FileRead:
        try:
            data = read_at_most(self.path(path), self._root) or b""
        except OSError as error:
            sentence = f"the file cannot be read: {error.strerror}"
            # What the drive does not give now it may give at the next look: no trace is kept.
            return FileRead(_NO_FILE, None, (Fault(path, 1, 1, "unreadable", sentence),))
        return self._decoded(path, trace, data)

    def _decoded(self, path: str, trace: Trace, data: bytes) -> FileRead:
        if role_of(path) == "readings":
            return FileRead(trace, data.decode("utf-8", "replace"), ())
        if usual := _usual_day(path, data):
            return FileRead(trace, usual, ())
        values = _values(data, is_day=path.startswith(DAYS))
        clashes: list[Fault] = []
        if isinstance(values, BrokenText) and path.startswith(DAYS):
            values, clashes = _past_doubles(path, data, values)
        if isinstance(values, BrokenText):
            fault = Fault(path, values.line, values.column, "toml", values.sentence, values.hint)
            return FileRead(trace, None, (fault,))
        if nothing := says_nothing(role_of(path), data, values):
            return FileRead(trace, None, (Fault(path, 1, 1, *nothing), *clashes))
        value, misfits = _decode(path, role_of(path), values)
        return FileRead(trace, value, (*clashes, *_located(path, data, misfits)))

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

    def _value(self, path: str, otherwise: Any) -> Any:
        file = self._files.get(path)
        return otherwise if file is None or file.value is None else file.value

    def _assemble(self) -> None:
        component_files: dict[str, ComponentFile] = {
            stem_of(path): file.value
            if isinstance(file.value, ComponentFile)
            else unreadable(stem_of(path))
            for path, file in sorted(self._files.items())
            if role_of(path) == "component" and is_id(stem_of(path))
        }
        wanted = {h for f in component_files.values() for t in f.tasks.values() for h in t.hazards}
        own, crew = self._value(HAZARDS, {}), self._value(CREW, {})
        known = hazard_ids(own)
        minors = any(
            volunteer.adult is False or volunteer.eighteen_on for volunteer in crew.values()
        )
        sheets = read_sheets(wanted & set(known), own, minors=minors)
        parts = Parts(
            self._value(VEHICLE, Vehicle("Unnamed vehicle")),
            component_files,
            crew,
            self._value(SUPPLIES, {}),
            sheets.hazards,
            frozenset(known),
            sheets.longest_clock,
        )
        self.plan, remarks = assemble(parts)
        faults = [*self._placed(remarks), *self._faults_in(HAZARDS, sheets.misfits)]
        if VEHICLE not in self._files:
            sentence = "there is no vehicle.toml in this folder"
            hint = "crewboard new DIR makes a folder for a vehicle"
            if self._files:
                hint = "bring it back from a copy (crewboard copies lists them)"
            faults.insert(0, Fault(VEHICLE, 1, 1, MISSING, sentence, hint))
        self._told = tuple(faults)

    def _faults_in(self, path: str, misfits: list[Misfit]) -> list[Fault]:
        return _located(path, self.data(path), misfits) if misfits else []

    def _placed(self, remarks: list[Remark]) -> list[Fault]:
        """The mistakes between files, each with its place."""
        if not remarks:
            return []
        from crewboard.folder.read.placing import Placing

        placing = Placing(self.data)
        return [placing.fault(remark) for remark in remarks]

    @property
    def faults(self) -> list[Fault]:
        """The mistakes that reading found: first what cannot be read, with the number of those
        that only follow from it, then the others by file and line."""
        return causes_first(self.every_fault, self.not_read)

    @property
    def every_fault(self) -> list[Fault]:
        """Every mistake that reading found, also those that follow from another."""
        faults = [fault for file in self._files.values() for fault in file.faults]
        return [*self._told, *faults, *self._not_given(), *self._missing()]

    @property
    def not_read(self) -> dict[str, Fault]:
        """What cannot be read, with the reason: the broken files, those that others need and that
        are not there, and folders (with a last `/`) that are none or that the drive holds back."""
        missing = (fault for fault in (*self._told, *self._missing()) if fault.code == MISSING)
        return self.broken | {fault.file: fault for fault in (*self._not_given(), *missing)}

    def _not_given(self) -> list[Fault]:
        return [
            Fault(path or "./", 1, 1, "unreadable", f"this cannot be read: {error.strerror}")
            for path, error in self._unread.items()
            if path not in self._files
        ]

    def _missing(self) -> list[Fault]:
        """Files that are not there, though others name what stands in them."""
        if CREW in self._files and SUPPLIES in self._files:
            return []
        from crewboard.folder.read.missing import missing_files

        return missing_files(self._files, self.logbook, self._told)

    @property
    def broken(self) -> dict[str, Fault]:
        """The files of which nothing could be read, with the reason. Nothing writes over them."""
        return {
            path: f.faults[0] for path, f in self._files.items() if f.value is None and f.faults
        }

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
        hazards: Mapping[str, Any] = self._value(HAZARDS, {})
        return hazards

    @property
    def copies(self) -> dict[str, str]:
        """Copies of the plan's files: path -> the path of the file that it is a copy of."""
        from crewboard.folder.read.copies import copies_in

        return copies_in(self._root, self.component_files)

    @property
    def component_files(self) -> dict[str, ComponentFile]:
        """What each component's file says that can be read, by its stem."""
        return {
            stem_of(path): file.value
            for path, file in sorted(self._files.items())
            if isinstance(file.value, ComponentFile)
        }

    def paths(self, role: Role) -> list[str]:
        """The files of one role, sorted."""
        return sorted(path for path in self._files if role_of(path) == role)


def _usual_day(path: str, data: bytes) -> Day | None:
    """A day's file in which nothing can be wrong, as nearly all are."""
    day = day_of(path) if path.startswith(DAYS) else None
    text = text_of(data) if day is not None else None
    return usual_day(day, text) if day is not None and isinstance(text, str) else None


def _values(data: bytes, *, is_day: bool) -> dict[str, Any] | BrokenText:
    text = text_of(data)
    if isinstance(text, BrokenText):
        return text
    plain = plain_day(text) if is_day else None
    return plain if plain is not None else parse_text(text.removeprefix("\ufeff"))


def _past_doubles(
    path: str, data: bytes, broken: BrokenText
) -> tuple[dict[str, Any] | BrokenText, list[Fault]]:
    """A day in which a merge left lines twice: what it says, and each line with two wordings."""
    from crewboard.folder.toml.day import parse_day

    day = parse_day(data)
    if isinstance(day, BrokenText):
        return broken, []
    hint = "the first counts; take out the wrong one"
    return day.values, [
        Fault(
            path,
            clash.line,
            1,
            "two-wordings",
            f'"{clash.key}" stands here with other words than on line {clash.first_line}',
            hint,
        )
        for clash in day.clashes
    ]


def _decode(path: str, role: Role, values: dict[str, Any]) -> tuple[Any, list[Misfit]]:
    by_role: dict[Role, Callable[[dict[str, Any]], tuple[Any, list[Misfit]]]] = {
        "vehicle": decode_vehicle,
        "crew": decode_crew,
        "supplies": decode_supplies,
    }
    if role in by_role:
        return by_role[role](values)
    if role == "component":
        stem = stem_of(path)
        if not is_id(stem):
            return None, [Misfit((), "bad-id", f'"{stem}" cannot name a component', HINT)]
        return decode_component(stem, values)
    if role == "day":
        day = day_of(path)
        assert isinstance(day, date)
        return decode_day(day, values)
    if role == "stray":
        sentence = "this file among the days is not named for a day"
        hint = 'fold it in with "crewboard fold", or move it elsewhere'
        return values, [Misfit((), "stray-file", sentence, hint)]
    return values, []


def _located(path: str, data: bytes, misfits: list[Misfit]) -> list[Fault]:
    if not misfits:
        return []
    from crewboard.folder.read.placing import located

    return located(path, data, misfits)
