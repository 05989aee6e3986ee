"""What every course of work is made from, and what one is."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import NamedTuple

from crewboard.order.ahead.waits import HoldLengths
from crewboard.order.day_plan.proposal import Placed, SmallJob
from crewboard.order.programme.ahead import DaysAhead, Sitting, free_blocks
from crewboard.order.programme.apart import KeptApart
from crewboard.order.programme.crews import Crews
from crewboard.order.programme.jobs import Enough, TaskAhead


class Spell(NamedTuple):
    """People, as bits, on a job from a block to before another; of them `watch` only watch."""

    job: int
    first: int
    end: int
    crew: int
    watch: int = 0


class CourseOfWork(NamedTuple):
    """`finished` and `clear`: job -> the minute at which its work, and its hold, is over. `left`:
    of each job the blocks of one person's work still to do after the last day."""

    spells: tuple[Spell, ...]
    finished: dict[int, int]
    clear: dict[int, int]
    left: tuple[int, ...]


class AsPlanned(NamedTuple):
    """Work of the first day as its own plan has it, for those who are there."""

    spell: Spell
    placed: Placed


class FirstDay(NamedTuple):
    """What the first day runs by, where a lead took a plan of it over, `at` that moment. `small`
    jobs that are not over; `kept` of its work, in order; `otherwise` the tasks that cannot go on as
    they are placed any more. Of other work only `also` is done that day: what people are on, what
    has to be begun by some time, and what the plan has had and is not finished."""

    at: datetime | None = None
    small: tuple[SmallJob, ...] = ()
    kept: tuple[AsPlanned, ...] = ()
    otherwise: tuple[str, ...] = ()
    also: frozenset[int] = frozenset()


class CourseFrame(NamedTuple):
    """What is the same in every course. `free`: of each block who is there. `jigs`: jig -> how many
    there are; `taken`: those that holds of finished work have, and until when. `next_open`: when
    the shop opens after the last of the days. `behind`: job -> those next behind it."""

    ahead: DaysAhead
    jobs: tuple[TaskAhead, ...]
    crews: Crews
    apart: dict[int, dict[int, KeptApart]]
    free: tuple[int, ...]
    jigs: dict[str, int]
    taken: tuple[tuple[str, int], ...]
    lengths: HoldLengths
    next_open: int
    behind: tuple[tuple[int, ...], ...]
    kept_alone: tuple[tuple[int, ...], ...]
    first: FirstDay | None = None

    def is_open_to(self, job: int, sitting: Sitting) -> bool:
        """Whether it is not left out of a first day that has a plan of its own."""
        return bool(sitting.day) or self.first is None or job in self.first.also

    def clear_of(self, job: TaskAhead, finish: int) -> int:
        """The minute at which the hold of a job that is finished then is over."""
        return self.lengths.ends(job.hold, finish, look=job.look) if job.hold else finish


def frame_of(
    ahead: DaysAhead,
    jobs: tuple[TaskAhead, ...],
    crews: Crews,
    apart: dict[int, dict[int, KeptApart]],
    jigs: dict[str, int],
    taken: tuple[tuple[str, int], ...],
    lengths: HoldLengths,
    next_open: int,
) -> CourseFrame:
    behind: list[list[int]] = [[] for _ in jobs]
    kept_alone: list[list[int]] = [[] for _ in jobs]
    for number, job in enumerate(jobs):
        for one in {b.job for b in (*job.before, *(o for e in job.enough for o in e.of))}:
            behind[one].append(number)
        for other in job.alone:
            kept_alone[other].append(number)
    free = tuple(free_blocks(ahead, crews.bit))
    return CourseFrame(
        ahead, jobs, crews, apart, free, jigs, taken, lengths, next_open,
        tuple(map(tuple, behind)), tuple(map(tuple, kept_alone)),
    )  # fmt: skip


def is_let_go(job: TaskAhead, finished: Mapping[int, int]) -> bool:
    """Whether the work before it is finished."""
    return all(b.job in finished for b in job.before) and all(
        len(e.known) + sum(b.job in finished for b in e.of) >= e.need for e in job.enough
    )


def ready_at(job: TaskAhead, finished: Mapping[int, int], clear: Mapping[int, int]) -> int | None:
    """The minute from which on what comes before it lets it begin; None where that is not done."""
    if not is_let_go(job, finished):
        return None
    moments = [job.floor, *((finished if b.by_done else clear)[b.job] for b in job.before)]
    return max(moments + [passed_at(enough, finished, clear) for enough in job.enough])


def passed_at(enough: Enough, finished: Mapping[int, int], clear: Mapping[int, int]) -> int:
    """When enough of them are over, of those of which it is known."""
    over = [(finished if b.by_done else clear)[b.job] for b in enough.of if b.job in finished]
    return sorted((*over, *enough.known))[enough.need - 1] if enough.need else 0
