"""Many courses of the same job, on as many processor cores as there are."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from pickle import dumps, loads
from random import Random
from typing import TYPE_CHECKING, NamedTuple

from crewboard.order.forecast.course import play
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.model import Model
from crewboard.order.forecast.playing import Course

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor

# Courses that are handed to a core at a time: progress is told, and a stop is heard, this often.
CHUNK = 40
# Starting another interpreter costs about a fifth of a second: not for small jobs.
WORTH_A_CORE = 80_000

Progress = Callable[[int, int], bool]


class Runs(NamedTuple):
    """What many courses came to, in the order of their numbers.

    `finish`: minutes since midnight before the model's start; `closings` for each course in the
    order of the model's; `on_chain`: in how many courses each task was on the longest chain.
    `ended` is False for a course that was broken off. `soonest` is the earliest at which any of
    them would have ended, had nothing in it waited for people. `planned`, `planned_ended` are as
    `finish` and `ended`, without what turns up on the way.
    """

    finish: tuple[int, ...]
    closings: tuple[tuple[int, ...], ...]
    on_chain: tuple[int, ...]
    ended: tuple[bool, ...]
    soonest: int
    planned: tuple[int, ...]
    planned_ended: tuple[bool, ...]
    stopped: bool = False


class Cores:
    """Other processes to play courses in, started once for several models.

    `count` cores in all, this process being one of them. Where no other can be started everything
    is played here.
    """

    def __init__(self, count: int) -> None:
        self.count = max(1, count)
        self._pool: ProcessPoolExecutor | None = None

    @classmethod
    def for_work(cls, model: Model, courses: int) -> Cores:
        """As many as are worth starting for so many courses of the model."""
        if len(model.work) * courses < WORTH_A_CORE:
            return cls(1)
        return cls(min(4, os.cpu_count() or 1))

    def __enter__(self) -> Cores:
        if self.count > 1 and _can_start_others():
            from concurrent.futures import ProcessPoolExecutor
            from multiprocessing import get_context

            try:
                self._pool = ProcessPoolExecutor(
                    self.count - 1, get_context("spawn"), initializer=_serve_us
                )
            except (OSError, ImportError, ValueError):
                self._pool = None
        return self

    def __exit__(self, *_: object) -> None:
        if self._pool is not None:
            self._pool.shutdown(wait=False, cancel_futures=True)

    def play(
        self, model: Model, seed: int, chunks: Sequence[tuple[int, int]]
    ) -> Iterator[tuple[int, list[Course]]]:
        """The courses of each chunk with its first number, as they get ready."""
        todo = list(reversed(chunks))
        table = WorkDayTable(model)
        others = 2 * (self.count - 1) if self._pool is not None and len(todo) > 1 else 0
        packed = dumps(model) if others else b""
        waiting: dict[Future[list[Course]], tuple[int, int]] = {}
        try:
            while todo or waiting:
                while todo and len(waiting) < others:
                    asked = self._asked(packed, seed, todo[-1])
                    if asked is None:
                        break
                    waiting[asked] = todo.pop()
                if todo:
                    chunk = todo.pop()
                    yield chunk[0], _chunk(model, table, seed, chunk)
                else:
                    _wait_for_one(waiting)
                for future in [asked for asked in waiting if asked.done()]:
                    chunk = waiting.pop(future)
                    courses = self._courses(future)
                    if courses is None:
                        todo.append(chunk)
                    else:
                        yield chunk[0], courses
        finally:
            for future in waiting:
                future.cancel()

    def _asked(
        self, packed: bytes, seed: int, chunk: tuple[int, int]
    ) -> Future[list[Course]] | None:
        """A chunk given to another process; None where there is none any more."""
        from concurrent.futures import BrokenExecutor

        try:
            return self._pool.submit(_elsewhere, packed, seed, chunk) if self._pool else None
        except BrokenExecutor:
            self._pool = None
            return None

    def _courses(self, ready: Future[list[Course]]) -> list[Course] | None:
        """What another process played; None where it died, and then none is asked again."""
        from concurrent.futures import BrokenExecutor, CancelledError

        try:
            return ready.result()
        except (BrokenExecutor, CancelledError):
            self._pool = None
            return None


def play_many(
    model: Model,
    count: int,
    seed: int,
    *,
    progress: Progress | None = None,
    cores: Cores | None = None,
) -> Runs:
    """`count` courses; the same seed gives the same ones on any number of cores.

    `progress(done, of)` is called now and then; where it answers False what was played so far is
    given. Without `cores` everything is played in this process.
    """
    chunks = [(start, min(count, start + CHUNK)) for start in range(0, count, CHUNK)]
    played: dict[int, list[Course]] = {}
    stopped = False
    done = 0
    for start, courses in (cores or Cores(1)).play(model, seed, chunks):
        played[start] = courses
        done += len(courses)
        if progress is not None and not progress(done, count):
            stopped = done < count
            break
    return _together(model, [c for start in sorted(played) for c in played[start]], stopped)


def _chunk(model: Model, table: WorkDayTable, seed: int, chunk: tuple[int, int]) -> list[Course]:
    return [play(model, table, Random(f"{seed}/{number}")) for number in range(*chunk)]


# The last model this process was sent, with its days: one model comes in many chunks.
_LAST: list[tuple[bytes, Model, WorkDayTable]] = []


def _elsewhere(packed: bytes, seed: int, chunk: tuple[int, int]) -> list[Course]:
    if not _LAST or _LAST[0][0] != packed:
        model: Model = loads(packed)
        _LAST[:] = [(packed, model, WorkDayTable(model))]
    _, model, table = _LAST[0]
    return _chunk(model, table, seed, chunk)


def _serve_us() -> None:
    """Ctrl-C goes to every process of a terminal; only the first one answers it. The others end
    with it, however it ends."""
    import signal
    from threading import Thread

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    """Wait for the end of the process that started this one, which no message tells of where it
    was killed."""
    from multiprocessing import parent_process
    from multiprocessing.connection import wait

    parent = parent_process()
    if parent is not None:
        wait([parent.sentinel])
        os._exit(1)


def _wait_for_one(waiting: Iterable[Future[list[Course]]]) -> None:
    from concurrent.futures import wait

    wait(waiting, return_when="FIRST_COMPLETED")


def _can_start_others() -> bool:
    """A script read from the standard input cannot be started a second time."""
    main = sys.modules.get("__main__")
    file = getattr(main, "__file__", None)
    return file is None or getattr(main, "__spec__", None) is not None or os.path.exists(file)


def _together(model: Model, courses: Sequence[Course], stopped: bool) -> Runs:
    on_chain = [0] * len(model.work)
    for course in courses:
        for task in course.chain:
            on_chain[task] += 1
    return Runs(
        tuple(c.finish for c in courses),
        tuple(c.closings for c in courses),
        tuple(on_chain),
        tuple(c.ended for c in courses),
        min((c.soonest for c in courses), default=0),
        tuple(c.planned for c in courses),
        tuple(c.planned_ended for c in courses),
        stopped,
    )
