"""What is otherwise than in the plan that the day ran by: who joins and leaves which task
or small job, when."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from datetime import datetime

from crewboard.order.day_plan.proposal import Otherwise, Placed, SmallJob


def changes_since(
    running: Sequence[Placed],
    placed: Sequence[Placed],
    opens: datetime,
    late: Collection[str] = (),
) -> tuple[Otherwise, ...]:
    """The changes from `opens` on, by the hour. What should be over by then is one where it is
    `late` and still to come, or others go on with it. That something ends at another time with the
    same people is none."""
    now = {each.task: each for each in placed}
    before = {
        each.task: each
        for each in running
        if each.end > opens
        or (each.task in now and (each.task in late or now[each.task].start == each.start))
    }
    tasks = dict.fromkeys((*before, *now))
    found = [
        each for task in tasks for each in _change(task, "", before.get(task), now.get(task), opens)
    ]
    return tuple(sorted(found, key=lambda change: change.since))


def small_changes_since(
    running: Sequence[SmallJob], small: Sequence[SmallJob], opens: datetime
) -> tuple[Otherwise, ...]:
    """The same of the small jobs, each of which is one person's: the first time of each counts."""
    before = {(job.what, job.people): job for job in _last_first(running) if job.end > opens}
    now = {(job.what, job.people): job for job in _last_first(small)}
    found = [
        each
        for key in dict.fromkeys((*before, *now))
        for each in _change("", key[0], before.get(key), now.get(key), opens)
    ]
    return tuple(sorted(found, key=lambda change: change.since))


def _last_first(jobs: Sequence[SmallJob]) -> list[SmallJob]:
    return sorted(jobs, key=lambda job: job.start, reverse=True)


def _change(
    task: str,
    what: str,
    before: Placed | SmallJob | None,
    now: Placed | SmallJob | None,
    opens: datetime,
) -> Iterator[Otherwise]:
    was = before.people if before is not None else ()
    are = now.people if now is not None else ()
    joined = tuple(who for who in are if who not in was)
    left = tuple(who for who in was if who not in are)
    moved = before is not None and now is not None and is_moved(before, now, opens)
    each = now or before
    if each is not None and (joined or left or moved):
        yield Otherwise(task, max(each.start, opens), joined, left, before, now, what)


def is_moved(before: Placed | SmallJob, now: Placed | SmallJob, opens: datetime) -> bool:
    """Whether it begins at another time in a plan that speaks of what comes from `opens` on."""
    since = opens if before.end > opens else datetime.min
    return max(before.start, since) != max(now.start, since)
