"""How quickly the order of work is reckoned: ranking, forecast, plan for a day.

    python -m tests.bench.ordering

A plan of 5,000 tasks is ranked; one of 500 tasks is played through 1,000 times on two cores; days
of 15 people and 40 ready tasks are planned. Wall time, the best of a few.
"""

from __future__ import annotations

import os
import time
from random import Random

from crewboard.logbook.logbook import Logbook
from crewboard.order.ahead.calendar_path import calendar_path
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.forecast.remaining import remaining
from crewboard.order.forecast.runs import Cores, play_many
from crewboard.plan.component import Component
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Volunteer
from tests.bench.table import Measured, show
from tests.order.day_plan.feasible import violations
from tests.order.day_plan.random_days import random_day
from tests.order.small_plans import FIRST_SATURDAY, hold, plan, task


def large_job(count: int, people: int = 12, seed: int = 1) -> Board:
    """A vehicle of so many tasks, in components of fifty with two links a task or so."""
    rnd = Random(seed)
    parts = [
        Component(f"c{n}", f"C{n}", after=(f"c{rnd.randrange(n)}",) if n else ())
        for n in range(max(1, count // 50))
    ]
    tasks: list[Task] = []
    for number in range(count):
        component = f"c{number * len(parts) // count}"
        mine = [t.id for t in tasks[-40:] if t.component == component]
        after = tuple(dict.fromkeys(rnd.choice(mine) for _ in range(rnd.randrange(3)) if mine))
        likely = rnd.choice((1, 2, 4, 8, 16))
        least = rnd.choice((1, 1, 2))
        tasks.append(
            task(
                f"{component}/t{number}",
                (likely / 2, likely, likely * 2),
                after=after,
                least_people=least,
                most_people=least + rnd.choice((0, 1, 2)),
                skills=("welding",) if rnd.random() < 0.15 else (),
                hold=hold("glue", rnd.choice(("36 hours", "1 month")))
                if rnd.random() < 0.3
                else None,
            )
        )
    crew = [Volunteer(f"p{n}", f"P{n}", ("welding",) if n % 4 == 0 else ()) for n in range(people)]
    return assess(plan(tasks, parts, crew=crew), Logbook(), FIRST_SATURDAY)


def measure(rounds: int = 3) -> list[Measured]:
    return [_ranking(rounds), *_forecast(rounds), *_day_plans()]


def _ranking(rounds: int) -> Measured:
    board = large_job(5000)
    took = []
    for _ in range(rounds):
        start = time.perf_counter()
        what_goes_first(board, calendar_path(board))
        took.append(time.perf_counter() - start)
    return Measured("rank 5,000 tasks", f"{min(took) * 1000:.0f} ms", "100 ms")


def _forecast(rounds: int) -> list[Measured]:
    model = remaining(large_job(500))
    took, spent = [], []
    for _ in range(rounds):
        start, cpu = time.perf_counter(), time.process_time()
        with Cores(2) as cores:
            play_many(model, 1000, seed=1, cores=cores)
        took.append(time.perf_counter() - start)
        spent.append(time.process_time() - cpu)
    found = [
        Measured("1,000 courses of 500 tasks, two cores", f"{min(took):.1f} s", "5 s"),
        Measured("  processor time of this process", f"{min(spent):.1f} s"),
    ]
    if os.name == "posix":
        import resource

        mine = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        other = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
        found.append(
            Measured("  memory, both processes", f"{(mine + other) / 1024:.0f} MB", "300 MB")
        )
    return found


def _day_plans(days: int = 10) -> list[Measured]:
    took, gaps, shares, unsound = [], [], [], 0
    for seed in range(days):
        on, wish = random_day(1000 + seed, people=15, ready=40)
        plain = plan_day(on, wish, effort=0)
        start = time.perf_counter()
        found = plan_day(on, wish)
        took.append(time.perf_counter() - start)
        unsound += bool(violations(on, wish, found)) + bool(violations(on, wish, plain))
        if found.value:
            gaps.append(found.gap)
            shares.append(plain.value / found.value)
    gaps.sort()
    return [
        Measured("plan a day, 15 people and 40 tasks", f"{max(took):.2f} s at most", "2 s"),
        Measured("  gap to the proven bound, middle", f"{gaps[len(gaps) // 2]:.0%}"),
        Measured("  gap, best and worst", f"{gaps[0]:.0%} to {gaps[-1]:.0%}"),
        Measured("  plain rule against the solver", f"{sum(shares) / len(shares):.0%}"),
        Measured("  unsound plans", str(unsound), "0"),
    ]


if __name__ == "__main__":
    show("Order of work", measure())
