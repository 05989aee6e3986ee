"""Files that are not there, though others name what stands in them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Container, Iterable, Iterator

from crewboard.folder.read.copies import copy_beside
from crewboard.folder.read.fault import MISSING, Fault
from crewboard.folder.read.files import COMPONENTS, CREW, HAZARDS, SUPPLIES, VEHICLE
from crewboard.logbook.logbook import Logbook

_NEW = "crewboard new DIR makes a folder for a vehicle"
_HINT = "bring it back from a copy (crewboard copies lists them)"


def missing_files(
    root: str, files: Collection[str], logbook: Logbook, told: Iterable[Fault]
) -> list[Fault]:
    """One fault for each file that others need: told of the names that only it could hold. The
    crew's own hazard sheets are missed where a copy of them lies there."""
    missing = {fault.file: fault for fault in _missing(files, logbook, told)}
    for path in {HAZARDS, *missing}.difference(files):
        if copy := copy_beside(root, path):
            sentence = f"there is no {path}, and {copy} seems to be a copy of it"
            missing[path] = Fault(path, 1, 1, MISSING, sentence, "crewboard fold brings it there")
    return list(missing.values())


def missing_components(files: Container[str], faults: Iterable[Fault]) -> list[Fault]:
    """One for each component's file that is not there, though several names stand for what was in
    it. A single one may as well be typed wrongly."""
    named = Counter(
        file
        for fault in faults
        for file in fault.rests_on
        if file.startswith(COMPONENTS) and file != COMPONENTS and file not in files
    )
    why = "names in other files stand for what was in it"
    return [_fault(file, why) for file, times in named.items() if times > 1]


def _missing(files: Collection[str], logbook: Logbook, told: Iterable[Fault]) -> Iterator[Fault]:
    if VEHICLE not in files:
        sentence = f"there is no {VEHICLE} in this folder"
        yield Fault(VEHICLE, 1, 1, MISSING, sentence, _HINT if files else _NEW)
    if CREW not in files and any(e.by for day in logbook.days.values() for e in day.entries):
        yield _fault(CREW, "the logbook names people")
    if SUPPLIES not in files and any(SUPPLIES in fault.rests_on for fault in told):
        yield _fault(SUPPLIES, "tasks name supplies")


def _fault(file: str, why: str) -> Fault:
    return Fault(file, 1, 1, MISSING, f"there is no {file}, and {why}", _HINT)
