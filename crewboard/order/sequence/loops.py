"""Loops in the order of work: work that would have to come before itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crewboard.order.sequence.links import Link

MOST_LOOPS = 100
"""As many loops as are told: whoever has more begins with these."""


def find_loop(links: Iterable[Link]) -> list[Link]:
    """One loop as the links around it, each beginning where the last ends; empty if there is none.

    Depth first without recursion, so that a chain of thousands of tasks is no trouble.
    """
    onward: dict[str, list[Link]] = {}
    for link in links:
        onward.setdefault(link.before, []).append(link)
    done: set[str] = set()
    for start in onward:
        if start in done:
            continue
        trail: list[Link] = []
        on_trail = {start}
        waiting = [iter(onward[start])]
        while waiting:
            ahead = next(waiting[-1], None)
            if ahead is None:
                waiting.pop()
                left = trail.pop() if trail else None
                node = left.after if left else start
                on_trail.discard(node)
                done.add(node)
            elif ahead.after in on_trail:
                trail.append(ahead)
                first = next(i for i, link in enumerate(trail) if link.before == ahead.after)
                return trail[first:]
            elif ahead.after not in done:
                trail.append(ahead)
                on_trail.add(ahead.after)
                waiting.append(iter(onward.get(ahead.after, ())))
    return []


def without_loops(links: Iterable[Link]) -> tuple[list[Link], list[list[Link]]]:
    """The links left when each loop was broken, and the loops found, each ending where it was cut.

    A loop is broken at a link that somebody wrote, the last of the loop in the order of the files:
    so the rest of the folder can still be worked with while the loop is mended. After
    `MOST_LOOPS` all that was written inside what is still knotted is cut and not told.
    """
    standing = list(links)
    if not find_loop(standing):
        return standing, []
    place = {id(link): number for number, link in enumerate(standing)}
    loops: list[list[Link]] = []
    cut: set[int] = set()
    ahead = knots(standing)
    while ahead:
        knot = ahead.pop()
        if len(loops) == MOST_LOOPS:
            cut |= {id(link) for link in written_steps(knot)}
            continue
        loop = find_loop(knot)
        weakest = max(written_steps(loop) or loop, key=lambda link: place[id(link)])
        end = next(i for i, link in enumerate(loop, 1) if link is weakest)
        loops.append(loop[end:] + loop[:end])
        cut.add(id(weakest))
        ahead += knots(link for link in knot if link is not weakest)
    return [link for link in standing if id(link) not in cut], loops


def knots(links: Iterable[Link]) -> list[list[Link]]:
    """The links of each group of nodes that all come before one another; none without a loop.

    Strongly connected components by Tarjan's algorithm (1972), without recursion.
    """
    every = list(links)
    onward: dict[str, list[str]] = {}
    for link in every:
        onward.setdefault(link.before, []).append(link.after)
        onward.setdefault(link.after, [])
    met: dict[str, int] = {}  # node -> when it was met first
    lowest: dict[str, int] = {}  # node -> the earliest node it leads back to
    group: dict[str, int] = {}
    trail: list[str] = []
    for start in onward:
        if start in met:
            continue
        ahead = [(start, iter(onward[start]))]
        met[start] = lowest[start] = len(met)
        trail.append(start)
        while ahead:
            node, followers = ahead[-1]
            for follower in followers:
                if follower not in met:
                    met[follower] = lowest[follower] = len(met)
                    trail.append(follower)
                    ahead.append((follower, iter(onward[follower])))
                    break
                if follower not in group:
                    lowest[node] = min(lowest[node], met[follower])
            else:
                ahead.pop()
                if ahead:
                    above = ahead[-1][0]
                    lowest[above] = min(lowest[above], lowest[node])
                if lowest[node] == met[node]:
                    while node not in group:
                        group[trail.pop()] = met[node]
    inside: dict[int, list[Link]] = {}
    for link in every:
        if group[link.before] == group[link.after]:
            inside.setdefault(group[link.before], []).append(link)
    return list(inside.values())


def written_steps(loop: Sequence[Link]) -> list[Link]:
    """The links of a loop that somebody wrote: the ones that can be mended."""
    return [link for link in loop if link.cause != "tree"]
