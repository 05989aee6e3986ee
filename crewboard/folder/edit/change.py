"""What edits of the plan do to the files, proved on an imagined folder before anything is kept."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Sequence
from datetime import date

from crewboard.folder.cannot import CannotChange, cannot
from crewboard.folder.disk.read import read_file
from crewboard.folder.disk.undo import FileChange
from crewboard.folder.edit.carry_out import carry_out
from crewboard.folder.edit.piece_references import PIECE_LISTS
from crewboard.folder.edit.plan_edits import CallOff, Change, Move, PlanEdit, Remove, Rename, dated
from crewboard.folder.edit.standing import names_in_logbook_stay, pictures_are_here
from crewboard.folder.edit.texts import Texts
from crewboard.folder.read.fault import Fault
from crewboard.folder.read.folder import Folder
from crewboard.order.admit.refusal import Refusal
from crewboard.plan.plan import Plan


def file_changes(
    folder: Folder, edits: Sequence[PlanEdit], on: date | None = None
) -> list[FileChange]:
    """The changes of files that make the edits, one edit after the other. With `on`, tasks that are
    new say that they came into the plan on that day.

    Raises CannotChange where one cannot be made, and where the folder would hold a mistake that
    it does not hold now: a loop in the order of work, a name of nothing, a value that is none.
    """
    texts = Texts(lambda path: read_file(folder.path(path)))
    after = folder
    for edit in dated(edits, on) if on else edits:
        _all_whole(folder, edit)
        before = after
        carry_out(edit, before.plan, folder.logbook, texts)
        after = folder.imagined(texts.changed())
        if new := new_faults(before.every_fault, after.every_fault):
            raise CannotChange(*(_as_refusal(fault) for fault in new))
        _same_meaning(edit, before.plan, after.plan)
        names_in_logbook_stay(before.plan, after.plan, folder.logbook)
        pictures_are_here(str(folder.root), before.plan, after.plan)
    changed = texts.changed()
    # First what is written, then what is taken away: a moved file is never nowhere.
    order = sorted(changed, key=lambda path: (changed[path] is None, path))
    return [FileChange(folder.path(p), texts.before[p], changed[p]) for p in order]


def new_faults(before: Sequence[Fault], after: Sequence[Fault]) -> list[Fault]:
    """The mistakes that were not there before, wherever the lines moved to."""
    old = Counter(map(_sameness, before))
    new: list[Fault] = []
    for fault in after:
        if old[_sameness(fault)]:
            old[_sameness(fault)] -= 1
        else:
            new.append(fault)
    return new


def _sameness(fault: Fault) -> tuple[str, str, str]:
    return fault.file, fault.code, re.sub(r"\.toml:\d+", "", fault.whole)


def _as_refusal(fault: Fault) -> Refusal:
    hint = "" if fault.steps else fault.hint
    return Refusal(fault.code, fault.sentence, hint, steps=fault.steps)


def _all_whole(folder: Folder, edit: PlanEdit) -> None:
    """Names in a file that cannot be read could not be seen to."""
    broken = [path for path in folder.broken if path.startswith("components/")]
    if (
        broken
        and isinstance(edit, Remove | Rename | Move)
        and edit.thing not in ("person", "vehicle")
    ):
        raise cannot("broken", f"{broken[0]} cannot be read, and may name it", "mend it first")


def _same_meaning(edit: PlanEdit, before: Plan, after: Plan) -> None:
    """A new short name must not catch what was written in another's meaning."""
    if isinstance(edit, Change | Remove | CallOff):
        return
    old, new = edit.id, edit.id
    if isinstance(edit, Rename):
        new = f"{old.rpartition('/')[0]}/{edit.to}" if "/" in old else edit.to
    elif isinstance(edit, Move):
        new = edit.new_id

    def with_new_name(some_id: str) -> str:
        inside = some_id == old or some_id.startswith(f"{old}/")
        return new + some_id.removeprefix(old) if inside and new != old else some_id

    now: Callable[[str], str] = with_new_name
    if edit.thing in ("person", "supply", "jig"):
        return
    if edit.thing == "piece":
        _same_pieces(now, before, after)
        now = _tasks_now(old, new, before)
    order = _order(after)
    for some_id, comes_after in _order(before).items():
        if not set(map(now, comes_after)) <= set(order.get(now(some_id), ())):
            sentence = f'"{new.rpartition("/")[2]}" would be taken for another thing of that name'
            raise cannot("shadowed", sentence, "choose another short name")


def _tasks_now(old: str, new: str, before: Plan) -> Callable[[str], str]:
    """The ids of tasks for each once a table of pieces has another name; others stay."""
    short_old, short_new = old.partition("/")[2], new.partition("/")[2]
    renamed = {
        members[piece.id]: f"{name}/{short_new}{piece.short.removeprefix(short_old)}"
        for name, members in ((s.id, s.members) for s in before.series.values())
        for piece in (before.pieces[some_id] for some_id in members)
        if old in (piece.id, piece.several)
    }
    return lambda some_id: renamed.get(some_id, some_id)


def _same_pieces(now: Callable[[str], str], before: Plan, after: Plan) -> None:
    tasks = after.all_written()
    for task in before.all_written().values():
        for key in PIECE_LISTS:
            if not set(map(now, getattr(task, key))) <= set(getattr(tasks[task.id], key)):
                sentence = f'the pieces of "{task.title}" would be taken for others of that name'
                raise cannot("shadowed", sentence, "choose another short name")


def _order(plan: Plan) -> dict[str, tuple[str, ...]]:
    """What each component, part and task as it is written comes after."""
    return {c.id: c.after for c in plan.components.values()} | {
        t.id: (*t.after, *t.during) for t in plan.all_written().values()
    }
