"""From the files' contents to one plan: names looked up across files, loops found.

Whatever names nothing is left out of the plan and told, with its file and its key.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple, TypeVar

from crewboard.folder.read.component_file import SHOP, UNREADABLE, ComponentFile
from crewboard.folder.read.fault import MOST_HINTS, KeyPath, Misfit, Remark, Step, nearest
from crewboard.folder.read.files import HAZARDS, SUPPLIES, VEHICLE, file_of, key_path
from crewboard.order.sequence.links import Link, gate_of, links
from crewboard.order.sequence.loops import without_loops
from crewboard.plan.clock import ShopClock
from crewboard.plan.component import Component
from crewboard.plan.hazard import Hazard
from crewboard.plan.piece import Piece, pieces_named
from crewboard.plan.plan import Plan
from crewboard.plan.series import Series, written_out
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Vehicle
from crewboard.plan.volunteer import Volunteer

_Value = TypeVar("_Value")
LOOP = "loop"
MOST_LEVELS = 40
"""Of parts within parts: no vehicle has as many."""


class Parts(NamedTuple):
    """What the files say, each read by itself. `component_files` by the name of the file."""

    vehicle: Vehicle
    component_files: Mapping[str, ComponentFile]
    crew: Mapping[str, Volunteer]
    supplies: Mapping[str, Supply]
    hazards: Mapping[str, Hazard]
    known_hazards: frozenset[str]
    longest_clock: int | None = None
    sheets: Mapping[str, Hazard] = {}


def assemble(parts: Parts) -> tuple[Plan, list[Remark]]:
    """The plan, and what does not fit together. The plan's order of work has no loop."""
    remarks: list[Remark] = []
    components = {c.id: c for f in parts.component_files.values() for c in f.components.values()}
    files = parts.component_files.values()
    pieces = {p.id: p for f in files for p in f.pieces.values()}
    several = {name: ids for f in files for name, ids in f.several.items()}
    written = {
        t.id: _with_pieces(t, pieces, several, remarks) for f in files for t in f.tasks.values()
    }
    tasks, _ = _written_out(written.values(), pieces)
    names = _Names(components, {**tasks, **written}, remarks)
    components = {c.id: names.in_component(c) for c in components.values()}
    _untangle_tree(components, remarks)
    written = {t.id: _fitted(names.in_task(t), parts, remarks) for t in written.values()}
    tasks, series = _written_out(written.values(), pieces)
    every = list(links(components, tasks, series))
    standing, loops = without_loops(every)
    if loops:
        components, written = _cut(components, written, every, standing)
        tasks, series = _written_out(written.values(), pieces)
        remarks += _loop_remarks(loops, components)
    if any(task.within for task in written.values()):
        from crewboard.folder.read.following import only_after  # few plans say so

        written = only_after(written, series, every, remarks)
        tasks, series = _written_out(written.values(), pieces)
    plan = Plan(
        parts.vehicle,
        components,
        tasks,
        parts.crew,
        parts.supplies,
        parts.hazards,
        _clock(parts.vehicle),
        parts.longest_clock,
        pieces,
        several,
        series,
        parts.sheets,
    )
    return plan, remarks


def _written_out(
    written: Iterable[Task], pieces: Mapping[str, Piece]
) -> tuple[dict[str, Task], dict[str, Series]]:
    """The tasks, those for each of several pieces once for each, and the series of these."""
    tasks: dict[str, Task] = {}
    series: dict[str, Series] = {}
    for task in written:
        if task.each:  # else none of the pieces that it names is known, and it is told
            series[task.id], members = written_out(task, [pieces[name] for name in task.each])
            tasks |= members
        else:
            tasks[task.id] = task
    return tasks, series


class _Names:
    """Looks names up: first in the same file, then among the main components, then as a full id."""

    def __init__(
        self, components: Mapping[str, Component], tasks: Mapping[str, Task], remarks: list[Remark]
    ) -> None:
        self.components = components
        self.tasks = tasks
        self.remarks = remarks

    def _find(self, name: str, stem: str) -> str | None:
        for full in (f"{stem}/{name}", name):
            if full in self.tasks or full in self.components:
                return full
        # A name in a file that cannot be read stands for that whole file, until it is mended.
        file = name.partition("/")[0]
        return file if f"{file}/{UNREADABLE}" in self.tasks else None

    def _resolved(self, owner: str, key: str, written: tuple[str, ...]) -> tuple[str, ...]:
        stem = owner.partition("/")[0]
        path = key_path(owner, self.components)
        full_names: dict[str, None] = {}
        for place, name in enumerate(written):
            full = self._find(name, stem)
            if full is not None:
                full_names[full] = None
                continue
            sentence = f'there is no task or component "{name}"'
            hint = _hint(
                self.remarks, name, lambda: [*self._own(stem), *self.components, *self.tasks]
            )
            misfit = Misfit((*path, key, place), "unknown-name", sentence, hint)
            self.remarks.append(Remark(file_of(owner), *misfit, rests_on=(file_of(name),)))
        return tuple(full_names)

    def _own(self, stem: str) -> Iterator[str]:
        for full_name in (*self.components, *self.tasks):
            file, _, name = full_name.partition("/")
            if name and file == stem:
                yield name

    def _own_parts(self, stem: str) -> list[str]:
        return [stem, *(n for n in self._own(stem) if f"{stem}/{n}" in self.components)]

    def in_component(self, component: Component) -> Component:
        part_of = component.part_of
        if part_of:
            stem = component.id.partition("/")[0]
            above = self._find(part_of, stem)
            if above not in self.components or above is None or not above.startswith(stem):
                hint = _hint(self.remarks, part_of, lambda: self._own_parts(stem))
                path = (*key_path(component.id, self.components), "part_of")
                sentence = f'there is no part "{part_of}" in this component'
                misfit = Misfit(path, "unknown-name", sentence, hint)
                self.remarks.append(Remark(file_of(component.id), *misfit))
                above = stem
            part_of = above
        return component._replace(
            part_of=part_of, after=self._resolved(component.id, "after", component.after)
        )

    def in_task(self, task: Task) -> Task:
        return task._replace(
            after=self._resolved(task.id, "after", task.after),
            during=self._resolved(task.id, "during", task.during),
            enough=self._keys(task, "enough", task.enough),
            within=self._keys(task, "within", task.within),
        )

    def _keys(self, task: Task, key: str, written: Mapping[str, _Value]) -> dict[str, _Value]:
        """A table whose keys name tasks that come before this one."""
        full = {name: self._find(name, task.id.partition("/")[0]) for name in written}
        for name, found in full.items():
            if found is None:
                misfit = Misfit(
                    ("tasks", task.name, key, name), "unknown-name", f'there is no task "{name}"'
                )
                self.remarks.append(Remark(file_of(task.id), *misfit, rests_on=(file_of(name),)))
        return {found: written[name] for name, found in full.items() if found is not None}


def _with_pieces(
    task: Task,
    pieces: Mapping[str, Piece],
    several: Mapping[str, tuple[str, ...]],
    remarks: list[Remark],
) -> Task:
    """The task with the full ids of the pieces that it names."""
    if not task.each and not task.pieces:
        return task
    stem = task.id.partition("/")[0]

    def full(key: str, written: tuple[str, ...]) -> tuple[str, ...]:
        ids: dict[str, None] = {}
        for place, name in enumerate(written):
            named = pieces_named(name, stem, pieces, several)
            if not named:
                sentence = f'there is no piece "{name}"'
                hint = _hint(remarks, name, lambda: [*several, *pieces])
                misfit = Misfit(("tasks", task.name, key, place), "unknown-name", sentence, hint)
                remarks.append(Remark(file_of(task.id), *misfit, rests_on=(file_of(name),)))
            ids |= dict.fromkeys(named)
        return tuple(ids)

    return task._replace(each=full("each", task.each), pieces=full("pieces", task.pieces))


def _hint(remarks: list[Remark], name: str, known: Callable[[], Iterable[str]]) -> str:
    return nearest(name, known()) if len(remarks) < MOST_HINTS else ""


def _untangle_tree(components: dict[str, Component], remarks: list[Remark]) -> None:
    """A part must not be part of itself, however far round, nor lie deeper than anybody looks."""
    level: dict[str, int] = {"": -1}  # what is above the main components
    for start in list(components):
        trail: dict[str, None] = {}
        above = start
        while above not in level:
            if above in trail:
                sentence = f'"{components[above].name}" is made a part of itself'
                _put_under_main(components, remarks, above, sentence)
                trail, above = {}, start
            trail[above] = None
            above = components[above].part_of
        depth = level[above]
        for one in reversed(trail):
            depth += 1
            if depth > MOST_LEVELS:
                sentence = f'"{components[one].name}" lies more than {MOST_LEVELS} parts deep'
                _put_under_main(components, remarks, one, sentence)
                depth = 1
            level[one] = depth


def _put_under_main(
    components: dict[str, Component], remarks: list[Remark], some_id: str, sentence: str
) -> None:
    path = (*key_path(some_id, components), "part_of")
    hint = "name the part or component above it"
    remarks.append(Remark(file_of(some_id), path, LOOP, sentence, hint))
    stem = some_id.partition("/")[0]
    components[some_id] = components[some_id]._replace(part_of=stem)


def _fitted(task: Task, parts: Parts, remarks: list[Remark]) -> Task:
    """The task with only the supplies and hazards that there are, its hold knowing the shop."""
    path: KeyPath = ("tasks", task.name)

    def known(
        key: str, thing: str, written: tuple[str, ...], all_of: object, file: str
    ) -> tuple[str, ...]:
        assert isinstance(all_of, Mapping | frozenset)
        kept = []
        for place, name in enumerate(written):
            if name in all_of:
                kept.append(name)
            else:
                sentence = f'there is no {thing} "{name}"'
                hint = _hint(remarks, name, lambda: all_of)
                misfit = Misfit((*path, key, place), "unknown-name", sentence, hint)
                remarks.append(Remark(file_of(task.id), *misfit, rests_on=(file,)))
        return tuple(kept)

    hold = task.hold
    if hold is not None and hold.conditions is SHOP:
        hold = hold._replace(conditions=parts.vehicle.shop.conditions)
    conditions = task.conditions
    supplies = known("supplies", "supply", task.supplies, parts.supplies, SUPPLIES)
    return task._replace(
        uses=known("uses", "jig", task.uses, parts.vehicle.jigs, VEHICLE),
        conditions=parts.vehicle.shop.conditions if conditions is SHOP else conditions,
        supplies=supplies,
        amounts={supply: task.amounts[supply] for supply in supplies if supply in task.amounts},
        hazards=known("hazards", "hazard sheet", task.hazards, parts.known_hazards, HAZARDS),
        hold=hold,
    )


def _cut(
    components: Mapping[str, Component],
    tasks: Mapping[str, Task],
    every: list[Link],
    standing: list[Link],
) -> tuple[dict[str, Component], dict[str, Task]]:
    """Components and tasks with only the written order that still stands: what is cut for one piece
    of a series is cut for all."""
    left_standing = {id(link) for link in standing}
    gone = {(link.written_in, link.names) for link in every if id(link) not in left_standing}

    def left(owner: str, written: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(name for name in written if (owner, name) not in gone)

    return (
        {c.id: c._replace(after=left(c.id, c.after)) for c in components.values()},
        {
            t.id: t._replace(after=left(t.id, t.after), during=left(t.id, t.during))
            for t in tasks.values()
        },
    )


def _loop_remarks(loops: list[list[Link]], components: Mapping[str, Component]) -> list[Remark]:
    """A remark for each loop as it is written, not for every piece that goes round in it."""
    as_written = {(loop[-1].written_in, loop[-1].names): loop for loop in reversed(loops)}
    return [_loop_remark(loop, components) for loop in reversed(as_written.values())]


def _loop_remark(loop: list[Link], components: Mapping[str, Component]) -> Remark:
    """The whole loop, task by task, each step with the place where it is written."""
    last = loop[-1]
    owner = last.written_in
    steps = [Step(_node_name(loop[0].before))]
    for link in loop:
        name = _node_name(link.after)
        if link.written_in:
            path = (*key_path(link.written_in, components), link.cause)
            steps.append(Step(name, file_of(link.written_in), path))
        elif name != steps[-1].says:
            steps.append(Step(name))
    sentence = "the order of work goes round in a loop"
    path = (*key_path(owner, components), last.cause)
    misfit = Misfit(path, LOOP, sentence, f'remove "{last.names}" from this list, or mend the rest')
    return Remark(file_of(owner), *misfit, steps=tuple(steps))


def _node_name(node: str) -> str:
    if node.startswith(">"):
        return f"the start of {gate_of(node)}"
    return f"all of {gate_of(node)}" if gate_of(node) else node


def _clock(vehicle: Vehicle) -> ShopClock:
    if not vehicle.timezone:
        return ShopClock()
    from zoneinfo import ZoneInfo

    return ShopClock(ZoneInfo(vehicle.timezone))
