"""A plain rule for cutting, which needs no solver; and what no cutting can do better than.

The longest pieces first, each into the first board that has room; or board by board the fullest
that the pieces left allow. The better of the two. (Both are textbook rules of bin packing.)
"""

from collections import Counter
from collections.abc import Iterator

from crewboard.trade.boards.combine import Counts, nearest, sums_of
from crewboard.trade.cutting.order import Cutting, OneBoard


def plain_rule(job: Cutting) -> list[OneBoard] | None:
    """The boards; None where the stock does not last."""
    tries = [cut for cut in (_first_that_has_room(job), _fullest(job)) if cut is not None]
    return min(tries, key=lambda cut: length_of(job, cut), default=None)


def length_of(job: Cutting, cut: list[OneBoard]) -> int:
    """What is to be as little as can be: the boards taken, each a kerf longer; so of two ways with
    as much wood the one with fewer boards. With one length of board it counts the boards."""
    return sum(job.boards[one.board] * one.times for one in cut)


def bound(job: Cutting) -> int:
    """No cutting takes less than this. Source: all pieces have to lie somewhere; and of one length
    of board, pieces longer than half of it share no board (Martello and Toth's second bound, 1990,
    from memory; the tests hold it against proven cases)."""
    if len(job.boards) > 1:
        least = nearest(job.boards, job.enough, job.total - 1)[1]
        return least if least is not None else job.total
    return max(_second_bound(job), -(-job.total // job.boards[0])) * job.boards[0]


def _second_bound(job: Cutting) -> int:
    """Boards of one length, at least."""
    board = job.boards[0]
    sizes = [p for p, n in zip(job.pieces, job.wanted, strict=True) for _ in range(n)]
    best = 0
    for least in {0, *(size for size in job.pieces if size <= board // 2)}:
        big = [size for size in sizes if size > board - least]
        half = [size for size in sizes if board // 2 < size <= board - least and 2 * size > board]
        small = [size for size in sizes if least <= size and 2 * size <= board]
        room = len(half) * board - sum(half)
        rest = max(0, -(-(sum(small) - room) // board))
        best = max(best, len(big) + len(half) + rest)
    return best


def _first_that_has_room(job: Cutting) -> list[OneBoard] | None:
    """From the longest boards; then each is put onto the shortest board that holds it."""
    left = list(job.enough)
    rooms: list[list[int]] = []  # which board, room, pieces ...
    for number, (size, count) in enumerate(zip(job.pieces, job.wanted, strict=True)):
        for _ in range(count):
            place = next((room for room in rooms if room[1] >= size), None)
            if place is None:
                board = next(
                    (b for b, have in enumerate(left) if have and job.boards[b] >= size), -1
                )
                if board < 0:
                    return None
                left[board] -= 1
                place = [board, job.boards[board], *(0 for _ in job.pieces)]
                rooms.append(place)
            place[1] -= size
            place[2 + number] += 1
    return _counted(_on_shortest(job, rooms))


def _on_shortest(job: Cutting, rooms: list[list[int]]) -> Iterator[tuple[int, Counts]]:
    free = list(job.enough)
    for board, *_ in rooms:
        free[board] -= 1
    for board, room, *pieces in rooms:
        used = job.boards[board] - room
        free[board] += 1
        fits = [b for b, have in enumerate(free) if have and job.boards[b] >= used]
        best = min(fits, key=lambda b: job.boards[b])
        free[best] -= 1
        yield best, tuple(pieces)


def _fullest(job: Cutting) -> list[OneBoard] | None:
    """Board after board, the one that the pieces left fill best."""
    left, wanted = list(job.enough), list(job.wanted)
    cut: list[tuple[int, Counts]] = []
    while any(wanted):
        tries = [
            (size - used, board, pieces)
            for board, size in enumerate(job.boards)
            if left[board]
            for used, pieces in (_fill(job, wanted, size),)
            if used
        ]
        if not tries:
            return None
        _, board, pieces = min(tries)
        left[board] -= 1
        wanted = [n - take for n, take in zip(wanted, pieces, strict=True)]
        cut.append((board, pieces))
    return _counted(cut)


def _fill(job: Cutting, wanted: list[int], room: int) -> tuple[int, Counts]:
    """The fullest that these pieces make a board, the longest of them first."""
    reached = sums_of(job.pieces, wanted, room)
    total = used = reached[0].bit_length() - 1
    taken = []
    for place, (size, most) in enumerate(zip(job.pieces, wanted, strict=True)):
        count = min(most, total // size)
        while not reached[place + 1] >> (total - count * size) & 1:
            count -= 1
        taken.append(count)
        total -= count * size
    return used, tuple(taken)


def _counted(boards: Iterator[tuple[int, Counts]] | list[tuple[int, Counts]]) -> list[OneBoard]:
    """Boards that are cut alike, together."""
    return [OneBoard(b, pieces, n) for (b, pieces), n in sorted(Counter(boards).items())]
