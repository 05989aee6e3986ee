"""What is wrong with the dangers of work: two in one task that must not be near one another, which
nobody may ever begin; what is not used at all; and work that was finished without having begun."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.folder.read.fault import Remark
from crewboard.folder.read.files import HAZARDS, VEHICLE, day_path, file_of, key_path
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Finished, Reopened
from crewboard.order.may.apart import clashing
from crewboard.order.safety.finished_without import finished_without
from crewboard.order.said import listed, quoted_title
from crewboard.plan.bench_card import MOST_WORDS
from crewboard.plan.hazard import Law
from crewboard.plan.plan import Plan
from crewboard.plan.vehicle import WRITTEN_FOR


def clashing_dangers(folder: Folder) -> Iterator[Remark]:
    """Tasks that are still to be done, with two such hazards."""
    plan = folder.plan
    done = _finished(folder)
    for task in plan.tasks.values():
        if len(task.hazards) < 2 or task.finished is not None or task.id in done:
            continue
        sheets = [plan.hazards[name] for name in task.hazards if name in plan.hazards]
        for one, other in clashing(sheets):
            path = (*key_path(task.id, plan.components), "hazards")
            sentence = f'"{task.title}": {one.short} must not be near {other.short}'
            hint = "make two tasks of it, one after the other; as it is, nobody may begin it"
            yield Remark(file_of(task.id), path, "clash", sentence, hint)


def dangers_not_used(folder: Folder) -> Iterator[Remark]:
    """Tasks that are still to be done, with a hazard that no crew uses."""
    plan = folder.plan
    done = _finished(folder)
    for task in plan.tasks.values():
        if task.finished is not None or task.id in done:
            continue
        for name in task.hazards:
            sheet = plan.hazards.get(name)
            if sheet is not None and sheet.do_not_use:
                path = (*key_path(task.id, plan.components), "hazards")
                sentence = f'"{task.title}": {sheet.short} is not used'
                hint = f"{sheet.told(sheet.do_not_use)} As it is, nobody may begin the task"
                yield Remark(file_of(task.id), path, "not-used", sentence, hint)


def law_of_nowhere(folder: Folder) -> Iterator[Remark]:
    """A jurisdiction of which no sheet quotes the law."""
    plan = folder.plan
    here = plan.vehicle.jurisdiction
    if not here or here in WRITTEN_FOR:
        return
    if any(law.where == here for name in folder.own_hazards for law in _laws(plan, name)):
        return
    sentence = f'the hazard sheets quote no law of "{here}"'
    hint = f"look up what the law there asks; that of {listed(WRITTEN_FOR)} is shown as elsewhere"
    yield Remark(VEHICLE, ("jurisdiction",), "unknown-place", sentence, hint)


def _laws(plan: Plan, name: str) -> tuple[Law, ...]:
    sheet = plan.sheets.get(name)
    return sheet.laws if sheet is not None else ()


def long_cards(folder: Folder) -> Iterator[Remark]:
    """Bench cards that the crew wrote, or added to, and that take longer to read than there is."""
    plan = folder.plan
    for name in folder.own_hazards:
        sheet = plan.sheets.get(name)
        words = sheet.words_on_card() if sheet is not None and sheet.card else 0
        if words > MOST_WORDS:
            sentence = f"the bench card of {name} has {words} words"
            hint = f"at most {MOST_WORDS} are read in half a minute: shorten it"
            yield Remark(HAZARDS, (name, "card"), "too-long", sentence, hint)


def finished_never_begun(folder: Folder) -> Iterator[Remark]:
    """Work that was finished and that nobody wrote to have begun, with what that left out."""
    file_of_line = {e.id: d.date for d in folder.logbook.days.values() for e in d.events}
    for mark in finished_without(folder.plan, folder.logbook):
        sentence = f"{quoted_title(folder.plan, mark.task)} was {mark.says}"
        hint = "write its begin where that is missing; look what was left out"
        path = ("entries", mark.entry.id)
        day = file_of_line[mark.entry.id]
        yield Remark(day_path(day), path, "finished-without", sentence, hint)


def _finished(folder: Folder) -> set[str]:
    """The tasks that the logbook calls finished."""
    done: set[str] = set()
    for entry in folder.logbook.counting():
        if isinstance(entry.act, Finished):
            done.add(entry.act.task)
        elif isinstance(entry.act, Reopened):
            done.discard(entry.act.task)
    return done
