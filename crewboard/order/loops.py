"""Loops in the order of work: work that would have to come before itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crewboard.order.links import Link


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
                first = next(i for i, each in enumerate(trail) if each.before == ahead.after)
                return trail[first:]
            elif ahead.after not in done:
                trail.append(ahead)
                on_trail.add(ahead.after)
                waiting.append(iter(onward.get(ahead.after, ())))
    return []


def without_loops(links: Iterable[Link]) -> tuple[list[Link], list[list[Link]]]:
    """The links left when each loop was broken, and the loops found, each ending where it was cut.

    A loop is broken at a link that somebody wrote, the last of the loop in the order of the files:
    so the rest of the folder can still be worked with while the loop is mended.
    """
    standing = list(links)
    place = {id(link): number for number, link in enumerate(standing)}
    loops: list[list[Link]] = []
    while loop := find_loop(standing):
        weakest = max(written_steps(loop) or loop, key=lambda link: place[id(link)])
        cut = next(i for i, link in enumerate(loop, 1) if link is weakest)
        loops.append(loop[cut:] + loop[:cut])
        standing = [link for link in standing if link is not weakest]
    return standing, loops


def written_steps(loop: Sequence[Link]) -> list[Link]:
    """The links of a loop that somebody wrote: the ones that can be mended."""
    return [link for link in loop if link.cause != "tree"]
