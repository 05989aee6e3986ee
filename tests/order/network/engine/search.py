"""Find a short schedule of a resource-constrained project."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import islice
from random import Random

from tests.order.network.engine.genetic import Made, generate
from tests.order.network.engine.resources import Project, Schedule
from tests.order.network.engine.ways import Ways, both_ways


def schedule(
    project: Project,
    schedules: int = 1000,
    *,
    seed: int = 0,
    stop: Callable[[], bool] | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Schedule:
    """The shortest of at most `schedules` generated ones; the same for the same seed.

    Each pass that gives every activity a time counts as one, justification passes too, as Kolisch
    and Hartmann count ("Experimental investigation of heuristics for resource-constrained project
    scheduling: an update", European Journal of Operational Research 174, 2006). Ends early when
    the length is proven to be the least, or when `stop()` says so; at least one is made always.
    `progress(made, shortest)` is called after each. Raises ValueError when the project is not
    sound or `schedules` is below 1, Loop when its links run in a circle.
    """
    if schedules < 1:
        raise ValueError(f"{schedules} schedules: at least 1 is needed")
    ways = both_ways(project)
    if not project.durations:
        return Schedule((), 0, 0, 0)
    best: Made | None = None
    made = 0
    for tried in islice(generate(ways, Random(seed), schedules), schedules):
        made += 1
        if best is None or tried.length < best.length:
            best = tried
        if progress is not None:
            progress(made, best.length)
        if best.length == ways.bound or (stop is not None and stop()):
            break
    assert best is not None
    return Schedule(_starts(ways, best), best.length, ways.bound, made)


def each_schedule(project: Project, budget: int, *, seed: int = 0) -> Iterator[tuple[int, ...]]:
    """The starts of each schedule as the search makes it, without end, for those who weigh them by
    something else than their length; `budget` is how many are going to be asked for. Raises as
    `schedule` does."""
    ways = both_ways(project)
    for made in generate(ways, Random(seed), budget) if project.durations else ():
        yield _starts(ways, made)[: len(project.durations)]


def _starts(ways: Ways, made: Made) -> tuple[int, ...]:
    """Starts in the project's own numbering and direction."""
    if made.side:
        return tuple(made.length - made.finish[number] for number in ways.place)
    return tuple(made.finish[number] - ways.forwards.durations[number] for number in ways.place)
