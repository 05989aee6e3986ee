"""What must hold before something of the plan is changed: it is there, and may lose its name."""

from __future__ import annotations

from collections.abc import Container

from crewboard.folder.cannot import cannot
from crewboard.folder.edit.plan_edits import Thing, all_of
from crewboard.folder.read.fault import nearest
from crewboard.folder.read.files import HINT, is_id
from crewboard.folder.read.own_file import wrong_file
from crewboard.logbook.fields import Named, named_by
from crewboard.logbook.logbook import Logbook
from crewboard.order.said import how_many
from crewboard.plan.plan import Plan


def must_be_known(thing: Thing, some_id: str, plan: Plan) -> None:
    """Raises CannotChange, with the nearest right name."""
    known = all_of(thing, plan)
    if some_id not in known:
        sentence = f'there is no {thing} "{some_id}"'
        raise cannot(f"unknown-{thing}", sentence, nearest(some_id, known))


def must_be_unwritten(thing: Thing, some_id: str, logbook: Logbook, instead: str) -> None:
    """The lines of the logbook never change, so what they name stays and keeps its short name."""
    times = _times_named(logbook, thing, some_id)
    if times:
        entries = how_many(times, "entry", "entries")
        sentence = f'the logbook names "{some_id}" in {entries}, and they stay'
        raise cannot("in-logbook", sentence, instead)


def names_in_logbook_stay(before: Plan, after: Plan, logbook: Logbook) -> None:
    """Tasks and pieces that an edit would do away with (a lower count, another list of pieces), and
    pieces that would become spares or cease to be: none that the logbook names. Raises
    CannotChange."""
    for task in before.tasks.values():
        if task.id not in after.tasks:
            _must_not_be_in_lines("task", task.id, f'"{task.title}" would be gone', logbook)
    for piece in before.pieces.values():
        then = after.pieces.get(piece.id)
        if then is None:
            _must_not_be_in_lines("piece", piece.id, f'"{piece.name}" would be gone', logbook)
        elif then.spare != piece.spare:
            what = "no spare any more" if piece.spare else "a spare"
            _must_not_be_in_lines("piece", piece.id, f'"{piece.name}" would be {what}', logbook)


def _must_not_be_in_lines(thing: Thing, some_id: str, sentence: str, logbook: Logbook) -> None:
    if times := _times_named(logbook, thing, some_id):
        named = f"{sentence}, and the logbook names it in {how_many(times, 'entry', 'entries')}"
        raise cannot("in-logbook", named, "leave it in the plan as it is")


def pictures_are_here(root: str, before: Plan, after: Plan) -> None:
    """No picture is named anew that is not a file of the folder. Raises CannotChange."""
    for name in _pictures(after) - _pictures(before):
        if (wrong := wrong_file(root, name)) is not None:
            raise cannot("picture", *wrong)


def _pictures(plan: Plan) -> set[str]:
    owners = (plan.components.values(), plan.all_written().values(), plan.pieces.values())
    return {name for some in owners for one in some for name in one.pictures}


def must_be_free(name: str, taken: Container[str]) -> None:
    """A new short name, and one that can stand as such."""
    short = name.rpartition("/")[2]
    if not is_id(short):
        raise cannot("bad-id", f'"{short}" cannot be a short name', HINT)
    if name in taken:
        raise cannot("twice", f'there is a "{name}" already', "choose another short name")


def _times_named(logbook: Logbook, thing: Thing, some_id: str) -> int:
    """The lines of all days that name it; of a component, those that name its tasks as well."""
    return sum(
        (thing == "person" and entry.by == some_id)
        or any(_means(named, thing, some_id) for named in named_by(entry.act))
        for day in logbook.days.values()
        for entry in day.entries
    )


def _means(named: Named, thing: Thing, some_id: str) -> bool:
    if thing == "part":
        return named.thing == "component" and named.id == some_id
    if thing == "component" and named.thing in ("component", "task"):
        return named.id == some_id or named.id.startswith(f"{some_id}/")
    if thing in ("task", "piece") and named.thing == thing:
        # A task for each is named by its part for one piece, a table of pieces by one of them.
        return named.id == some_id or named.id.startswith(f"{some_id}/")
    return named.thing == thing and named.id == some_id
