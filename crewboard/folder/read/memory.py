"""What the folder was known to hold: read at the first look, kept at each later one."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping

from crewboard.folder.disk.known import (
    StoodHere,
    known_text,
    read_known,
    standing_in,
    standing_in_last_copy,
    write_known,
    written_names,
)
from crewboard.folder.read.component_file import ComponentFile
from crewboard.folder.read.fault import Fault
from crewboard.folder.read.file_read import FileRead
from crewboard.folder.read.files import DAYS, role_of
from crewboard.folder.read.losses import Loss, losses
from crewboard.logbook.day import Day
from crewboard.logbook.logbook import Logbook

_FEW = 3
"""As many lost days are told one by one: of more there is one cause."""


class Memory:
    """What is known of a folder, and what is missed of it."""

    def __init__(self, root: str) -> None:
        self._root = root
        self._text = read_known(root)
        self._known: StoodHere | None = None
        self._who = "at the last look"
        self.losses: tuple[Loss, ...] = ()

    def look(
        self, files: Mapping[str, FileRead], held_back: Collection[str], logbook: Logbook
    ) -> bool:
        """Look for what is gone; whether it is other than at the look before. `held_back` are
        files and folders of which the drive says nothing: they are told without this."""
        now = _standing(files)
        if self._known is None and self._text and known_text(now) == self._text:
            self._known = now  # nearly always: nothing came, nothing went
            return False
        if self._known is None:
            self._known = self._known_at_first()
        before, stood = self.losses, self._known.written
        known = {path: names for path, names in stood.items() if not _below(path, held_back)}
        self.losses = losses(StoodHere(known), now, files.keys(), logbook, self._who)
        missed = {loss.path: frozenset(map(_short, loss.entries)) for loss in self.losses}
        unread = {p: names for p, names in stood.items() if p in files or _below(p, held_back)}
        gone = {path: stood[path] for path in missed if path not in now}
        self._known = StoodHere({**unread, **now.written, **gone})
        for path in missed.keys() & now.written.keys():
            self._known.written[path] = written_names(now[path] | missed[path])
        return self.losses != before

    def _known_at_first(self) -> StoodHere:
        known = standing_in(self._text)
        if not known.written:
            known, day = standing_in_last_copy(self._root)
            self._who = f"in the copy of {day}"
        written = known.written.items()
        return StoodHere({path: ids for path, ids in written if role_of(path) in _REMEMBERED})

    def forget(self, paths: Iterable[str]) -> None:
        """These files were taken away, or changed, on purpose."""
        for path in paths:
            (self._known or StoodHere()).written.pop(path, None)

    def keep(self, *, make_folder: bool) -> None:
        """Write down what is known, for the next look. Never raises."""
        text = known_text(self._known or StoodHere())
        if text != self._text:
            write_known(self._root, text, make_folder=make_folder)
            self._text = text

    def missed(self, files: Mapping[str, FileRead]) -> tuple[str, ...]:
        """The files, and the entries by their ids, that were here before and are gone."""
        paths = [path for path, file in files.items() if file.stands_in]
        ids = [entry_id for file in files.values() for entry_id in file.lost]
        for loss in self.losses:
            paths += [loss.path] if loss.whole else []
            ids += [] if loss.whole else sorted(loss.entries)
        return tuple(dict.fromkeys((*paths, *ids)))

    def faults(self, told: Collection[str]) -> list[Fault]:
        """What is missed, but for the files that are told otherwise; of many days one sentence."""
        lost = [loss for loss in self.losses if loss.path not in told]
        days = [loss for loss in lost if loss.whole and role_of(loss.path) == "day"]
        if len(days) <= _FEW:
            return [loss.fault for loss in lost]
        others = [loss.fault for loss in lost if loss not in days]
        first, last = days[0].path[-15:-5], days[-1].path[-15:-5]
        sentence = f"{len(days)} days that were here {self._who}, {first} to {last}, are gone"
        return [days[0].fault._replace(file=DAYS, sentence=sentence), *others]


_REMEMBERED = frozenset({"vehicle", "crew", "supplies", "hazards", "component", "day", "readings"})


def _standing(files: Mapping[str, FileRead]) -> StoodHere:
    """What stands in each file that can be read."""
    return StoodHere(
        {
            path: _names(file.value)
            for path, file in files.items()
            if file.value is not None and role_of(path) in _REMEMBERED
        }
    )


def _names(value: object) -> str:
    if isinstance(value, Day):
        off = value.put_off
        return off.ids if off is not None else written_names(value.ids)
    if isinstance(value, ComponentFile):
        ids = (full.partition("/")[2] for full in (*value.components, *value.tasks))
        return written_names(frozenset(filter(None, ids)))
    return ""


def _short(some_id: str) -> str:
    """ "lay" for the task deck/lay, "bend/3" for arches/bend/3; an entry's id as it is."""
    return some_id.partition("/")[2] or some_id


def _below(path: str, folders: Collection[str]) -> bool:
    return path.startswith(tuple(folders)) if folders else False
