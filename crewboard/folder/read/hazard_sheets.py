"""The hazard sheets: those that come with the program, changed and added to by the crew's own.

Reading is by name: a work day asks for the sheets of its tasks, and only those are read.
"""

import os
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import Any, NamedTuple

from crewboard.folder.read.fault import Misfit
from crewboard.folder.read.hazard_decode import decode_sheet, tell_loose_ends
from crewboard.folder.read.table import Table, spoken_type
from crewboard.folder.toml.decode import parse_toml
from crewboard.folder.toml.text import BrokenText
from crewboard.plan.hazard import Hazard, longest_clock
from crewboard.plan.vehicle import Vehicle
from crewboard.plan.volunteer import Volunteer

_SHEETS = os.path.join(os.path.dirname(os.path.dirname(os.path.dirname(__file__))), "hazards")
# What belongs to every work day is always there, and what is for whoever is alone in the shop;
# what is for under-18s, where the crew has any.
EVERY_DAY = ("the-shop", "working-alone")
FOR_MINORS = ("young-people",)
# Minutes: the longest protective clock of the sheets that come with the program. A test holds the
# sheets to it, so that what happened longer ago is known to be over without reading them.
LONGEST_CLOCK = 1440


class Reader(NamedTuple):
    """For whom the sheets are read: units and jurisdiction of the folder."""

    units: str = "metric"
    here: str = ""

    def reads(self, sheet: Hazard) -> Hazard:
        """The sheet as it is told to this reader."""
        return sheet._replace(units=self.units, here=self.here)


ANYBODY = Reader()


def reader_of(vehicle: Vehicle) -> Reader:
    """Who reads the sheets in the folder of this vehicle."""
    return Reader(vehicle.units, vehicle.jurisdiction)


class Sheets(NamedTuple):
    """The hazards asked for, by id; mistakes in the crew's file; ids that no sheet has."""

    hazards: Mapping[str, Hazard]
    misfits: list[Misfit]
    unknown: tuple[str, ...]
    longest_clock: int  # minutes
    every: Mapping[str, Hazard] = {}  # all that there are, whether asked for or not


class Shelf(Mapping[str, Hazard]):
    """The sheets asked for. One that comes with the program is read when it is first looked at:
    most mornings nobody looks at most of them.

    Any other sheet that there is can be had by its id too: the logbook may tell of a danger that no
    task names any more.
    """

    __slots__ = ("_others", "_reader", "_sheets")

    def __init__(
        self,
        sheets: Mapping[str, Hazard | None],
        others: Mapping[str, Hazard] | None = None,
        reader: Reader = ANYBODY,
    ) -> None:
        self._reader = reader
        self._sheets = dict(sheets)  # None: not looked at yet
        self._others = dict(others or {})

    def __getitem__(self, hazard_id: str) -> Hazard:
        known = self._sheets.get(hazard_id) or self._others.get(hazard_id)
        if known is not None:
            return known
        sheet = built_in_sheet(hazard_id) if hazard_id in built_in_ids() else None
        if sheet is None:
            raise KeyError(hazard_id)
        sheet = self._reader.reads(sheet)
        (self._sheets if hazard_id in self._sheets else self._others)[hazard_id] = sheet
        return sheet

    def __contains__(self, hazard_id: object) -> bool:
        return hazard_id in self._sheets

    def __iter__(self) -> Iterator[str]:
        return iter(self._sheets)

    def __len__(self) -> int:
        return len(self._sheets)


@cache
def built_in_ids() -> tuple[str, ...]:
    """The ids of the sheets that come with the program, without reading them."""
    names = (name.removesuffix(".toml") for name in os.listdir(_SHEETS) if name.endswith(".toml"))
    return tuple(sorted(names))


def hazard_ids(own: Mapping[str, Any] | None = None) -> tuple[str, ...]:
    """Every id that a task may name: built in, and from the crew's own file."""
    return tuple(dict.fromkeys((*built_in_ids(), *(own or ()))))


def read_sheets(
    wanted: Iterable[str] | None,
    own: Mapping[str, Any] | None = None,
    *,
    minors: bool = False,
    crew: Mapping[str, Volunteer] | None = None,
    reader: Reader = ANYBODY,
) -> Sheets:
    """The hazards of these ids, or all where `wanted` is None.

    `own` holds the values of the crew's `hazards.toml`; all its sheets are looked at for mistakes
    (key paths are those of that file), whether asked for or not. `minors`: the crew has under-18s.
    Where the `crew` is known, only one of its leads may decide that a sheet asks less. The sheets
    are told to the `reader`.
    """
    own = own or {}
    built_in = built_in_ids()
    known = tuple(dict.fromkeys((*built_in, *own)))
    asked = known if wanted is None else (*EVERY_DAY, *(FOR_MINORS if minors else ()), *wanted)
    hazards: dict[str, Hazard | None] = {}
    others: dict[str, Hazard] = {}
    misfits: list[Misfit] = []
    for hazard_id in dict.fromkeys((*asked, *own)):
        if hazard_id not in own:
            if hazard_id in built_in:
                hazards[hazard_id] = None
            continue
        sheet = _own_sheet(hazard_id, own[hazard_id], known, hazard_id in built_in, misfits, crew)
        if sheet is not None:
            (hazards if hazard_id in asked else others)[hazard_id] = reader.reads(sheet)
    unknown = tuple(dict.fromkeys(name for name in asked if name not in known))
    own_sheets = [sheet for sheet in hazards.values() if sheet is not None]
    longest = max(LONGEST_CLOCK, longest_clock([*own_sheets, *others.values()]))
    every = Shelf({**dict.fromkeys(built_in), **hazards, **others}, reader=reader)
    return Sheets(Shelf(hazards, others, reader), misfits, unknown, longest, every)


def _own_sheet(
    hazard_id: str,
    values: Any,
    known: tuple[str, ...],
    changes: bool,
    misfits: list[Misfit],
    crew: Mapping[str, Volunteer] | None,
) -> Hazard | None:
    """A sheet of the crew's own file, or its changes to one that comes with the program."""
    # Asked of the listing, so that letter case means the same on every file system.
    built_in = built_in_sheet(hazard_id) if changes else None
    if not isinstance(values, dict):
        sentence = f'"{hazard_id}" is {spoken_type(values)}'
        hint = f"write a table [{hazard_id}]"
        misfits.append(Misfit((hazard_id,), "wrong-type", sentence, hint))
        return built_in
    table = Table(values, (hazard_id,), misfits)
    if not table.well_named():
        return None
    if built_in is not None:
        from crewboard.folder.read.hazard_changes import changed_by  # few crews change a sheet

        sheet = changed_by(built_in, table, crew)
    else:
        sheet = decode_sheet(hazard_id, table, own=True)
    table.done()
    tell_loose_ends(sheet, table, known)
    return sheet


def built_in_sheet(hazard_id: str) -> Hazard | None:
    """The sheet that comes with the program, None where there is none of that id."""
    try:
        with open(os.path.join(_SHEETS, f"{hazard_id}.toml"), "rb") as file:
            values = parse_toml(file.read())
    except OSError:
        return None
    if isinstance(values, BrokenText):
        raise ValueError(f"{hazard_id}.toml: {values.line}:{values.column} {values.sentence}")
    return decode_sheet(hazard_id, Table(values, (), []))
