"""What comes before what: adjacency lists, an order that respects them, and loops named."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

Link = tuple[int, int, float]
"""(before, after, lag): `after` starts at the earliest `lag` after `before` finishes."""


class Loop(ValueError):
    """The links run in a circle; `members` names it, each one before the next, the last before
    the first."""

    def __init__(self, members: Sequence[int]) -> None:
        self.members = tuple(members)
        super().__init__("loop: " + " -> ".join(map(str, (*self.members, self.members[0]))))


class Network(NamedTuple):
    """Finish-to-start links over activities 0 .. size - 1, made once and used with many durations.

    `after[i]` and `before[i]` hold pairs (neighbour, lag). `order` lists every activity after all
    those before it.
    """

    size: int
    after: tuple[tuple[tuple[int, float], ...], ...]
    before: tuple[tuple[tuple[int, float], ...], ...]
    order: tuple[int, ...]


def network(count: int, links: Iterable[Link]) -> Network:
    """Read `links` over activities 0 .. count - 1.

    A lag may be negative (a lead). Raises Loop when the links run in a circle, IndexError when a
    link names an activity that is not there.
    """
    after: list[list[tuple[int, float]]] = [[] for _ in range(count)]
    before: list[list[tuple[int, float]]] = [[] for _ in range(count)]
    for first, second, lag in links:
        if not (0 <= first < count and 0 <= second < count):
            raise IndexError(f"link {first} -> {second}: there are {count} activities")
        after[first].append((second, lag))
        before[second].append((first, lag))
    return Network(
        count,
        tuple(map(tuple, after)),
        tuple(map(tuple, before)),
        _topological(after, [len(links_in) for links_in in before]),
    )


def _topological(
    after: Sequence[Sequence[tuple[int, float]]], waiting_for: list[int]
) -> tuple[int, ...]:
    """Kahn's algorithm (Communications of the ACM 5, 1962); a queue keeps the given order."""
    order = [i for i, missing in enumerate(waiting_for) if not missing]
    for activity in order:  # grows while it is read
        for follower, _ in after[activity]:
            waiting_for[follower] -= 1
            if not waiting_for[follower]:
                order.append(follower)
    if len(order) < len(after):
        raise Loop(_a_loop(after, {i for i, missing in enumerate(waiting_for) if missing}))
    return tuple(order)


def _a_loop(after: Sequence[Sequence[tuple[int, float]]], stuck: set[int]) -> list[int]:
    """One circle among the activities that never came up.

    Each of them waits for another of them, so walking backwards must come round.
    """
    waits_for = {follower: i for i in stuck for follower, _ in after[i] if follower in stuck}
    seen: dict[int, int] = {}
    walk: list[int] = []
    here = min(stuck)
    while here not in seen:
        seen[here] = len(walk)
        walk.append(here)
        here = waits_for[here]
    return walk[seen[here] :][::-1]


def longest_tail(net: Network, durations: Sequence[float]) -> list[float]:
    """For each activity the least time from its own start to the end of everything behind it."""
    tail = list(durations)
    for activity in reversed(net.order):
        behind = 0.0
        own = durations[activity]
        for follower, lag in net.after[activity]:
            reach = tail[follower] + lag
            if reach > behind:
                behind = reach
        tail[activity] = own + behind if behind else own
    return tail
