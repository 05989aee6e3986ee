"""The vehicle as a tree of rows: main components, their parts and tasks, in the order of the work;
above them the sum of all."""

from collections.abc import Callable, Container, Iterable, Iterator
from datetime import datetime
from typing import NamedTuple

from crewboard.logbook.state import NOT_YET, State
from crewboard.order.board import Board, Standing
from crewboard.order.holds.words import stage_in_words
from crewboard.order.said import component_name, day_in_words, how_many, listed, supply_name
from crewboard.order.sequence.of_components import components_in_order
from crewboard.plan.component import Component
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.notes import notes_on
from crewboard.telling.reckoned_of import reckoned_lines
from crewboard.telling.row import STATE_TONE, Row, heading, percent
from crewboard.telling.series import FoldedSeries, fold, member_name, series_row, so_far
from crewboard.telling.task import comes_after

# A component is in the first of these states that any of its unfinished tasks is in.
_LOUDEST: tuple[State, ...] = ("under way", "ready", *NOT_YET, "set aside")


class Sum(NamedTuple):
    """A component with all its parts: tasks done, tasks in all, hours logged, its state."""

    done: int
    of: int
    hours: float
    state: State


class Tree:
    """The vehicle's tree at one moment, summed up once."""

    def __init__(self, board: Board) -> None:
        self.board = board
        self.parts: dict[str, list[Component]] = {}
        for component_id in components_in_order(board.plan):
            component = board.plan.components[component_id]
            self.parts.setdefault(component.part_of, []).append(component)
        self.tasks: dict[str, list[Standing]] = {}
        for standing in board.standings.values():
            self.tasks.setdefault(standing.task.component, []).append(standing)
        self.sums: dict[str, Sum] = {}
        for component in reversed(list(self._from_the_top())):
            self.sums[component.id] = self._summed(component)

    def _from_the_top(self) -> Iterator[Component]:
        ahead = list(self.parts.get("", ()))
        while ahead:
            component = ahead.pop()
            yield component
            ahead += self.parts.get(component.id, ())

    def _summed(self, component: Component) -> Sum:
        own = self.tasks.get(component.id, [])
        below = [self.sums[part.id] for part in self.parts.get(component.id, ())]
        states = {s.state for s in own} | {s.state for s in below if s.of}
        counted = [s for s in own if s.state != "set aside"]
        return Sum(
            sum(s.work_done for s in counted) + sum(s.done for s in below),
            len(counted) + sum(s.of for s in below),
            sum(s.hours for s in own) + sum(s.hours for s in below),
            next((state for state in _LOUDEST if state in states), "finished"),
        )

    @property
    def total(self) -> Sum:
        """The whole vehicle."""
        sums = [self.sums[component.id] for component in self.parts.get("", ())]
        states = {one.state for one in sums if one.of}
        return Sum(
            sum(one.done for one in sums),
            sum(one.of for one in sums),
            sum(one.hours for one in sums),
            next((state for state in _LOUDEST if state in states), "finished"),
        )

    def rows(
        self,
        opened: Container[str] | None = None,
        *,
        tasks: bool = True,
        pieces: Callable[[str, int], Iterable[Row]] | None = None,
    ) -> list[Row]:
        """The main components, and what lies in the opened branches; all where None is given.

        `pieces` gives the rows of a component's pieces at a depth.
        """
        rows: list[Row] = [heading(total_in_words(self.total))] if self.sums else []
        ahead = [(component, 0) for component in reversed(self.parts.get("", []))]
        while ahead:
            component, depth = ahead.pop()
            unfolded = opened is None or component.id in opened
            rows.append(self._component_row(component, depth, opened=unfolded))
            if unfolded:
                rows += self._task_rows(component.id, opened or (), depth + 1) if tasks else ()
                rows += pieces(component.id, depth + 1) if pieces else ()
                parts = self.parts.get(component.id, [])
                ahead += [(part, depth + 1) for part in reversed(parts)]
        return rows

    def _task_rows(self, component_id: str, opened: Container[str], depth: int) -> Iterator[Row]:
        """The component's own tasks; a series as one row until it is opened."""
        own = [standing.task.id for standing in self.tasks.get(component_id, ())]
        for item in fold(self.board, own, least=1):
            if isinstance(item, str):
                yield self._task_row(self.board[item], depth)
                continue
            yield self._series_row(item, depth, folded=item.id not in opened)
            if item.id in opened:
                yield from (self._member_row(self.board[task], depth + 1) for task in item.tasks)

    def _series_row(self, item: FoldedSeries, depth: int, *, folded: bool) -> Row:
        row = series_row(self.board, item)
        title = self.board.plan.series[item.series].task.title
        hours = sum(self.board[task].hours for task in item.tasks)
        cells = (row.cells[0], title, so_far(self.board, item.series), _hours(hours))
        return row._replace(
            cells=cells, below=(), below_in_full=row.below, depth=depth, folded=folded
        )

    def _member_row(self, standing: Standing, depth: int) -> Row:
        row = self._task_row(standing, depth)
        name = member_name(self.board, standing.task.id)
        return row._replace(cells=(row.cells[0], name, *row.cells[2:]), find=standing.task.title)

    def all_tasks(self) -> list[Row]:
        """Every task on its own, to be found wherever it is."""
        plan = self.board.plan
        return [
            self._task_row(s, 0)._replace(
                find=f"{s.task.id} {component_name(plan, s.task.component)}"
            )
            for s in self.board.standings.values()
        ]

    def is_empty(self, component_id: str) -> bool:
        """Whether a component has neither parts nor tasks."""
        return component_id not in self.tasks and component_id not in self.parts

    def _component_row(self, component: Component, depth: int, *, opened: bool) -> Row:
        summed = self.sums[component.id]
        done = f"{summed.done} of {summed.of}" if summed.of else "no tasks"
        cells = (summed.state if summed.of else "", component.name, done, _hours(summed.hours))
        tone = STATE_TONE[summed.state]
        after = _texts(comes_after(self.board, component_id=component.id))
        return Row(
            *(component.id, cells, tone),
            below_in_full=after,
            body_tone="strong",
            handle=component.id,
            depth=depth,
            folded=None if self.is_empty(component.id) else not opened,
            share=summed.done / summed.of if summed.of else None,
        )

    def _task_row(self, standing: Standing, depth: int) -> Row:
        estimate = standing.task.estimate
        planned = f"of {estimate.likely:g} h" if estimate else ""
        cells = (standing.state, standing.task.title, _hours(standing.hours), planned)
        tone = STATE_TONE[standing.state]
        until = _until(self.board, standing)
        return Row(
            *(standing.task.id, cells, tone),
            below_in_full=(until,) if until else (),
            handle=standing.task.id,
            depth=depth,
            tasks=(standing.task.id,),
        )


def _hours(hours: float) -> str:
    return f"{hours:.10g} h" if hours else ""


def _texts(lines: Iterable[Line]) -> tuple[str, ...]:
    return tuple(f"{line.word} {line.text}" for line in lines)


def _until(board: Board, standing: Standing) -> str:
    """When what holds the task ends, as far as is known."""
    holds = [board.holds[hold] for hold in standing.holds if hold in board.holds]
    if holds:
        last = max(holds, key=lambda hold: hold.until or datetime.max)
        return stage_in_words(board.plan, last, board.at)
    if standing.short_of:
        return f"not here yet: {listed(supply_name(board.plan, s) for s in standing.short_of)}"
    return f"not before {day_in_words(standing.until)}" if standing.until else ""


def total_in_words(total: Sum) -> str:
    """ "In all: 45 of 120 tasks finished (37 %), 380 h"."""
    if not total.of:
        return "In all: no tasks yet"
    share = percent(total.done / total.of)
    finished = f"{total.done} of {how_many(total.of, 'task')} finished ({share} %)"
    return f"In all: {', '.join(filter(None, (finished, _hours(total.hours))))}"


def vehicle_title(board: Board) -> str:
    """The vehicle's name, and what it is."""
    vehicle = board.plan.vehicle
    return f"{vehicle.name}: {vehicle.what}" if vehicle.what else vehicle.name


def component_lines(board: Board, tree: Tree, component_id: str) -> list[Line]:
    """What is known of a component, to be read beside its row."""
    component, summed = board.plan.components[component_id], tree.sums[component_id]
    done = f"{summed.done} of {how_many(summed.of, 'task')} finished, {summed.hours:g} h"
    lines = [title(component.name), Line(done)]
    lines += comes_after(board, component_id=component_id)
    behind = [c.name for c in board.plan.components.values() if component_id in c.after]
    behind += [t.title for t in board.plan.tasks.values() if component_id in t.after]
    if behind:
        lines.append(Line(listed(behind), "faint", 0, "comes before:"))
    if component.about.strip():
        lines += [GAP, Line(component.about.strip())]
    pieces = [piece.id for piece in board.plan.pieces.values() if piece.component == component_id]
    reckoned = reckoned_lines(board, "component", component_id)
    return [*lines, *notes_on(board, component_id, *pieces), *reckoned]
