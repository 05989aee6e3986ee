"""The fewest boards by a solver (OR-Tools' CP-SAT, Apache licence), where it is installed.

Every way to cut a board to which no further piece fits is a number of boards cut so; where there
are too many of them, those that `columns` finds. The solver is loaded only when it is asked; its
effort is counted in its own steps, so that the answer is the same on every machine.
"""

from collections.abc import Iterator
from typing import NamedTuple

from crewboard.trade.boards.combine import Counts
from crewboard.trade.cutting.columns import columns
from crewboard.trade.cutting.order import Cutting, OneBoard

MOST_WAYS = 2_000
_EFFORT = 4.0  # of the solver's own measure, some seconds of a usual machine


class SolvedCutting(NamedTuple):
    """The best found, empty where none can be: the stock does not last. What no cutting can do
    better than (as `plain_rule.length_of`); and whether every full way was gone through."""

    cut: list[OneBoard]
    bound: int
    every: bool = True


class NoCuttingSolver(Exception):
    """The solver library is not installed."""


def ways_to_cut(job: Cutting) -> list[tuple[int, Counts]] | None:
    """Every full way to cut each board; None where there are too many to go through."""
    ways: list[tuple[int, Counts]] = []
    for board, room in enumerate(job.boards):
        for pieces in _full(job, room):
            ways.append((board, pieces))
            if len(ways) > MOST_WAYS:
                return None
    return ways


def _full(job: Cutting, room: int) -> Iterator[Counts]:
    def onward(place: int, left: int, taken: Counts) -> Iterator[Counts]:
        if place == len(job.pieces):
            short = (
                size
                for size, n, most in zip(job.pieces, taken, job.wanted, strict=True)
                if n < most
            )
            if left < min(short, default=left + 1):
                yield taken
            return
        size = job.pieces[place]
        most = min(job.wanted[place], left // size)
        least = most if place == len(job.pieces) - 1 else 0  # of the last no fewer than fit
        for count in range(most, least - 1, -1):
            yield from onward(place + 1, left - count * size, (*taken, count))

    return onward(0, room, ())


def solve_cutting(job: Cutting, hint: list[OneBoard] | None) -> SolvedCutting | None:
    """The best cutting found; None where that was too much. Raises NoCuttingSolver where the
    library is missing."""
    try:
        from ortools.sat.python import cp_model
    except ImportError:
        raise NoCuttingSolver from None
    ways, least = ways_to_cut(job), 0
    every = ways is not None
    if ways is None:
        found = columns(job, [(one.board, one.pieces) for one in hint or ()])
        if found is None:
            return None
        ways, least = found
    model = cp_model.CpModel()
    enough = job.enough
    taken = [model.new_int_var(0, enough[board], "") for board, _ in ways]
    for piece, wanted in enumerate(job.wanted):
        model.add(sum(t * p[piece] for t, (_, p) in zip(taken, ways, strict=True)) >= wanted)
    for board, have in enumerate(job.stock):
        if have:
            of_it = [t for t, (b, _) in zip(taken, ways, strict=True) if b == board]
            model.add(sum(of_it) <= have)
    wood = sum(t * job.boards[b] for t, (b, _) in zip(taken, ways, strict=True))
    model.add(wood >= least)
    model.minimize(wood)
    hinted = {(one.board, one.pieces): one.times for one in hint or ()}
    for variable, way in zip(taken, ways, strict=True):
        model.add_hint(variable, hinted.get(way, 0))
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = _EFFORT
    solver.parameters.num_workers = 1
    solver.parameters.interleave_search = True
    solver.parameters.random_seed = 1
    status = solver.solve(model)
    if every and status == cp_model.INFEASIBLE:
        return SolvedCutting([], 0)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    counts = [solver.value(variable) for variable in taken]
    boards = [OneBoard(b, p, n) for (b, p), n in zip(ways, counts, strict=True) if n]
    bound = int(solver.best_objective_bound + 1e-6) if every else least
    return SolvedCutting(_no_more_than_wanted(job, boards), bound, every)


def _no_more_than_wanted(job: Cutting, boards: list[OneBoard]) -> list[OneBoard]:
    """Pieces that would be cut beyond those wanted stay in the board, as an offcut."""
    left = list(job.wanted)
    cut: dict[tuple[int, Counts], int] = {}
    for one in boards:
        for _ in range(one.times):
            pieces = tuple(min(n, have) for n, have in zip(one.pieces, left, strict=True))
            left = [have - n for have, n in zip(left, pieces, strict=True)]
            if any(pieces):
                cut[one.board, pieces] = cut.get((one.board, pieces), 0) + 1
    return [OneBoard(b, pieces, times) for (b, pieces), times in sorted(cut.items())]
