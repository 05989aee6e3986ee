"""How much is original, as sentences of the book: each measure by itself, its basis named."""

from collections.abc import Iterator

from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.fabric.shares import ALL, Share, shares
from crewboard.order.board import Board
from crewboard.order.said import component_name, listed
from crewboard.telling.book.statement import Section, Sentence, section
from crewboard.telling.shares import share_in_words


def original_sections(board: Board, fabric: Fabric, component_id: str) -> Iterator[Section]:
    """How much of a component with its parts is original; of the vehicle by component, and in all,
    where none is named."""
    plan = board.plan
    inside = plan.with_parts(component_id) if component_id else set(plan.components)
    records = [r for r in fabric.pieces.values() if r.piece.component in inside]
    if component_id:
        told = [share for share in shares(fabric, records) if share.component == ALL]
    else:
        told = list(shares(fabric, records))
    statements = [_statement(board, share, _of(share, records)) for share in told]
    yield from section("How much is original", statements)


def _of(share: Share, records: list[PieceRecord]) -> list[PieceRecord]:
    if share.component == ALL:
        return records
    return [record for record in records if record.piece.component == share.component]


def _statement(board: Board, share: Share, records: list[PieceRecord]) -> Sentence:
    entries = {
        entry.id: entry for record in records for thing in record.things for entry in thing.entries
    }
    files = dict.fromkeys(board.plan.main_of(r.piece.component).id for r in records)
    place = listed(f"components/{file}.toml" for file in files)
    word = component_name(board.plan, share.component) if share.component else "in all"
    names = (share.component,) if share.component else ()
    says = share_in_words(share, board.plan.vehicle.units)
    return Sentence(says, tuple(entries), place, word, names=names)
