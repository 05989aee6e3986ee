"""Whether other orders of the jobs give a better programme than the plain rule.

    python tests/bench/programme_orders.py [PLANS] [TRIES] [FIRST_SEED]

Random plans of 50 to 100 tasks and 4 to 9 people, six work days ahead. Beside the plain rule (what
must begin soonest first, with few hands and with many) as many tries are given to the orders of the
shortest schedules of the genetic search (`tests/order/network/engine`), to those of its last
schedules, and to the plain order shaken at random. Printed is by how much more of the work is done,
each hour counted by how soon it must begin, and how often the vehicle could be finished sooner.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Callable, Iterable
from itertools import islice
from pathlib import Path
from statistics import fmean, median
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[2]))

from crewboard.order.ahead.calendar_path import CalendarPath, calendar_path
from crewboard.order.board import Board
from crewboard.order.programme.frame import CourseFrame
from crewboard.order.programme.programme import frame_ahead
from crewboard.order.programme.serial import course_of
from crewboard.order.programme.worth import CourseScale, Worth
from tests.order.network.engine.resources import Project
from tests.order.network.engine.search import each_schedule
from tests.order.programme.likeness import likeness
from tests.order.programme.random_plans import random_answers, random_plan
from tests.order.small_plans import FIRST_SATURDAY, board

Orders = Callable[[CourseFrame, CalendarPath, int], Iterable[list[int]]]
SCHEDULES = 600


def shortest(frame: CourseFrame, path: CalendarPath, tries: int) -> list[list[int]]:
    """The orders of the shortest schedules that the search makes."""
    project = likeness(frame, path.time)
    found = list(islice(each_schedule(project, SCHEDULES), SCHEDULES))
    found.sort(key=lambda starts: (_length(project, starts), sum(starts)))
    orders: dict[tuple[int, ...], None] = {}
    for starts in found:
        orders[tuple(_order(frame, starts))] = None
    return [list(order) for order in islice(orders, tries)]


def last(frame: CourseFrame, path: CalendarPath, tries: int) -> list[list[int]]:
    """The orders of the last schedules, when the search has come far."""
    found = islice(each_schedule(likeness(frame, path.time), SCHEDULES), SCHEDULES)
    return [_order(frame, starts) for starts in list(found)[-tries:]]


def shaken(frame: CourseFrame, _path: CalendarPath, tries: int) -> list[list[int]]:
    """The plain order, each job moved by up to fifteen places."""
    rnd = random.Random(0)
    orders = []
    for _ in range(tries):
        keys = [place + 15 * rnd.random() for place in range(len(frame.jobs))]
        orders.append(sorted(range(len(keys)), key=keys.__getitem__))
    return orders


WAYS: dict[str, Orders] = {"shortest schedules": shortest, "last schedules": last, "shaken": shaken}


def _length(project: Project, starts: tuple[int, ...]) -> int:
    return max(s + d for s, d in zip(starts, project.durations, strict=True))


def _order(frame: CourseFrame, starts: tuple[int, ...]) -> list[int]:
    return sorted(range(len(frame.jobs)), key=lambda number: (starts[number], number))


def best(frame: CourseFrame, scale: CourseScale, orders: Iterable[Iterable[int]]) -> Worth:
    """Of these orders, each with few hands and with many."""
    return min(
        scale.of(course_of(frame, list(order), many)) for order in orders for many in (False, True)
    )


def a_board(seed: int) -> Board:
    rnd = random.Random(seed)
    of = random_plan(rnd, rnd.randint(50, 100), rnd.randint(4, 9))
    return board(of, FIRST_SATURDAY, random_answers(rnd, of))


def main(plans: int, tries: int, first: int) -> None:
    gains: dict[str, list[float]] = {way: [] for way in WAYS}
    sooner: dict[str, int] = dict.fromkeys(WAYS, 0)
    times: dict[str, float] = dict.fromkeys(("plain", *WAYS), 0.0)
    for seed in range(first, first + plans):
        on = a_board(seed)
        path = calendar_path(on)
        frame = frame_ahead(on, path, 6)
        scale = CourseScale(on, frame, path.time)
        in_turn = [list(range(len(frame.jobs)))]
        best(frame, scale, in_turn)  # who may be on what is looked up once
        since = process_time()
        plain = best(frame, scale, in_turn)
        times["plain"] += process_time() - since
        whole = sum(job.need * job.worth for job in frame.jobs)
        done = whole - plain.undone
        for way, orders in WAYS.items():
            since = process_time()
            found = min(plain, best(frame, scale, orders(frame, path, tries // 2)))
            times[way] += process_time() - since
            gains[way].append((plain.undone - found.undone) / done if done else 0.0)
            sooner[way] += found.ends < plain.ends
    print(f"{plans} plans, {tries} tries each; the plain rule {times['plain'] / plans:.2f} s")
    for way, gain in gains.items():
        print(
            f"{way:20} median {median(gain):6.1%} mean {fmean(gain):6.1%} "
            f"sooner in {sooner[way]:3}; {times[way] / plans:.2f} s"
        )


if __name__ == "__main__":
    numbers = [int(word) for word in sys.argv[1:]]
    main(*[*numbers, *(30, 40, 0)[len(numbers) :]])
