"""How much is original, as sentences of the book: each measure by itself, its basis named."""

from collections.abc import Iterator
from fractions import Fraction

from crewboard.fabric.fabric import Fabric, PieceRecord
from crewboard.fabric.shares import ALL, Share, shares
from crewboard.order.board import Board
from crewboard.order.said import component_name, how_many, listed
from crewboard.plan.extent import SIGN
from crewboard.telling.book.statement import Section, Sentence, section


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
    return Sentence(share_in_words(share), tuple(entries), place, word)


def share_in_words(share: Share) -> str:
    """ "63 % original by length (12.4 m, 9 pieces); 20 % replaced in kind; of 17 % nobody said"."""
    amount = how_many(share.pieces, "piece")
    if share.basis != "pieces":
        amount = f"{float(share.amount):.3g} {SIGN[share.basis]}, {amount}"
    least, most = share.original, share.most_original
    original = percent(least) if least == most else f"{percent(least)} to {percent(most)}"
    others = [
        f"{percent(part)} {sort}"
        for sort, part in sorted(share.sorts.items(), key=lambda item: -item[1])
        if sort not in ("original", "unknown") and part
    ]
    open_part = share.open + share.sorts.get("unknown", Fraction(0))
    unsaid = [f"of {percent(open_part)} nobody said"] if open_part else []
    return "; ".join([f"{original} original by {share.basis} ({amount})", *others, *unsaid])


def percent(share: Fraction) -> str:
    """ "97 %"; never "0 %" or "100 %" of what is a little more or less."""
    whole = round(share * 100)
    if whole == 0 and share:
        return "less than 1 %"
    if whole == 100 and share != 1:
        return "more than 99 %"
    return f"{whole} %"
