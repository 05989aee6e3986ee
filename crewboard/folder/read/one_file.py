"""One file from its bytes: what it says, its mistakes, and what of it cannot be read."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from crewboard.folder.disk.watch import Trace
from crewboard.folder.read.component_file import decode_component
from crewboard.folder.read.copies import FOLD, copy_in_words, original_of
from crewboard.folder.read.day_file import decode_day
from crewboard.folder.read.empty import says_nothing
from crewboard.folder.read.fault import Fault, Misfit
from crewboard.folder.read.file_read import FileRead
from crewboard.folder.read.files import DAYS, HINT, Role, day_of, is_id, role_of, stem_of
from crewboard.folder.read.lists import decode_crew, decode_supplies
from crewboard.folder.read.piece_texts import parse_component
from crewboard.folder.read.usual_day import usual_day
from crewboard.folder.read.vehicle_file import decode_vehicle
from crewboard.folder.toml.day import plain_day
from crewboard.folder.toml.decode import parse_text
from crewboard.folder.toml.text import BrokenText, text_of
from crewboard.logbook.day import Day


def read_bytes(path: str, trace: Trace, data: bytes) -> FileRead:
    """The file at a path of the folder, of these bytes."""
    role = role_of(path)
    if role == "readings":
        return FileRead(trace, data.decode("utf-8", "replace"), ())
    if usual := _usual_day(path, data):
        return FileRead(trace, usual, ())
    values = _values(data, role, is_day=path.startswith(DAYS))
    clashes: list[Fault] = []
    if isinstance(values, BrokenText) and path.startswith(DAYS):
        values, clashes = _past_doubles(path, data, values)
    if isinstance(values, BrokenText):
        fault = Fault(path, values.line, values.column, "toml", values.sentence, values.hint)
        return FileRead(trace, None, (fault,))
    if nothing := says_nothing(role, data, values):
        return FileRead(trace, None, (Fault(path, 1, 1, *nothing), *clashes))
    value, misfits = _decode(path, role, values)
    faults = (*clashes, *located(path, data, misfits))
    if not faults:
        return FileRead(trace, value, ())
    from crewboard.folder.read.unread import unread_parts  # most files have no mistake

    return FileRead(trace, value, faults, unread_parts(path, values, misfits, faults))


def _usual_day(path: str, data: bytes) -> Day | None:
    """A day's file in which nothing can be wrong, as nearly all are."""
    day = day_of(path) if path.startswith(DAYS) else None
    return usual_day(day, data) if day is not None else None


def _values(data: bytes, role: Role, *, is_day: bool) -> dict[str, Any] | BrokenText:
    text = text_of(data)
    if isinstance(text, BrokenText):
        return text
    plain = plain_day(text) if is_day else None
    if plain is not None:
        return plain
    parse = parse_component if role == "component" else parse_text
    return parse(text.removeprefix("\ufeff"))


def _past_doubles(
    path: str, data: bytes, broken: BrokenText
) -> tuple[dict[str, Any] | BrokenText, list[Fault]]:
    """A day in which a merge left lines twice: what it says, and each line with two wordings."""
    from crewboard.folder.toml.day import parse_day

    day = parse_day(data)
    if isinstance(day, BrokenText):
        return broken, []
    hint = "the first counts; remove the wrong one"
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
        if not is_id(stem) and (original := original_of(path)):
            return None, [Misfit((), "copy", copy_in_words(path, original), FOLD)]
        if not is_id(stem):
            return None, [Misfit((), "bad-id", f'"{stem}" cannot name a component', HINT)]
        return decode_component(stem, values)
    if role == "day":
        day = day_of(path)
        assert isinstance(day, date)
        return decode_day(day, values)
    if role == "stray":
        sentence = "this file among the days is not named for a day"
        if _is_day(path.rpartition("/")[2]):
            sentence = "this is the file of a day, and stands in the wrong folder"
        hint = 'fold it in with "crewboard fold", or move it elsewhere'
        return values, [Misfit((), "stray-file", sentence, hint)]
    return values, []


def _is_day(name: str) -> bool:
    try:
        return date.fromisoformat(name.removesuffix(".toml")) is not None
    except ValueError:
        return False


def located(path: str, data: bytes, misfits: list[Misfit]) -> list[Fault]:
    """The mistakes with their places in the text."""
    if not misfits:
        return []
    from crewboard.folder.read import placing

    return placing.located(path, data, misfits)
