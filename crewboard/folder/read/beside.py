"""Files that lie beside those which are read: copies of them, and days where no day is read from.

What stands in such a file alone is not known to the board, so it may hold work back; a copy that
says nothing else holds nothing back.
"""

from collections.abc import Callable, Iterator, Mapping

from crewboard.folder.read.copies import original_of
from crewboard.folder.read.file_read import FileRead
from crewboard.folder.read.files import role_of
from crewboard.folder.read.unread import broken_file, unread_file
from crewboard.logbook.logbook import Logbook
from crewboard.order.unreadable import Unreadable

_TO_FOLD = "crewboard fold DIR shows them, and with --do-it brings them to their day"


def is_twin(path: str, data: Callable[[str], bytes]) -> bool:
    """Whether a component's file is a copy that says the same as its original. `data` gives the
    bytes of a file, nothing where there is none."""
    original = original_of(path) if role_of(path) == "component" else ""
    return bool(original) and data(path) == data(original) != b""


def unread_strays(files: Mapping[str, FileRead], logbook: Logbook) -> Iterator[Unreadable]:
    """The files among the days that are not named for their day, and have entries that stand in no
    day: copies that a sync left, days in the wrong folder, days that an editor put aside."""
    strays = {path: file for path, file in files.items() if role_of(path) == "stray"}
    if not strays:
        return
    known = {entry_id for day in logbook.days.values() for entry_id in day.ids}
    for path, file in strays.items():
        if file.broken:
            yield broken_file(path, file.faults[0], remembered=False)
            continue
        entries = file.value.get("entries")
        alone = [i for i in entries if i not in known] if isinstance(entries, dict) else []
        if alone:
            count = "1 entry stands" if len(alone) == 1 else f"{len(alone)} entries stand"
            yield unread_file(path, f"no day is read from there, and {count} in it alone", _TO_FOLD)
