"""Does the 80 % date hold in about 80 % of the cases? Over invented histories with a known truth.

    python -m tests.bench.forecast_calibration [histories] [seed]

Each history is an invented crew (see `invented_crew`) at work on an invented vehicle. Somewhere on
the way its logbook is taken, the finish is forecast, and the crew plays on to the end. Printed is
how often the forecast dates held, and how wide the forecasts were.
"""

from __future__ import annotations

import sys
from datetime import date, datetime, time
from random import Random
from typing import NamedTuple

from crewboard.order.assess import assess
from crewboard.order.forecast.lookback import with_lookback
from crewboard.order.forecast.remaining import remaining
from crewboard.order.forecast.runs import play_many
from crewboard.plan.hold import Hold
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from crewboard.plan.task import Estimate, Task
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.bench.invented_crew import InventedCrew
from tests.order.small_plans import hold, plan

FIRST = date(2024, 1, 6)
RUNS = 300


class Held(NamedTuple):
    """One history: how much was done when asked, which quantile the truth turned out to be, and
    how the 80 % forecast compares with the truth, both in days from the day asked."""

    done: float
    quantile: float
    truth: int
    p50: int
    p80: int


def invented_plan(rnd: Random) -> Plan:
    """A vehicle of 25 to 90 tasks in a few chains, with holds, skills and supplies."""
    count = rnd.randint(25, 90)
    tasks: list[Task] = []
    supplies = [
        Supply(f"s{n}", f"Supply {n}", lead_time=hold("cure", f"{rnd.randint(2, 8)} weeks").lasts)
        for n in range(4)
    ]
    for number in range(count):
        likely = rnd.choice((1, 2, 3, 4, 6, 8, 12, 20))
        estimate = Estimate(likely * rnd.uniform(0.5, 0.9), likely, likely * rnd.uniform(1.2, 3))
        near = [t.id for t in tasks[-8:]]
        after = tuple(rnd.sample(near, min(len(near), rnd.choice((0, 1, 1, 1, 2)))))
        least = rnd.choice((1, 1, 1, 2, 2, 3))
        tasks.append(
            Task(
                f"c/t{number}",
                f"Task {number}",
                "c",
                after=after,
                estimate=estimate,
                least_people=least,
                most_people=least + rnd.choice((0, 1, 2)),
                skills=("welding",) if rnd.random() < 0.15 else (),
                supplies=(rnd.choice(supplies).id,) if rnd.random() < 0.08 else (),
                hold=_some_hold(rnd),
            )
        )
    crew = [
        Volunteer(f"p{n}", f"P{n}", ("welding",) if n in (0, 1) or rnd.random() < 0.2 else ())
        for n in range(rnd.randint(5, 14))
    ]
    days = rnd.choice((("first saturday", "third saturday"), ("saturday",)))
    return plan(
        tasks, work_days=WorkDays(tuple(map(parse_rule, days))), crew=crew, supplies=supplies
    )


def _some_hold(rnd: Random) -> Hold | None:
    if rnd.random() > 0.3:
        return None
    kind, span = rnd.choice(
        (("glue", "36 hours"), ("dry", "2 days"), ("bend set", "1 month"), ("cure", "10 days"))
    )
    return hold(kind, span)


def one_history(seed: int, runs: int = RUNS) -> Held:
    """Play one history: forecast on the way, then play on."""
    rnd = Random(f"history {seed}")
    of = invented_plan(rnd)
    crew = InventedCrew(of, FIRST, rnd)
    stop_at = rnd.uniform(0.05, 0.7) * len(of.tasks)
    while len(crew.done) < stop_at:
        crew.next_day()
    done = len(crew.done) / len(of.tasks)
    at = datetime.combine(crew.day, time(7))
    board = assess(of, crew.logbook(), at)
    forecast = sorted(play_many(with_lookback(board, remaining(board)), runs, seed).finish)
    while not crew.finished:
        crew.next_day()
    truth = (crew.finish.date() - at.date()).days
    days = [minutes // 1440 for minutes in forecast]
    below = sum(d < truth for d in days) + 0.5 * sum(d == truth for d in days)
    return Held(done, below / runs, truth, days[runs // 2], days[runs * 8 // 10])


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    found = [one_history(seed) for seed in range(first, first + count)]
    for share in (0.1, 0.2, 0.5, 0.8, 0.95):
        held = sum(h.quantile <= share for h in found) / count
        print(f"the {share:.0%} date held in {held:.1%} of {count} histories")
    for name, some in (
        ("little data (under a quarter done)", [h for h in found if h.done < 0.25]),
        ("more data", [h for h in found if h.done >= 0.25]),
    ):
        if some:
            held = sum(h.quantile <= 0.8 for h in some) / len(some)
            width = sorted(h.p80 / max(1, h.p50) for h in some)[len(some) // 2]
            print(f"  {name}: 80 % date held in {held:.1%} of {len(some)}; 80 % / 50 % {width:.2f}")
    error = sorted(h.p50 / max(1, h.truth) for h in found)
    print(f"forecast middle over truth: median {error[count // 2]:.2f}, "
          f"quartiles {error[count // 4]:.2f} to {error[count * 3 // 4]:.2f}")  # fmt: skip


if __name__ == "__main__":
    main()
