"""All files of a folder, read one by one, put together to the plan that they make."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from crewboard.folder.read.assemble import Parts, assemble
from crewboard.folder.read.component_file import ComponentFile
from crewboard.folder.read.copies import taken_out
from crewboard.folder.read.fault import Fault, Remark
from crewboard.folder.read.file_read import FileRead
from crewboard.folder.read.files import CREW, HAZARDS, SUPPLIES, VEHICLE, is_id, role_of, stem_of
from crewboard.folder.read.hazard_sheets import hazard_ids, read_sheets, reader_of
from crewboard.folder.read.named_in_logbook import component_of, crew_of, supplies_of
from crewboard.folder.read.one_file import located
from crewboard.folder.read.unread import UnknownName, unknown_names, unread_sheets
from crewboard.logbook.logbook import Logbook
from crewboard.order.unreadable import Unreadable
from crewboard.plan.plan import Plan
from crewboard.plan.vehicle import Vehicle


class Together(NamedTuple):
    """The plan, the mistakes between its files, and what of it cannot be known because of them."""

    plan: Plan
    told: tuple[Fault, ...]
    unknown: tuple[UnknownName, ...]
    of_sheets: tuple[Unreadable, ...]


def put_together(
    files: Mapping[str, FileRead],
    lost: Iterable[Unreadable],
    logbook: Logbook,
    data: Callable[[str], bytes],
) -> Together:
    """The plan of these files, by their paths, with what the logbook names in place of what cannot
    be read or is `lost`. `data` gives the bytes of a file in which a mistake has to be found."""
    components: dict[str, ComponentFile] = {
        stem_of(path): file.shown
        if isinstance(file.shown, ComponentFile)
        else component_of(stem_of(path), logbook)
        for path, file in sorted(files.items())
        if role_of(path) == "component" and is_id(stem_of(path))
    }
    copies = taken_out(components)
    for one in lost:
        if one.kind == "component" and is_id(one.about):
            components.setdefault(one.about, component_of(one.about, logbook))
    wanted = {h for file in components.values() for t in file.tasks.values() for h in t.hazards}
    own = shown(files, HAZARDS, {})
    crew = crew_of(files.get(CREW), logbook)
    known = hazard_ids(own)
    minors = any(person.adult is False or person.eighteen_on for person in crew.values())
    vehicle: Vehicle = shown(files, VEHICLE, Vehicle("Unnamed vehicle"))
    reader = reader_of(vehicle)
    sheets = read_sheets(wanted & set(known), own, minors=minors, crew=crew, reader=reader)
    parts = Parts(
        vehicle,
        components,
        crew,
        supplies_of(files.get(SUPPLIES), logbook),
        sheets.hazards,
        frozenset(known),
        sheets.longest_clock,
        sheets.every,
    )
    plan, remarks = assemble(parts)
    placed = _placed(remarks, data)
    of_sheets = located(HAZARDS, data(HAZARDS), sheets.misfits) if sheets.misfits else []
    return Together(
        plan,
        (*placed, *of_sheets, *copies),
        tuple(unknown_names(remarks, placed)),
        tuple(unread_sheets(sheets.misfits, of_sheets)),
    )


def shown(files: Mapping[str, FileRead], path: str, otherwise: Any) -> Any:
    """What a file says, as read now or last."""
    file = files.get(path)
    return otherwise if file is None or file.shown is None else file.shown


def _placed(remarks: Sequence[Remark], data: Callable[[str], bytes]) -> list[Fault]:
    """The mistakes between files, each with its place."""
    if not remarks:
        return []
    from crewboard.folder.read.placing import Placing

    placing = Placing(data)
    return [placing.fault(remark) for remark in remarks]
