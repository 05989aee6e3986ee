"""How far the order of work is passed: what is done up to each node, and what still keeps it.

One rule, for what is (the board) and for what would be if a task were finished (`what_then`, and
what goes first).
"""

from collections import deque
from collections.abc import Iterable, Mapping, Set
from typing import Any, NamedTuple, TypeVar

from crewboard.order.sequence.graph import OrderOfWork

Names = tuple[str, ...]


class Facts(NamedTuple):
    """What is so of single nodes, whatever stands before them.

    `finished`: tasks whose own work is done; `reopened`: tasks that are open again; `held`: tasks
    and closing gates with a hold on them that is not over; `lost`: tasks of pieces that failed,
    whose work counts for nothing any more.
    """

    finished: Set[str]
    reopened: Set[str]
    held: Set[str]
    lost: Set[str] = frozenset()


class Passed(NamedTuple):
    """`done`: for every task and gate, whether all work up to here is done, with none before it
    open again: the logbook has the last word, so what was built on reopened work is not passed.

    `open_again`: node -> the reopened tasks somewhere before it. `held`: gate that is done -> the
    nodes right before it, seen through gates, on which a hold runs. Both name only the nodes that
    have such.
    """

    done: dict[str, bool]
    open_again: dict[str, Names]
    held: dict[str, Names]


def passed(order: OrderOfWork, facts: Facts) -> Passed:
    """Node after node, along the order of work."""
    answer = Passed(dict.fromkeys(order.sequence, False), {}, {})
    for node in order.sequence:
        _pass(order, facts, answer, node)
    return answer


def facts_if_finished(facts: Facts, task: str, held: bool) -> Facts:
    """What would be so of the other nodes were the task finished, with or without a hold on it.

    That the task itself is finished, `passed_if_finished` says: the set is not copied for each.
    """
    return facts._replace(
        reopened=facts.reopened - {task}, held={*facts.held, task} if held else facts.held
    )


def passed_if_finished(
    order: OrderOfWork, facts: Facts, now: Passed, task: str
) -> tuple[Passed, list[str]]:
    """How far the order would be passed were the task finished, and the nodes right behind all
    that would change. `facts` as they would be."""
    then = Passed(LaidOver(now.done), LaidOver(now.open_again), LaidOver(now.held))
    then.done[task] = not now.open_again.get(task, ())
    touched: dict[str, None] = {}
    ahead = deque(order.behind[task])
    while ahead:
        node = ahead.popleft()
        touched[node] = None
        if _pass(order, facts, then, node):
            ahead.extend(order.behind[node])
    return then, list(touched)


def held_before(order: OrderOfWork, facts: Facts, so_far: Passed, node: str) -> Names:
    """The tasks and closing gates right before a node, seen through gates, on which a hold runs."""
    return _handed_on(order.before[node], facts.held, so_far.held)


def _pass(order: OrderOfWork, facts: Facts, so_far: Passed, node: str) -> bool:
    """Work out one node from those right before it; whether its answer changed."""
    done, open_again, held = so_far
    before = order.before[node]
    reopened = _handed_on(before, facts.reopened, open_again)
    holding: Names = ()
    if (enough := order.enough.get(node)) is not None:
        passed_by = [b for b in before if done[b] and b not in facts.lost]
        is_done = len(passed_by) >= enough
        reopened = () if is_done else reopened
        free = sum(b not in facts.held for b in passed_by)
        if free < enough:
            holding = tuple(b for b in before if b in facts.held and b not in facts.lost)
    elif node not in order.tasks:  # a gate
        is_done = all(done[b] for b in before)
        holding = held_before(order, facts, so_far, node) if is_done else ()
    else:
        is_done = node in facts.finished and not reopened
    if (is_done, reopened, holding) == (done[node], open_again.get(node, ()), held.get(node, ())):
        return False
    done[node] = is_done
    for layer, names in ((open_again, reopened), (held, holding)):
        if names or layer.get(node):
            layer[node] = names
    return True


def _handed_on(before: Iterable[str], own: Set[str], layer: Mapping[str, Names]) -> Names:
    """What the nodes before hand on: themselves where the fact is theirs, and what they were
    handed."""
    if not own:
        return ()
    names: dict[str, None] = {}
    for node in before:
        if node in own:
            names[node] = None
        if handed := layer.get(node):
            names |= dict.fromkeys(handed)
    return tuple(names)


_Value = TypeVar("_Value")


class LaidOver(dict[str, _Value]):
    """Changed values laid over those below, which stay as they are."""

    def __init__(self, below: Mapping[str, _Value]) -> None:
        super().__init__()
        self._below = below

    def __missing__(self, node: str) -> _Value:
        return self._below[node]

    def get(self, node: str, default: Any = None) -> Any:
        return self[node] if node in self else self._below.get(node, default)
