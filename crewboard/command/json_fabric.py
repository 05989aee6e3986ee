"""The form of `--json` (see `json_form`) for the record of the vehicle as it stands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from crewboard.command.json_form import Form, form_of
from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.fabric.gaps import Gap
from crewboard.fabric.shares import Share, shares
from crewboard.fabric.thing import Sort, Thing
from crewboard.telling.gaps import gap_in_words


def fabric_form(fabric: Fabric, records: Sequence[PieceRecord]) -> Form:
    return form_of(
        "fabric",
        at=fabric.at,
        pieces=[_piece(record) for record in records],
        shares=[_share(share) for share in shares(fabric, records)],
    )


def gaps_form(
    fabric: Fabric, lists: Mapping[str, Sequence[Gap]], files: Mapping[str, str] | None = None
) -> Form:
    """The gaps piece by piece; `files` says what is amiss with each that was taken in."""
    pieces = [
        {"piece": piece, "gaps": [_gap(fabric, gap) for gap in of_it]}
        for piece, of_it in lists.items()
    ]
    amiss = [{"file": file, "says": says} for file, says in (files or {}).items()]
    return form_of("gaps", at=fabric.at, pieces=pieces, files=amiss)


def _gap(fabric: Fabric, gap: Gap) -> dict[str, object]:
    return {
        "code": gap.code,
        "thing": gap.thing,
        "entry": gap.entry.id if gap.entry else None,
        "says": gap_in_words(fabric, gap),
    }


def _piece(record: PieceRecord) -> dict[str, object]:
    piece = record.piece
    return {
        "id": piece.id,
        "name": piece.name,
        "component": piece.component,
        "state": record.state,
        "where": record.where.where,
        "where_words": record.where.words,
        "keep": piece.keep,
        "current": record.current.number,
        "things": [_thing(record, thing) for thing in record.things],
        "entries": [entry.id for entry in record.entries],
        "pictures": record.pictures,
    }


def _thing(record: PieceRecord, thing: Thing) -> dict[str, object]:
    return {
        "number": thing.number,
        "sort": thing.sort,
        "material": thing.material,
        "where": thing.where,
        "where_words": thing.whereabouts.words,
        "since": thing.whereabouts.since,
        "said_by": thing.whereabouts.entry.id if thing.whereabouts.entry else None,
        "why": record.why_gone(thing),
        "cut_out": str(thing.cut_out) if thing.cut_out else None,
        "shares": _sorts(thing.makeup.least),
        "not_said": float(thing.makeup.open),
        "wood_from": [one._asdict() for one in thing.wood_from],
        "wood_to": [one._asdict() for one in thing.wood_to],
        "entries": [entry.id for entry in thing.entries],
    }


def _sorts(sorts: Mapping[Sort, Fraction]) -> dict[str, float]:
    return {sort: float(share) for sort, share in sorts.items()}


def _share(share: Share) -> dict[str, object]:
    return {
        "component": share.component or None,
        "basis": share.basis,
        "amount": float(share.amount),
        "pieces": share.pieces,
        "original": float(share.original),
        "most_original": float(share.most_original),
        "shares": _sorts(share.sorts),
        "not_said": float(share.open),
    }
