"""Reading a copy that may be broken, cut off, huge, or made by somebody who means harm.

Whatever it is, little memory is used: its list of files is read only up to `MOST_AT_ONCE` bytes,
each file only up to what a TOML file may have, and all of them up to `MOST_IN_ALL`.
"""

from __future__ import annotations

import io
import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, NamedTuple

from crewboard.folder.cannot import NotKept
from crewboard.folder.disk.names import is_text, trouble
from crewboard.folder.disk.notkept import not_kept
from crewboard.folder.disk.packing import ListedFile
from crewboard.folder.toml.text import MOST_BYTES
from crewboard.legible import legible

if TYPE_CHECKING:
    from zipfile import ZipFile, ZipInfo

LIST = ".crewboard/list.toml"
"""The file in an archive that tells what is not in it."""
MOST_AT_ONCE = 12_000_000
MOST_IN_ALL = 1_000_000_000


class Kept(NamedTuple):
    """What a copy knows of the folder, by paths within it: the files that it holds, those that it
    lists with size and hash, and those that could not be read when it was made, with the reason.

    `no_text` are in it too, and are not brought back: copies once took in small pictures.
    """

    files: frozenset[str]
    listed: dict[str, ListedFile]
    skipped: dict[str, str]
    no_text: frozenset[str]


def files_in(archive: str | os.PathLike[str]) -> frozenset[str]:
    """The paths of the files that a copy brings back. Reads its list only. Raises `NotKept`."""
    with _opened(archive) as opened:
        return frozenset(info.filename for info in _to_bring_back(archive, opened))


def kept_in(archive: str | os.PathLike[str]) -> Kept:
    """What a copy knows of the folder. Raises `NotKept`."""
    from crewboard.folder.toml.decode import parse_toml

    with _opened(archive) as opened:
        files = frozenset(info.filename for info in _to_bring_back(archive, opened))
        listing = [info for info in opened.infolist() if info.filename == LIST]
        values = parse_toml(_bytes(archive, opened, listing[0])) if listing else {}
        others = {info.filename for info in opened.infolist() if not info.is_dir()}
    tables = values if isinstance(values, dict) else {}
    listed = {name: _listed(fields) for name, fields in _table(tables, "listed").items()}
    skipped = {name: str(why) for name, why in _table(tables, "skipped").items()}
    return Kept(files, listed, skipped, frozenset(others - files - {LIST}))


def members(archive: str | os.PathLike[str]) -> Iterator[tuple[str, bytes]]:
    """The files that a copy brings back, with their bytes, one at a time. Raises `NotKept`."""
    with _opened(archive) as opened:
        for info in _to_bring_back(archive, opened):
            yield info.filename, _bytes(archive, opened, info)


class _TooLarge(Exception):
    """More is asked for at once than any copy of ours needs."""


class _Bounded(io.FileIO):
    def read(self, size: int | None = -1, /) -> bytes:
        if size is None or size < 0:
            size = MOST_AT_ONCE
        if size > MOST_AT_ONCE:
            raise _TooLarge
        return super().read(size) or b""


@contextmanager
def _opened(archive: str | os.PathLike[str]) -> Iterator[ZipFile]:
    """Raises `NotKept` for whatever is wrong with the archive, also while it is read."""
    from struct import error as bad_fields
    from zipfile import BadZipFile, LargeZipFile, ZipFile
    from zlib import error as broken_stream

    damaged = (BadZipFile, LargeZipFile, broken_stream, bad_fields, EOFError, RuntimeError)
    try:
        with _Bounded(archive) as file, ZipFile(file) as opened:
            yield opened
    except _TooLarge:
        raise _too_large(archive) from None
    except (*damaged, ValueError, OverflowError, TypeError, MemoryError) as error:
        hint = "Choose the copy of another day."
        raise NotKept(archive, "the archive is damaged or cut off", hint) from error
    except OSError as error:
        raise not_kept(archive, error) from error


def _to_bring_back(archive: str | os.PathLike[str], opened: ZipFile) -> list[ZipInfo]:
    """Its files of text, when nothing in the whole archive is what no copy of ours holds."""
    names: set[str] = set()
    chosen: list[ZipInfo] = []
    for info in opened.infolist():
        reason = _reason_against(info)
        if info.filename in names:
            reason = "it stands there twice"
        if reason:
            raise NotKept(
                archive,
                f'the archive holds "{legible(info.orig_filename)[:80]}", which no daily copy '
                f"holds: {reason}",
                "Restore only archives that this program made.",
            )
        names.add(info.filename)
        if info.filename != LIST and not info.is_dir() and is_text(info.filename):
            chosen.append(info)
    if any(info.file_size > MOST_BYTES for info in chosen):
        raise _too_large(archive)
    if sum(info.file_size for info in chosen) > MOST_IN_ALL:
        raise _too_large(archive)
    return chosen


def _reason_against(info: ZipInfo) -> str:
    if info.filename != LIST and (reason := trouble(info.filename.removesuffix("/"))):
        return reason
    if info.filename != info.orig_filename:
        return "its name is not what it seems"
    kind = stat.S_IFMT(info.external_attr >> 16)
    if kind not in (0, stat.S_IFDIR if info.is_dir() else stat.S_IFREG):
        return "it is no ordinary file"
    if info.compress_type not in (0, 8) or info.flag_bits & 1:  # stored, deflated; encrypted
        return "it is packed in another way"
    return ""


def _too_large(archive: str | os.PathLike[str]) -> NotKept:
    sentence = "the archive would unpack to more than any daily copy holds"
    return NotKept(archive, sentence, "Restore only archives that this program made.")


def _bytes(archive: str | os.PathLike[str], opened: ZipFile, info: ZipInfo) -> bytes:
    """The file's bytes, unpacked in small steps: its own word on its size is not trusted."""
    parts, length = list[bytes](), 0
    with opened.open(info) as stream:
        while part := stream.read(1 << 16):
            parts.append(part)
            length += len(part)
            if length > MOST_BYTES:
                raise _too_large(archive)
    return b"".join(parts)


def _table(values: dict[str, Any], name: str) -> dict[str, Any]:
    table = values.get(name)
    return table if isinstance(table, dict) else {}


def _listed(fields: object) -> ListedFile:
    values = fields if isinstance(fields, dict) else {}
    size, changed, sha256 = (values.get(field) for field in ListedFile._fields)
    if not isinstance(size, int) or not isinstance(changed, int):
        return ListedFile(-1, -1)
    return ListedFile(size, changed, str(sha256 or ""))
