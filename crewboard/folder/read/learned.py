"""What an earlier look learned of files that are still the same byte for byte.

Of a day: its ids, what the lines of its record name, and where the lines of the work stand; of a
component: its tables of pieces. So thousands of lines that were found right once are not gone
through at each look.

It is kept on this computer and not in the folder: what a folder brings along could say anything of
the days in it. It counts for files of the same hash, as read by this very program; a damaged one is
passed over, and made again.
"""

from __future__ import annotations

import os
from collections.abc import Collection, Iterable
from datetime import date
from functools import partial

try:
    from _blake2 import blake2b  # the whole of hashlib takes longer than all the hashes of a folder
except ImportError:
    from hashlib import blake2b

from crewboard.folder.disk.watch import Trace
from crewboard.folder.read.component_file import ComponentFile, decode_component
from crewboard.folder.read.file_read import FileRead
from crewboard.folder.read.files import day_of, stem_of
from crewboard.folder.read.one_file import read_bytes
from crewboard.folder.read.piece_texts import FEWEST, RunOfTables, runs_in
from crewboard.folder.read.usual_day import entries_in, entry_in
from crewboard.folder.toml.decode import parse_text
from crewboard.folder.toml.text import BrokenText
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.put_off import Names, PutOff
from crewboard.on_this_computer import keep_learned, learned_of
from crewboard.plan.piece import Piece

MOST_BYTES = 8_000_000
"""Of all that is kept of one folder: some ten times as much as ten thousand findings need."""
_BETWEEN = "\n\n"  # what is learned of two files
_ROOM = os.path.dirname(os.path.dirname(os.path.dirname(__file__)))
_RULES = ("folder/read", "folder/toml", "logbook", "logbook/record", "plan")
"""Where it stands what a right line is, and how it is read."""


class FromEarlier:
    """What is known of a folder's files by their bytes, and what is learned of them now.

    `worth` is how many lines and tables have to be new before it is worth keeping them.
    """

    worth = 200

    def __init__(self, root: str) -> None:
        self._name = _digest(f"{os.path.realpath(root)}\n{_ROOM}".encode("utf-8", "replace"))
        self._of = _kept(self._name)
        self._new = 0

    def read(self, path: str, trace: Trace, data: bytes) -> FileRead:
        """The file at a path of the folder, of these bytes: what `read_bytes` gives."""
        known = self._known(path, data)
        if known is not None:
            return FileRead(trace, known, ())
        read = read_bytes(path, trace, data)
        if not read.faults:
            self._learn(path, data, read.value)
        return read

    def _known(self, path: str, data: bytes) -> Day | ComponentFile | None:
        said = self._of.get(path)
        if said is None:
            return None
        digest, _, told = said.partition("\t")
        if digest != _digest(data):
            return None
        day = day_of(path)
        return _day(day, data, told) if day is not None else _component(stem_of(path), data, told)

    def _learn(self, path: str, data: bytes, value: object) -> None:
        """Remember what of a file without a mistake it takes long to find out."""
        if isinstance(value, Day) and value.put_off is not None:
            self._new += value.put_off.ids.count(" ") + 1 - len(value.at_hand)
            told = _told_of_day(data, value, value.put_off)
        elif isinstance(value, ComponentFile) and len(value.pieces) >= FEWEST:
            text = data.decode().removeprefix("\ufeff")
            runs = runs_in(text)
            self._new += sum(len(run.tables) for run in runs)
            told = _told_of_pieces(stem_of(path), value, runs)
        else:
            told = ""
        if told:
            self._of[path] = f"{_digest(data)}\t{told}"

    def keep(self, paths: Collection[str]) -> None:
        """Keep it for the next look, where enough of it is new. Never raises."""
        if self._new < self.worth:
            return
        self._new = 0
        said = [f"{path}\t{told}" for path, told in sorted(self._of.items()) if path in paths]
        body = _BETWEEN.join((_rules(), *said)).encode()
        if len(body) <= MOST_BYTES:
            keep_learned(self._name, _digest(body).encode() + b"\n" + body)


def _kept(name: str) -> dict[str, str]:
    """What is kept, by path; nothing where it is damaged, or other rules found it right."""
    digest, _, body = learned_of(name).partition(b"\n")
    if not body or digest != _digest(body).encode():
        return {}
    rules, *said = body.decode().split(_BETWEEN)
    if rules != _rules():
        return {}
    return {path: told for path, _, told in (one.partition("\t") for one in said)}


def _digest(data: bytes) -> str:
    return blake2b(data, digest_size=16).hexdigest()


def _rules() -> str:
    """What changes when the program does: an older one may have taken for right what is not."""
    try:
        files = [file for room in _RULES for file in os.scandir(os.path.join(_ROOM, room))]
        states = sorted((f.path, f.stat().st_mtime_ns, f.stat().st_size) for f in files)
    except OSError:  # a program in an archive, say
        return os.urandom(8).hex()
    return _digest(repr(states).encode("utf-8", "backslashreplace"))


# --- a day ---------------------------------------------------------------------------------------


def _told_of_day(data: bytes, day: Day, off: PutOff) -> str:
    """Where the lines of the work stand; every id; then a line for each kind of what is named."""
    of_work = {entry.id.encode() for entry in day.at_hand}
    places, end = list[str](), 0
    for line in data.split(b"\n"):
        start, end = end, end + len(line) + 1
        if line.partition(b" = ")[0] in of_work:
            places.append(f"{start}-{end - 1}")
    named = ["\t".join((*key, *sorted(names))) for key, names in sorted(off.names.items())]
    return "\n".join((f"{' '.join(places)}\t{off.ids}", *named))


def _day(day: date, data: bytes, told: str) -> Day | None:
    first, _, named = told.partition("\n")
    places, _, ids = first.partition("\t")
    of_work = []
    for place in places.split():
        start, _, end = place.partition("-")
        entry = entry_in(data[int(start) : int(end)].decode())
        if entry is None:
            return None
        of_work.append(entry)
    return Day(day, of_work, put_off=PutOff(ids, partial(_names, named), partial(_read, data)))


def _names(named: str) -> Names:
    lines = [line.split("\t") for line in named.split("\n")] if named else []
    return {(word, thing): names for word, thing, *names in lines}


def _read(data: bytes) -> tuple[Entry, ...]:
    return entries_in(data.decode().split("\n"))


# --- a component ---------------------------------------------------------------------------------


def _told_of_pieces(stem: str, file: ComponentFile, runs: Iterable[RunOfTables]) -> str:
    """For each run a line with the piece before it and where it stands, and one for each piece:
    its name, and its keys and texts by turns. Nothing where one is not as its texts say."""
    lines = list[str]()
    for run in runs:
        lines.append(f"\t{run.behind}\t{run.start}\t{run.end}")
        for name, table in run.tables:
            row = [name, *(text for pair in table.items() for text in pair)]
            if file.pieces.get(f"{stem}/{name}") != _piece(stem, row):
                return ""
            lines.append("\t".join(row))
    return "\n".join(lines)


def _piece(stem: str, row: list[str]) -> Piece | None:
    texts = dict(zip(row[1::2], row[2::2], strict=True))
    if not texts.keys() <= _FIELDS:
        return None
    return Piece(id=f"{stem}/{row[0]}", component=stem, **texts)  # type: ignore[arg-type]


_FIELDS = frozenset(Piece._fields) - {"id", "component"}


def _component(stem: str, data: bytes, told: str) -> ComponentFile | None:
    text, rest, at = data.decode().removeprefix("\ufeff"), list[str](), 0
    behind: dict[str, dict[str, Piece]] = {}
    for line in told.split("\n"):
        name, *row = line.split("\t")
        if not name:
            first, start, end = row
            rest.append(text[at : int(start)])
            at, run = int(end), behind.setdefault(f"{stem}/{first}", {})
        else:
            full = f"{stem}/{name}"
            run[full] = Piece(full, component=stem, **dict(zip(row[::2], row[1::2], strict=True)))  # type: ignore[arg-type]
    values = parse_text("".join((*rest, text[at:])))
    if isinstance(values, BrokenText):
        return None
    file, misfits = decode_component(stem, values)
    if misfits:
        return None
    pieces: dict[str, Piece] = {}
    for piece_id, piece in file.pieces.items():
        pieces[piece_id] = piece
        pieces.update(behind.get(piece_id, ()))
    return file._replace(pieces=pieces)
