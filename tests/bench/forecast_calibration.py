"""Do the dates hold as often as they say? Over invented histories with a known truth.

    python -m tests.bench.forecast_calibration [histories] [seed] [world ...]

Each history is an invented crew (see `invented_crew`) at work on an invented vehicle, in one of
several kinds of worlds (see `worlds`; `other_crews` has more, all of them by the name "others").
Somewhere on the way its logbook is taken, the finish is forecast, and the crew plays on to the end.
Printed is how often the forecast dates held, how the middle one compares with the truth, and how
wide the forecasts were.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from datetime import date, datetime, time
from random import Random
from typing import NamedTuple

from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.forecast.forecast import model_of
from crewboard.order.forecast.growth import growth_of
from crewboard.order.forecast.runs import play_many
from crewboard.plan.hold import Hold
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from crewboard.plan.task import Estimate, Task
from crewboard.plan.volunteer import Volunteer
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.bench.invented_crew import InventedCrew
from tests.bench.other_crews import OTHERS
from tests.bench.worlds import KINDS, WORLDS, World
from tests.order.small_plans import hold, plan

FIRST = date(2024, 1, 6)
RUNS = 100
DATES = (0.5, 0.8, 0.95)
# Little is known yet where less than this share of the plan is done.
EARLY = 0.25


class Held(NamedTuple):
    """One history: how much was done when asked, which quantile the truth turned out to be, how
    the forecast compares with the truth (days from the day asked), and whether the learned rate of
    found work, its 80 % interval, holds what is so (None where none is learned)."""

    done: float
    quantile: float
    truth: int
    p50: int
    p80: int
    p95: int
    low: float = 0.0
    rate: float | None = None
    high: float = 0.0


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
                added=FIRST,
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


def on_the_way(
    seed: int, world: World = WORLDS[0], crew_of: type[InventedCrew] = InventedCrew
) -> tuple[InventedCrew, Board]:
    """A crew in the midst of its work, and the board on which the forecast is asked for."""
    rnd = Random(f"history {seed}")
    planned = invented_plan(rnd)
    crew = crew_of(planned, FIRST, rnd, world)
    stop_at = rnd.uniform(0.05, 0.7) * len(planned.tasks)
    while not crew.is_asked(stop_at):
        crew.next_day()
    return crew, assess(crew.plan, crew.logbook(), datetime.combine(crew.day, time(7)))


def one_history(
    seed: int,
    runs: int = RUNS,
    world: World = WORLDS[0],
    crew_of: type[InventedCrew] = InventedCrew,
) -> Held:
    """Play one history: forecast on the way, then play on."""
    crew, board = on_the_way(seed, world, crew_of)
    done, at = len(crew.done) / len(crew.plan.tasks), board.at
    growth = growth_of(board)
    forecast = sorted(play_many(model_of(board)._replace(as_planned=False), runs, seed).finish)
    while not crew.finished:
        crew.next_day()
    truth = (crew.finish.date() - at.date()).days
    days = [minutes // 1440 for minutes in forecast]
    below = sum(d < truth for d in days) + 0.5 * sum(d == truth for d in days)
    p50, p80, p95 = (days[min(runs - 1, int(runs * share))] for share in (0.5, 0.8, 0.95))
    return Held(done, below / runs, truth, p50, p80, p95, growth.low, growth.rate, growth.high)


HEAD = (
    "world            histories   50 / 80 / 95 % dates held   middle / truth, quartiles   95 / 50"
    "   80 %, early   rate of found work, held"
)


def told(world: World, found: Sequence[Held], its_rate: bool = True) -> str:
    """One row of the table; `its_rate`: whether the world's own rate is what was found."""
    held = " / ".join(f"{_share(h.quantile <= share for h in found):3.0%}" for share in DATES)
    error = sorted(h.p50 / max(1, h.truth) for h in found)
    low, middle, high = (error[len(error) * part // 4] for part in (1, 2, 3))
    width = sorted(h.p95 / max(1, h.p50) for h in found)[len(found) // 2]
    early = [h.quantile <= 0.8 for h in found if h.done < EARLY]
    rate = rate_told(world, found) if its_rate else "-"
    told_early = f"{_share(early):.0%} of {len(early)}" if early else "-"
    return (
        f"{world.name:17} {len(found):8}   {held:25}   {middle:.2f}, {low:.2f} to {high:.2f}"
        f"          {width:.2f}      {told_early:9}     {rate}"
    )


def rate_told(world: World, found: Sequence[Held]) -> str:
    """How often the rate's 80 % interval holds what is so, and its middle."""
    learned = [h for h in found if h.rate is not None]
    if not learned:
        return "-"
    holds = _share(h.low <= world.rate <= h.high for h in learned)
    rates = sorted(h.rate for h in learned if h.rate is not None)
    return f"{holds:.0%} of {len(learned)}; {rates[len(rates) // 2]:.2f} for {world.rate:.2f}"


def _share(of: Iterable[bool]) -> float:
    answers = list(of)
    return sum(answers) / len(answers)


def main() -> None:
    numbers = [int(word) for word in sys.argv[1:] if word.isdigit()]
    count, first = (numbers + [200, 0][len(numbers) :])[:2]
    print(HEAD)
    names = [word for word in sys.argv[1:] if not word.isdigit()] or list(KINDS)
    for name in OTHERS if names == ["others"] else names:
        world = KINDS.get(name, WORLDS[0])._replace(name=name)
        crew_of = OTHERS.get(name, InventedCrew)
        seeds = range(first, first + count)
        found = [one_history(seed, world=world, crew_of=crew_of) for seed in seeds]
        print(told(world, found, name in KINDS), flush=True)


if __name__ == "__main__":
    main()
