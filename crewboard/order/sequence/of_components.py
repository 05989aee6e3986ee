"""The components in the order of the work: none before one that its own work comes after."""

from heapq import heapify, heappop, heappush

from crewboard.plan.plan import Plan


def components_in_order(plan: Plan) -> list[str]:
    """The ids of all components, so that each stands behind those that its tasks come after, as
    far as that goes round in no circle; where nothing says which is first, as in the files.

    Between two parts the order is that of what they are both parts of. Topological order after
    A. B. Kahn, "Topological sorting of large networks", 1962.
    """
    before = _before(plan)
    place = {component: number for number, component in enumerate(plan.components)}
    behind: dict[str, list[str]] = {}
    for component, earlier in before.items():
        for one in earlier:
            behind.setdefault(one, []).append(component)
    waits = {component: len(before[component]) for component in place}
    free = [place[component] for component in place if not waits[component]]
    heapify(free)
    names, ordered = list(place), dict[str, None]()
    while len(ordered) < len(names):
        # Two components that come after each other by different tasks: the first of the files.
        number = heappop(free) if free else next(place[c] for c in names if c not in ordered)
        component = names[number]
        if component in ordered:
            continue
        ordered[component] = None
        for later in behind.get(component, ()):
            waits[later] -= 1
            if not waits[later]:
                heappush(free, place[later])
    return list(ordered)


def _before(plan: Plan) -> dict[str, set[str]]:
    """Of each component those beside it whose work its own comes after."""
    before: dict[str, set[str]] = {component: set() for component in plan.components}
    lines = {component: _line(plan, component) for component in plan.components}
    for component in plan.components.values():
        for name in component.after:
            _put_before(plan, lines, before, component.id, name)
    for task in plan.tasks.values():
        for name in task.after:
            _put_before(plan, lines, before, task.component, name)
    return before


def _put_before(
    plan: Plan, lines: dict[str, list[str]], before: dict[str, set[str]], here: str, name: str
) -> None:
    task = plan.tasks.get(name)
    there = task.component if task else name
    if there == here or here not in lines or there not in lines:
        return
    for mine, other in zip(lines[here], lines[there], strict=False):
        if mine != other:  # the two that lie side by side
            before[mine].add(other)
            return


def _line(plan: Plan, component: str) -> list[str]:
    """The component with what it is part of, from the top."""
    line: list[str] = []
    while component and component in plan.components and component not in line:
        line.append(component)
        component = plan.components[component].part_of
    return line[::-1]
