"""Small jobs for whoever has nothing to do for a while, from the crew's own list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import SmallJob
from crewboard.order.day_plan.shop_day import ShopDay, Slot
from crewboard.order.day_plan.sound import is_accompanied
from crewboard.order.may.apart import keep_apart
from crewboard.order.may.needs import hazards_named, hazards_of_minors

# Nobody sweeps all day: after so many blocks the next of the list comes.
LONGEST = 4


class _Stretch:
    """Blocks in which a person is free."""

    def __init__(self, who: str, start: int, end: int) -> None:
        self.who, self.start, self.end = who, start, end


def small_jobs(
    board: Board, day: ShopDay, slots: Sequence[Slot], running: Sequence[SmallJob] = ()
) -> tuple[SmallJob, ...]:
    """By the hour. Each is one person's; the list is gone through in turn, and nobody is given what
    somebody else does at the same time as long as there is another. Whoever has one by the plan
    that is `running`, and is free then, keeps it."""
    listed = board.plan.vehicle.shop.small_jobs
    if not listed:
        return ()
    given: list[tuple[str, _Stretch]] = []
    for stretch in _stretches(board, day, slots, running):
        if (has := _running_at(day, running, stretch.who, stretch.start)) and has.what in listed:
            given.append((has.what, stretch))
            continue
        others = [what for what, o in given if o.start < stretch.end and stretch.start < o.end]
        free = [what for what in listed if what not in others] or list(listed)
        had = [what for what, o in given]
        given.append((min(free, key=lambda what: had.count(what)), stretch))
    return tuple(
        SmallJob(what, (free.who,), day.at(free.start), day.until(free.end))
        for what, free in sorted(given, key=lambda each: each[1].start)
    )


def _running_at(day: ShopDay, running: Sequence[SmallJob], who: str, block: int) -> SmallJob | None:
    """What small job the person has in that block by the running plan."""
    begins, ends = day.at(block), day.until(block + 1)
    mine = (job for job in running if who in job.people)
    return next((job for job in mine if job.start <= begins and ends <= job.end), None)


def _stretches(
    board: Board, day: ShopDay, slots: Sequence[Slot], running: Sequence[SmallJob]
) -> Iterator[_Stretch]:
    barred = _not_for_the_young(board, day, slots)
    free = {
        who: [b for b in range(*day.here(who)) if not _is_taken(day, slots, who, b)]
        for who in day.people
    }
    for who, blocks in free.items():
        mine = [
            b
            for b in blocks
            if not (who in day.minors and b in barred)
            and is_accompanied(day, who, [o for o in day.people if b in free[o] and o != who])
        ]
        start, until = None, 0
        for block in range(day.blocks + 1):
            if start is not None and (block not in mine or block == until):
                yield _Stretch(who, start, block)
                start = None
            if start is None and block in mine:
                has = _running_at(day, running, who, block)
                start = block
                until = day.grid.ended_by(has.end) if has is not None else block + LONGEST


def _is_taken(day: ShopDay, slots: Sequence[Slot], who: str, block: int) -> bool:
    return any(
        who in slot.people and slot.start <= block < day.busy_until(slot, who) for slot in slots
    )


def _not_for_the_young(board: Board, day: ShopDay, slots: Sequence[Slot]) -> set[int]:
    """The blocks in which something goes on that under-18s must not be near: nobody says where a
    small job is done. That a danger lasts after the work nobody has to be told twice: it counts to
    the end of the day."""
    if not day.minors:
        return set()
    of_minors = hazards_of_minors(board)
    barred: set[int] = set()
    for slot in slots:
        sheets = hazards_named(board, board.plan.tasks[day.jobs[slot.job].task])
        if any(keep_apart(minor, sheet, True) for minor in of_minors for sheet in sheets):
            barred |= set(range(slot.start, day.blocks))
    return barred
