"""Questions about the order: what stands alone, what leads nowhere, what follows anyway."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.review.question import Question
from crewboard.order.said import listed, name_of
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.order.sequence.links import Link, gate_of, links

# Of all tasks so many may lead to nothing but the finish (DCMA point 1).
OPEN_ENDS = 0.05
# Below so many tasks a share says nothing.
_ENOUGH = 20


def about_links(board: Board) -> Iterator[Question]:
    """Only about work that is not finished: the past needs no mending."""
    plan = board.plan
    written = [link for link in links(plan.components, plan.tasks, plan.series) if link.written_in]
    yield from _alone(board, written)
    yield from _open_ends(board)
    yield from _components(board)
    yield from _follows_anyway(board, written)


def _open_tasks(board: Board) -> list[str]:
    return [
        s.task.id
        for s in board.standings.values()
        if not s.work_done and s.task.id not in board.not_asked
    ]


def _alone(board: Board, written: Iterable[Link]) -> Iterator[Question]:
    tasks = {name: t for name, t in board.plan.tasks.items() if name not in board.not_asked}
    linked = _named(board, written) | {link.after for link in written}
    in_component: dict[str, int] = {}
    for task in tasks.values():
        in_component[task.component] = in_component.get(task.component, 0) + 1
    before, behind = board.order.with_work_before(), board.order.with_work_behind()
    for task_id in _open_tasks(board):
        task = tasks[task_id]
        if task_id in linked:
            continue
        if len(tasks) > 1 and task_id not in before and task_id not in behind:
            yield Question(
                "stands alone",
                "task",
                task_id,
                f'nothing comes before "{task.title}" and nothing behind it',
                "say with after what has to come first, or in another task that this one does",
            )
        elif in_component[task.component] > 2:
            yield Question(
                "loose in its component",
                "task",
                task_id,
                f'"{task.title}" has no order among the tasks of its component',
                "say with after what it follows, if the order matters",
            )


def _named(board: Board, written: Iterable[Link]) -> set[str]:
    """The tasks that another names as what comes before it; all of a series that does as one."""
    ends = {link.before for link in written}
    gates = {*map(gate_of, ends)}
    for series in board.plan.series.values():
        if series.id in gates:
            ends.update(series.members.values())
    return ends


def _open_ends(board: Board) -> Iterator[Question]:
    tasks = _open_tasks(board)
    behind = board.order.with_work_behind()
    ends = [task for task in tasks if task not in behind]
    if len(tasks) >= _ENOUGH and len(ends) > max(1, OPEN_ENDS * len(tasks)):
        every = (board.plan.written(task) for task in ends)
        titles = list(dict.fromkeys(task.title for task in every if task))
        more = [f"{len(titles) - 3} more"] if len(titles) > 3 else []
        yield Question(
            "many open ends",
            "vehicle",
            "",
            f"{len(ends)} of {len(tasks)} tasks lead to nothing but the finish: "
            f"{listed([*titles[:3], *more])}",
            "name what has to wait for them, so that the longest chain is the true one",
        )


def _components(board: Board) -> Iterator[Question]:
    plan = board.plan
    busy: set[str] = set()
    worked_on = {
        plan.pieces[piece].component for task in plan.tasks.values() for piece in task.pieces
    }
    for above in (*(task.component for task in plan.tasks.values()), *worked_on):
        while above in plan.components and above not in busy:
            busy.add(above)
            above = plan.components[above].part_of
    linked = {main for pair in _links_across(board) for main in pair}
    mains = [c for c in plan.components.values() if not c.part_of]
    for component in plan.components.values():
        if component.id not in busy:
            yield Question(
                "nothing to do",
                "component",
                component.id,
                f"{component.name} has no tasks, so it is never begun and never finished",
                "add its tasks, or remove the component",
            )
        elif not component.part_of and component.id not in linked and len(mains) > 1:
            yield Question(
                "component stands alone",
                "component",
                component.id,
                f"no other component waits for {component.name} and it waits for none",
                "say with after which component comes first",
            )


def _links_across(board: Board) -> Iterator[tuple[str, str]]:
    """The main components of both ends of each written link between two."""
    plan = board.plan
    main_of = _main_components(board)
    written = [(c.id, c.after) for c in plan.components.values()]
    written += [(t.component, (*t.after, *t.during)) for t in plan.tasks.values()]
    for component, names in written:
        for named in names:
            other = plan.home_of(named)
            if main_of[component] != main_of[other]:
                yield main_of[component], main_of[other]


def _main_components(board: Board) -> dict[str, str]:
    """Each component with the main one at the top of its branch."""
    components, mains = board.plan.components, dict[str, str]()
    for component in components:
        branch, above = [], component
        while above not in mains and components[above].part_of:
            branch.append(above)
            above = components[above].part_of
        main = mains.setdefault(above, above)
        mains |= dict.fromkeys(branch, main)
    return mains


class _Asked(NamedTuple):
    """A name in the `after` of an owner: does its end come before one of the other nodes?"""

    owner: str
    title: str
    named: str
    node: str
    end: str
    written_in: str


def _follows_anyway(board: Board, written: Sequence[Link]) -> Iterator[Question]:
    """Names in an `after` that come before another name of it in any case."""
    plan, asked = board.plan, list(_asked(board, written))
    anyway = _come_before_another(board, asked)
    # Written once, it may stand for several links: it is needed while one of them is.
    needed = {(one.written_in, one.named) for one in asked if one not in anyway}
    for one in asked:
        if (one.written_in, one.named) not in needed:
            name = name_of(plan, one.named)
            yield Question(
                "follows anyway",
                "task" if one.owner in plan.tasks else "component",
                one.owner,
                f'"{one.title}" comes after "{name}" in any case, through its other predecessors',
                f'the name "{one.named}" can be left out of its after',
                "after",
            )


def _asked(board: Board, written: Iterable[Link]) -> Iterator[_Asked]:
    plan = board.plan
    for before, after, _, written_in, named in written:
        task = plan.tasks.get(after)
        if task is None:
            owner = gate_of(after)
            yield _Asked(owner, plan.components[owner].name, named, after, before, written_in)
        elif not task.during and not board[after].work_done:
            yield _Asked(after, task.title, named, after, before, written_in)


# So many ends are looked for at once, a bit each: with all of a large plan at once the bits alone
# would take more memory than an old laptop has.
_AT_ONCE = 4096


def _come_before_another(board: Board, asked: Iterable[_Asked]) -> set[_Asked]:
    """Those whose end is over, hold and all, before another node right before the owner's."""
    order = board.order
    place = {node: number for number, node in enumerate(order.sequence)}
    by_end: dict[int, list[_Asked]] = {}
    for one in asked:
        if len(order.before[one.node]) > 1:
            by_end.setdefault(place[one.end] // _AT_ONCE, []).append(one)
    anyway: set[_Asked] = set()
    for block, ones in by_end.items():
        first, last = block * _AT_ONCE, max(place[one.node] for one in ones)
        before = _before_each(order, order.sequence[first : last + 1])
        for one in ones:
            bit = 1 << place[one.end] - first
            others = (node for node in order.before[one.node] if node != one.end)
            if any(before.get(node, 0) & bit for node in others):
                anyway.add(one)
        del before  # not two blocks' bits at once
    return anyway


def _before_each(order: OrderOfWork, nodes: Sequence[str]) -> dict[str, int]:
    """For each of these nodes, as bits, those of the first of them that are over before it."""
    bit = {node: 1 << number for number, node in enumerate(nodes[:_AT_ONCE])}
    all_before: dict[str, int] = {}
    for node in nodes:
        before = 0
        for earlier in order.before[node]:
            before |= all_before.get(earlier, 0) | bit.get(earlier, 0)
        for earlier in order.during.get(node, ()):
            before &= ~bit.get(earlier, 0)  # its hold need not be over
        if before:
            all_before[node] = before
    return all_before
