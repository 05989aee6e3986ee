"""The edits that put typed pieces into a component's file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from crewboard.folder.edit.plan_edits import Add, Change, Key
from crewboard.folder.read.files import id_from
from crewboard.order.said import component_name
from crewboard.plan.as_typed import Unread
from crewboard.plan.pieces_typed import TypedPieces, pieces_typed
from crewboard.plan.plan import Plan


def adding_pieces(text: str, component_id: str, plan: Plan) -> list[Add | Change]:
    """The edits that add what was typed to a component or part. Raises Unread.

    A kind that is there already is not made anew: "ribs 10 to 12" adds to nine of them.
    """
    stem, _, part = component_id.partition("/")
    taken = {
        name.partition("/")[2]
        for name in (*plan.several, *plan.pieces)
        if name.startswith(f"{stem}/")
    }
    edits: list[Add | Change] = []
    for kind in pieces_typed(text):
        known = f"{stem}/{id_from(kind.name)}"
        if known in plan.several or known in plan.pieces:
            edits.append(_more_of_them(kind, known, plan))
            continue
        if kind.first > 1:
            says = f'there are no {kind.name} in "{component_name(plan, component_id)}" yet'
            raise Unread(says, f"write {kind.name} 1 to {kind.last}")
        short = id_from(kind.name, taken)
        taken.add(short)
        edits.append(Add("piece", f"{stem}/{short}", _values(kind, part)))
    return edits


def _values(kind: TypedPieces, part: str) -> Mapping[Key, object]:
    values: dict[Key, object] = {"name": kind.of_one}
    if kind.last:
        values["count"] = kind.last
    if kind.spares:
        values["spares"] = kind.spares
    return {**values, "part": part} if part else values


def _more_of_them(kind: TypedPieces, known: str, plan: Plan) -> Change:
    """Raises Unread where what was typed does not go on behind those that there are."""
    numbered = [plan.pieces[name] for name in plan.several.get(known, ())]
    count = sum(not piece.spare for piece in numbered)
    if not numbered:
        raise Unread(f'"{kind.name}" is there already', "give it another name")
    if kind.first != count + 1:
        says = f"{kind.name} 1 to {count} are there already"
        raise Unread(says, f"write {kind.name} {count + 1} to {count + max(2, kind.last)} for more")
    values: dict[Key, object] = {"count": kind.last}
    if kind.spares:
        values["spares"] = kind.spares
    return Change("piece", known, values)


def added_in_words(edits: Sequence[Add | Change]) -> str:
    """ "Rib 1 to 9, Ridge": what the edits add, for who typed it."""
    words = []
    for edit in edits:
        if isinstance(edit, Add):
            name, count = edit.values["name"], edit.values.get("count")
            spares = edit.values.get("spares")
            more = f" and {spares} spare" if spares else ""
            words.append(f"{name} 1 to {count}{more}" if count else str(name))
        else:
            words.append(f"{edit.id.partition('/')[2]} up to {edit.values['count']}")
    return ", ".join(words)
