"""Taking something out of the plan, without a gap in the order of work."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from crewboard.folder.cannot import cannot
from crewboard.folder.edit.plan_edits import Remove, address_of
from crewboard.folder.edit.references import KEYED, Reference, references, relisted
from crewboard.folder.edit.removing_pieces import (
    must_be_last_of_its_kind,
    must_not_be_named,
    remove_piece,
)
from crewboard.folder.edit.standing import must_be_known, must_be_unwritten
from crewboard.folder.edit.texts import Texts
from crewboard.folder.read.files import component_path
from crewboard.folder.toml.meant import value_at
from crewboard.logbook.logbook import Logbook
from crewboard.order.said import how_many, listed
from crewboard.plan.plan import Plan

_INSTEAD = {"task": "set it aside instead", "person": "write the day they left instead"}


def remove(edit: Remove, plan: Plan, logbook: Logbook, texts: Texts) -> None:
    """Take it out of its file. Raises CannotChange where the logbook or the plan needs it."""
    must_be_known(edit.thing, edit.id, plan)
    instead = _INSTEAD.get(edit.thing, "leave it where it is")
    place = address_of(edit.thing, edit.id)
    match edit.thing:
        case "vehicle":
            raise cannot("vehicle", "the vehicle itself cannot be removed from its folder")
        case "component" | "part":
            _must_be_empty(edit.id, plan)
            before: Sequence[str] = plan.components[edit.id].after
        case "task":
            task = plan.all_written()[edit.id]
            before = (*task.after, *task.during)
        case "piece":
            must_be_last_of_its_kind(edit.id, plan)
            must_not_be_named(edit.id, plan, texts)
            must_be_unwritten(edit.thing, edit.id, logbook, "say that it failed instead")
            remove_piece(edit.id, plan, texts)
            return
        case "person" | "supply" | "jig":
            _must_not_be_needed(edit, plan)
            before = ()
    must_be_unwritten(edit.thing, edit.id, logbook, instead)
    if edit.thing in ("component", "part", "task"):
        _close_gap(edit.id, before, plan, texts)
    if place.path:
        texts.take_out(place.file, place.path)
    else:
        texts.delete(place.file)


def _must_be_empty(component_id: str, plan: Plan) -> None:
    below = plan.with_parts(component_id)
    tasks = sum(task.component in below for task in plan.all_written().values())
    pieces = sum(piece.component in below for piece in plan.pieces.values())
    counts = ((tasks, "task"), (len(below) - 1, "part"), (pieces, "piece"))
    inside = listed(how_many(count, word) for count, word in counts if count)
    if inside:
        name = plan.components[component_id].name
        raise cannot("not-empty", f'"{name}" has {inside}', "remove those first")


def _must_not_be_needed(edit: Remove, plan: Plan) -> None:
    if edit.thing in ("supply", "jig"):
        written = plan.all_written().values()
        needing = [t.title for t in written if edit.id in (*t.supplies, *t.uses)]
        mend = "remove it from the task first"
    else:
        needing = [p.name for p in plan.crew.values() if p.needs_beside == edit.id]
        mend = "name somebody else there first"
    if needing:
        more = f" and {len(needing) - 1} more" if len(needing) > 1 else ""
        raise cannot("needed", f'"{edit.id}" is needed by "{needing[0]}"{more}', mend)


def _close_gap(gone: str, before: Sequence[str], plan: Plan, texts: Texts) -> None:
    """What came after the removed one comes after that which the removed one came after."""
    known = plan.order_ids()

    def is_gone(reference: Reference) -> bool:
        """Of a task for each also by what is done to one piece."""
        return reference.names == gone or reference.names.startswith(f"{gone}/")

    for component in plan.components.values():
        if component.part_of:
            continue
        file = component_path(component.id)
        pointing = list(references(component.id, texts.values(file), known))
        for owner, key in dict.fromkeys((r.owner, r.key) for r in pointing if is_gone(r)):
            if owner != gone and key in ("after", "during"):
                own = [r for r in pointing if r.owner == owner and r.key == key]
                wanted = [r.names or r.written for r in own if not is_gone(r)]
                if key == "after":
                    wanted += [name for name in before if name not in (*wanted, owner)]
                _relist(file, component.id, own, wanted, known, texts)
            elif owner != gone and key in KEYED:
                own = [r for r in pointing if r.owner == owner and r.key == key]
                _unkey(file, own, is_gone, texts)


def _relist(
    file: str,
    stem: str,
    own: Sequence[Reference],
    wanted: Sequence[str],
    known: set[str],
    texts: Texts,
) -> None:
    first = own[0].path
    path = first[:-1] if isinstance(first[-1], int) else first
    if wanted:
        old = value_at(texts.values(file), path)
        texts.set(file, path, relisted(old, wanted, stem, known))
    else:
        texts.take_out(file, path)


def _unkey(
    file: str, own: Sequence[Reference], is_gone: Callable[[Reference], bool], texts: Texts
) -> None:
    """Take what is gone out of a table whose keys name tasks, with the last one the table."""
    if all(map(is_gone, own)):
        texts.take_out(file, own[0].path[:-1])
        return
    for reference in filter(is_gone, own):
        texts.take_out(file, reference.path)
