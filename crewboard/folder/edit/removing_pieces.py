"""Taking pieces out of the plan: a whole table, or the last of several."""

from __future__ import annotations

from crewboard.folder.cannot import cannot
from crewboard.folder.edit.piece_references import names_of_pieces
from crewboard.folder.edit.plan_edits import address_of
from crewboard.folder.edit.texts import Texts
from crewboard.folder.toml.meant import exists
from crewboard.order.said import table_name
from crewboard.plan.plan import Plan


def must_be_last_of_its_kind(some_id: str, plan: Plan) -> None:
    """Raises CannotChange for one of several that has others behind it."""
    piece = plan.pieces.get(some_id)
    if piece is not None and piece.several and plan.several[piece.several][-1] != some_id:
        sentence = f'"{piece.name}" is not the last of its kind, and the others keep their numbers'
        raise cannot("numbered", sentence, "say that it failed, or write what became of it")


def must_not_be_named(some_id: str, plan: Plan, texts: Texts) -> None:
    """Raises CannotChange where a task names the table, or one of several by its number."""
    ids = set(plan.several.get(some_id, (some_id,)))
    alone = some_id not in plan.several and bool(plan.pieces[some_id].several)
    name = table_name(some_id) if some_id in plan.several else plan.pieces[some_id].name
    naming = [
        named.task
        for _, named in names_of_pieces(plan, texts)
        if ids.intersection(named.pieces) and not (alone and named.is_table)
    ]
    if naming:
        title = plan.all_written()[naming[0]].title
        more = f" and {len(set(naming)) - 1} more" if len(set(naming)) > 1 else ""
        sentence = f'"{name}" is named by "{title}"{more}'
        raise cannot("needed", sentence, "remove it from the task first")


def remove_piece(some_id: str, plan: Plan, texts: Texts) -> None:
    """A table or a single piece goes out of its file; with the last of several the count
    is lowered."""
    place = address_of("piece", some_id)
    piece = plan.pieces.get(some_id)
    if piece is None or not piece.several:
        texts.take_out(place.file, place.path)
        return
    of_its_kind = [plan.pieces[one] for one in plan.several[piece.several]]
    if len(of_its_kind) == 1:
        texts.take_out(place.file, place.path[:-1])
        return
    if exists(texts.values(place.file), place.path):
        texts.take_out(place.file, place.path)
    left = sum(one.spare == piece.spare for one in of_its_kind) - 1
    key = (*place.path[:-1], "spares" if piece.spare else "count")
    if left:
        texts.set(place.file, key, left)
    else:
        texts.take_out(place.file, key)
