"""`[pieces.NAME]` of a component's file: one piece, or several of a kind by their count."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any, cast, get_args

from crewboard.folder.read.fault import MOST_HINTS, nearest
from crewboard.folder.read.files import is_id
from crewboard.folder.read.piece_texts import TableOfTexts
from crewboard.folder.read.table import Table
from crewboard.plan.component import Component
from crewboard.plan.piece import MOST_OF_A_KIND, AsFound, Piece

AS_FOUND = get_args(AsFound)


def decode_pieces(
    stem: str, table: Table, components: dict[str, Component]
) -> tuple[dict[str, Piece], dict[str, tuple[str, ...]]]:
    """The pieces by their full ids ("roof/ribs/3"), and those of each table that holds several."""
    pieces: dict[str, Piece] = {}
    several: dict[str, tuple[str, ...]] = {}
    for name, row in table.tables("pieces"):
        if (single := _usual(stem, name, row.values)) is not None:
            pieces[single.id] = single
            continue
        if not row.well_named():
            continue
        usual = Piece(
            f"{stem}/{name}",
            row.text("name", name, needed=True),
            component_of(stem, row, components),
        )
        count = row.whole("count", 0, least=1, most=MOST_OF_A_KIND) if "count" in row else 0
        spares = row.whole("spares", 0, most=MOST_OF_A_KIND)
        if spares and not count:
            hint = "add count = 9, how many of them the vehicle has"
            row.tell("spares", "missing", f'"{name}" has spares but no count', hint)
        usual = _told_of(row, usual)
        if not count:
            pieces[usual.id] = usual
        else:
            own = dict(_own_tables(row, count + spares))
            several[usual.id] = tuple(f"{usual.id}/{n}" for n in range(1, count + spares + 1))
            for number, piece_id in enumerate(several[usual.id], 1):
                one = usual._replace(
                    id=piece_id,
                    name=f"{usual.name} {number}",
                    several=usual.id,
                    number=number,
                    spare=number > count,
                )
                pieces[piece_id] = _of_its_own(own[number], one) if number in own else one
        row.done()
    return pieces, several


# The keys of one piece whose values are texts.
_TEXTS = frozenset(
    (
        *("name", "kind", "material", "size", "place", "as_found", "period", "condition"),
        *("intended", "why", "runs_from", "runs_to", "serves", "extent", "finding"),
    )
)
_PLAIN_EXTENT = r"[1-9]\d{0,5}(?:\.\d{1,4})? (?:mm|cm|m|m2|m²|m3|m³)"


def _usual(stem: str, name: str, values: Mapping[str, Any]) -> Piece | None:
    """The piece of a table in which nothing can be wrong: what the long way gives, several times
    faster; a list of what a vehicle consists of has thousands."""
    if "name" not in values:
        return None
    if type(values) is TableOfTexts:
        return _of_texts(stem, name, values) if values.keys() <= _TEXTS else None
    texts = dict(values)
    flags: dict[str, Any] = {key: texts.pop(key) for key in ("keep", "live") if key in texts}
    if not (texts.keys() <= _TEXTS and set(map(type, texts.values())) == {str}):
        return None
    if not (set(map(type, flags.values())) <= {bool} and is_id(name)):
        return None
    return _of_texts(stem, name, {**texts, **flags})


def _of_texts(stem: str, name: str, values: Mapping[str, Any]) -> Piece | None:
    piece = Piece(id=f"{stem}/{name}", component=stem, **values)
    right = piece.as_found in AS_FOUND and (not piece.extent or is_extent(piece.extent))
    return piece if right and piece.name.strip() else None


def _own_tables(row: Table, last: int) -> Iterator[tuple[int, Table]]:
    """[pieces.ribs.3]: what is said of one of several alone."""
    for name in [name for name in row.values if name.isdecimal() and name.isascii()]:
        own = row.table(name)
        if own is None:
            continue
        if name == str(int(name)) and 1 <= int(name) <= last:
            yield int(name), own
        else:
            sentence = f"there is no piece {name} here: they are numbered 1 to {last}"
            row.tell(name, "out-of-range", sentence, "raise the count, or remove this table")


def _of_its_own(table: Table, usual: Piece) -> Piece:
    piece = _told_of(table, usual._replace(name=table.text("name", usual.name)))
    table.done()
    return piece


def _told_of(table: Table, usual: Piece) -> Piece:
    """The piece with what the table says of it; what it leaves out is as usual."""
    return usual._replace(
        kind=table.text("kind", usual.kind),
        material=table.text("material", usual.material),
        size=table.text("size", usual.size),
        place=table.text("place", usual.place),
        as_found=cast("AsFound", table.one_of("as_found", AS_FOUND, usual.as_found)),
        period=table.text("period", usual.period),
        condition=table.text("condition", usual.condition),
        intended=table.text("intended", usual.intended),
        why=table.text("why", usual.why),
        keep=table.flag("keep", usual.keep),
        runs_from=table.text("runs_from", usual.runs_from),
        runs_to=table.text("runs_to", usual.runs_to),
        serves=table.text("serves", usual.serves),
        live=table.flag("live", bool(usual.live)) if "live" in table else usual.live,
        pictures=table.names("pictures") or usual.pictures,
        extent=_extent(table, usual.extent),
        finding=table.text("finding", usual.finding),
    )


@lru_cache(maxsize=1 << 12)
def is_extent(written: str) -> bool:
    """Whether it is a length, an area or a volume: of many pieces of one size it is asked once."""
    if re.fullmatch(_PLAIN_EXTENT, written, re.ASCII):
        return True
    from crewboard.plan.as_typed import Unread
    from crewboard.plan.extent import extent  # with the fractions that it reckons by

    try:
        return extent(written) is not None
    except Unread:
        return False


def _extent(table: Table, usual: str) -> str:
    """extent = "2.4 m", "0.8 m2" or "0.02 m3": how large the piece is, for what is original."""
    written = table.text("extent", usual)
    if not written:
        return ""
    if is_extent(written):
        return written
    from crewboard.plan.as_typed import Unread
    from crewboard.plan.extent import extent

    try:
        extent(written)
    except Unread as unread:
        table.tell("extent", "not-an-extent", unread.sentence, unread.hint)
    return ""


def component_of(stem: str, table: Table, components: dict[str, Component]) -> str:
    """The part that a task or piece names, else the main component."""
    part = table.text("part")
    if not part:
        return stem
    if f"{stem}/{part}" in components:
        return f"{stem}/{part}"
    few = len(table.misfits) < MOST_HINTS
    own = [full.partition("/")[2] for full in components if few and "/" in full]
    table.tell("part", "unknown-name", f'there is no part "{part}" here', nearest(part, own))
    return stem
