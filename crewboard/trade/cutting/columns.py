"""Ways to cut a board, found as they are wanted, where there are too many to go through.

Column generation (Gilmore and Gomory, 1961): a linear program over the ways known so far gives each
piece a price; the way that is worth most at these prices joins them, until none is worth more than
its board. From the last prices follows what no cutting can do better than (Farley, 1990), worked
out in whole numbers. (Both from memory; the tests hold them against published instances.)
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Any, NamedTuple

from crewboard.trade.boards.combine import Counts, nearest
from crewboard.trade.cutting.order import Cutting

if TYPE_CHECKING:
    from numpy import bool_
    from numpy.typing import NDArray

Way = tuple[int, Counts]
"""Of which board, how many of each piece."""
MOST_ROOM = 100_000  # units of a board
_MOST_ROUNDS = 1_000
_FINE = 10**6  # prices in whole numbers are so much a unit
_HAIR = 1e-7


class Columns(NamedTuple):
    """Ways to choose among, and what no cutting can take less than, as `plain_rule.length_of`."""

    ways: list[Way]
    bound: int


def columns(job: Cutting, known: Sequence[Way]) -> Columns | None:
    """None where the boards are too finely measured, or the known ways do not make all pieces.

    Needs OR-Tools, which brings numpy."""
    if max(job.boards) > MOST_ROOM or not known:
        return None
    from ortools.linear_solver import pywraplp

    program: Any = pywraplp.Solver.CreateSolver("GLOP")
    wanted = [program.Constraint(float(n), program.infinity()) for n in job.wanted]
    had = [program.Constraint(-float(n), program.infinity()) for n in job.enough]
    program.Objective().SetMinimization()

    def add(way: Way) -> None:
        board, pieces = way
        times = program.NumVar(0.0, program.infinity(), "")
        program.Objective().SetCoefficient(times, float(job.boards[board]))
        had[board].SetCoefficient(times, -1.0)
        for piece, count in zip(wanted, pieces, strict=True):
            if count:
                piece.SetCoefficient(times, float(count))

    ways = dict.fromkeys(known)
    for way in ways:
        add(way)
    for _ in range(_MOST_ROUNDS):
        if program.Solve() != pywraplp.Solver.OPTIMAL:
            return None
        prices = [max(0.0, one.dual_value()) for one in wanted]
        scarce = [max(0.0, one.dual_value()) for one in had]
        better = []
        for board, room in enumerate(job.boards):
            worth, pieces = fullest(job, room, prices)
            if worth > room + scarce[board] + _HAIR * room and (board, pieces) not in ways:
                better.append((board, pieces))
        if not better:
            return Columns(list(ways), _bound(job, prices, scarce))
        for way in better:
            ways[way] = None
            add(way)
    return None


def fullest(job: Cutting, room: int, prices: Sequence[float]) -> tuple[float, Counts]:
    """What is worth most in a board, and how much that is: a knapsack with no piece more often than
    it is wanted."""
    import numpy as np

    best = np.zeros(room + 1)
    steps: list[tuple[int, int, NDArray[bool_]]] = []
    for number, (size, most) in enumerate(zip(job.pieces, job.wanted, strict=True)):
        left, together = min(most, room // size), 1
        while left and prices[number]:  # 1, 2, 4 ... of them at a time
            together = min(together, left)
            more = np.full(room + 1, -1.0)
            more[size * together :] = best[: room + 1 - size * together]
            more[size * together :] += prices[number] * together
            taken = more > best
            best = np.where(taken, more, best)
            steps.append((number, together, taken))
            left, together = left - together, together * 2
    counts, at = [0] * len(job.pieces), room
    for number, together, taken in reversed(steps):
        if taken[at]:
            counts[number] += together
            at -= job.pieces[number] * together
    return float(best[room]), tuple(counts)


def _bound(job: Cutting, prices: Sequence[float], scarce: Sequence[float]) -> int:
    """Prices at which no way is worth more than its board sum up to less than any cutting takes:
    those of the program, made whole and lowered until that is so without rounding; then the least
    that whole boards come to."""
    fine = [int(price * _FINE) for price in prices]
    rare = [int(price * _FINE) for price in scarce]
    lowered = Fraction(1)
    for board, room in enumerate(job.boards):
        worth = int(fullest(job, room, [float(price) for price in fine])[0]) - rare[board]
        if worth > 0:
            lowered = min(lowered, Fraction(room * _FINE, worth))
    total = sum(p * n for p, n in zip(fine, job.wanted, strict=True))
    total -= sum(r * n for r, n in zip(rare, job.enough, strict=True))
    least = int(-(-total * lowered // _FINE))
    return nearest(job.boards, job.enough, least - 1)[1] or least
