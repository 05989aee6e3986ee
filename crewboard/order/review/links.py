"""Questions about the order: what stands alone, what leads nowhere, what follows anyway."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.order.board import Board
from crewboard.order.review.question import Question
from crewboard.order.said import listed, name_of
from crewboard.order.sequence.links import closing, opening

# Of all tasks so many may lead to nothing but the finish (DCMA point 1).
OPEN_ENDS = 0.05
# Below so many tasks a share says nothing.
_ENOUGH = 20


def about_links(board: Board) -> Iterator[Question]:
    """Only about work that is not finished: the past needs no mending."""
    yield from _alone(board)
    yield from _open_ends(board)
    yield from _components(board)
    yield from _follows_anyway(board)


def _open_tasks(board: Board) -> list[str]:
    return [s.task.id for s in board.standings.values() if not s.work_done]


def _alone(board: Board) -> Iterator[Question]:
    tasks = board.plan.tasks
    named = {name for task in tasks.values() for name in (*task.after, *task.during)}
    in_component: dict[str, int] = {}
    for task in tasks.values():
        in_component[task.component] = in_component.get(task.component, 0) + 1
    for task_id in _open_tasks(board):
        task = tasks[task_id]
        if task.after or task.during or task_id in named:
            continue
        if (
            len(tasks) > 1
            and not board.order.tasks_right_before(task_id)
            and (not board.order.tasks_right_behind(task_id))
        ):
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


def _open_ends(board: Board) -> Iterator[Question]:
    tasks = _open_tasks(board)
    ends = [task for task in tasks if not board.order.tasks_right_behind(task)]
    if len(tasks) >= _ENOUGH and len(ends) > max(1, OPEN_ENDS * len(tasks)):
        titles = [board.plan.tasks[task].title for task in ends[:3]]
        more = [f"{len(ends) - 3} more"] if len(ends) > 3 else []
        yield Question(
            "many open ends",
            "vehicle",
            "",
            f"{len(ends)} of {len(tasks)} tasks lead to nothing but the finish: "
            f"{listed([*titles, *more])}",
            "name what has to wait for them, so that the longest chain is the true one",
        )


def _components(board: Board) -> Iterator[Question]:
    plan = board.plan
    busy: set[str] = set()
    for task in plan.tasks.values():
        above = task.component
        while above in plan.components and above not in busy:
            busy.add(above)
            above = plan.components[above].part_of
    linked = {
        plan.main_of(end).id
        if end in plan.components
        else plan.main_of(plan.tasks[end].component).id
        for pair in _links_across(board)
        for end in pair
    }
    mains = [c for c in plan.components.values() if not c.part_of]
    for component in plan.components.values():
        if component.id not in busy:
            yield Question(
                "nothing to do",
                "component",
                component.id,
                f"{component.name} has no tasks, so it is never begun and never finished",
                "add its tasks, or take the component out",
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
    """The written links between different main components."""
    plan = board.plan
    for component in plan.components.values():
        for named in component.after:
            if not _same_main(board, component.id, named):
                yield component.id, named
    for task in plan.tasks.values():
        for named in (*task.after, *task.during):
            if not _same_main(board, task.component, named):
                yield task.id, named


def _same_main(board: Board, component: str, named: str) -> bool:
    plan = board.plan
    other = plan.tasks[named].component if named in plan.tasks else named
    return plan.main_of(component).id == plan.main_of(other).id


def _follows_anyway(board: Board) -> Iterator[Question]:
    """Names in an `after` that come before another name of it in any case."""
    behind = _all_before(board)
    bit = {node: 1 << n for n, node in enumerate(board.order.sequence)}
    plan = board.plan

    def end_of(named: str) -> str:
        return named if named in plan.tasks else closing(named)

    owners = [(t.id, t.id, t.after, t.title) for t in plan.tasks.values() if not t.during]
    owners += [(c.id, opening(c.id), c.after, c.name) for c in plan.components.values()]
    for owner, node, after, title in owners:
        if owner in board.standings and board[owner].work_done:
            continue
        for named in after:
            end = end_of(named)
            others = [b for b in board.order.before[node] if b != end]
            if any(behind[other] & bit[end] for other in others):
                name = name_of(plan, named)
                yield Question(
                    "follows anyway",
                    "task" if owner in plan.tasks else "component",
                    owner,
                    f'"{title}" comes after "{name}" in any case, through its other predecessors',
                    f'the name "{named}" can be left out of its after',
                    "after",
                )


def _all_before(board: Board) -> dict[str, int]:
    """For each node, as bits, all nodes that are over, holds and all, before it."""
    bit = {node: 1 << n for n, node in enumerate(board.order.sequence)}
    all_before: dict[str, int] = {}
    for node in board.order.sequence:
        before = 0
        for earlier in board.order.before[node]:
            before |= all_before[earlier] | bit[earlier]
        for earlier in board.order.during.get(node, ()):
            before &= ~bit[earlier]  # its hold need not be over
        all_before[node] = before
    return all_before
