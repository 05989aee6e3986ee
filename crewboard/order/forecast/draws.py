"""What chance decides in one course: hours, who comes, how long holds and deliveries take."""

from __future__ import annotations

from math import copysign, exp, sqrt
from random import Random

from crewboard.order.ahead.work_time import DAY
from crewboard.order.forecast.comers import Comers
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.hours_fit import practised
from crewboard.order.forecast.model import FoundKind, Model, Pace, Work
from crewboard.order.forecast.pace import FURTHEST
from crewboard.order.forecast.pert_table import SLICES, pert_table
from crewboard.order.forecast.tail_table import tail_table

# A hold that is made longer gets this much more of its length (common sense, no source).
LONGER = (0.15, 1.0)
# Each time the crew meets, what waits for a word (an inspection, a decision) is over with this
# chance (common sense, no source).
WORD = 0.5


class Drawn:
    """One course's chances. Streams are kept apart, so that a change of the plan that touches
    only one of them leaves the others as they are."""

    def __init__(self, model: Model, table: WorkDayTable, chance: Random) -> None:
        self.model = model
        self.table = table
        seed = chance.getrandbits(60)
        self.left, self.slower, self.share = _hours(model, Random(seed))
        self.aside = _aside(model, Random(seed + 6))
        for task in self.aside:
            self.left[task] = 0.0
        self.turn = _at_once_first(model, _turns(model, Random(seed + 4)))
        self.most = _hands(model, Random(seed + 5))
        self._holds = Random(seed + 1)
        self._crew = Comers(model.attendance, model.start.date(), Random(seed + 2))
        self._supplies = _supply_factors(model, Random(seed + 3))
        self._came: list[int] = []
        self._longer = _hold_factors(model, self._holds)

    def present(self, day: int) -> int:
        """Who comes on that work day, as bits; always the same. The days before it have had their
        luck too, whether or not there was anything to do on them."""
        came, table = self._came, self.table
        while len(came) <= day:
            table.hours(len(came))
            came.append(self._crew.on(table.date(len(came))))
        return came[day]

    def hold_over(self, task: int, work: Work, finish: float) -> float:
        """When the hold behind a task that ends then is over."""
        if task in self.aside:
            return finish
        if work.hold is None:
            return self._word_came(finish)
        end = finish + self.table.hold_length(work.hold, finish) * self._longer.get(task, 1.0)
        return self.table.open_from(end) if work.look else end

    def found_over(self, kind: FoundKind, finish: float) -> float:
        """The same behind found work."""
        if kind.hold is None:
            return self._word_came(finish) if kind.waits_for_word else finish
        end = finish + self.table.hold_length(kind.hold, finish)
        return self.table.open_from(end) if kind.look else end

    def _word_came(self, finish: float) -> float:
        """When somebody says that it is over."""
        over = self.table.next_day(finish)
        while not self.model.delays.sure and self._holds.random() > WORD:
            over = self.table.next_day(over)
        return over

    def supplied(self, work: Work, needed: float) -> float:
        """When everything a task needs is there, the task else being ready at `needed`.

        What nobody has ordered is ordered some time between now and when it is needed.
        """
        here, now = 0.0, self.table.now
        for supply, due in work.deliveries:
            factor, _ = self._supplies.get(supply, (1.0, 0.0))
            here = max(here, now // DAY * DAY + due * factor if due else self.table.next_day(now))
        for supply, lead in work.orders:
            factor, put_off = self._supplies.get(supply, (1.0, 0.0))
            start = now + put_off * max(0.0, needed - now)
            here = max(here, start + lead * factor)
        return here


def draw(model: Model, table: WorkDayTable, chance: Random) -> Drawn:
    """One course's chances; `chance` says which."""
    return Drawn(model, table, chance)


def _hours(model: Model, chance: Random) -> tuple[list[float], float, float]:
    """Person-minutes in the shop that each task still takes, how many the crew takes on the whole
    for each that is estimated, and what share of the time in the shop goes into tasks."""
    pace, rnd = model.pace, chance.random
    share = pace.share
    if pace.share_doubt:
        share = min(1.0, max(0.1, share * exp(chance.gauss(0.0, pace.share_doubt))))
    stretch = chance.gauss(pace.stretch, pace.stretch_doubt) if pace.stretch_doubt else 0.0
    scatter, table = _scatter(pace, chance)
    factor = chance.gauss(pace.mean, pace.doubt) if pace.doubt else pace.mean
    practice = chance.gauss(pace.practice, pace.practice_doubt) if pace.practice_doubt else 0.0
    left = [0.0] * len(model.work)
    for task in model.draws:
        work = model.work[task]
        worth = work.low
        if work.range:
            worth += work.range * pert_table(work.table)[int(rnd() * SLICES)]
        far = scatter * table[int(rnd() * SLICES)]
        noise = stretch + (far if -FURTHEST < far < FURTHEST else copysign(FURTHEST, far))
        own = factor + noise
        if practice:
            own -= practice * (practised(pace.done + task) - pace.middle)
        if work.left is not None:
            left[task] = work.left * exp(noise if work.overran else own) / share
        elif work.done:
            left[task] = _still(work, worth, exp(own), chance) / share
        else:
            left[task] = worth * exp(own) / share
    whole = factor + stretch + min(FURTHEST, scatter * scatter) / 2  # the mean of a log-normal
    whole -= practice * (practised(pace.done + len(left) / 2) - pace.middle)
    return left, exp(whole) / share, share


def _scatter(pace: Pace, chance: Random) -> tuple[float, tuple[float, ...]]:
    """How far hours scatter in one course, and the table of their tail. The square is drawn from
    the scaled inverse chi-square (Gelman et al., Bayesian Data Analysis, ch. 3)."""
    luck = chance.random()
    for tail in pace.tails:
        luck -= tail.chance
        if luck < 0 or tail is pace.tails[-1]:
            scatter = tail.scatter
            if pace.known:
                scatter *= sqrt(pace.known / chance.gammavariate(pace.known / 2, 2.0))
            return scatter, tail_table(tail.freedom)
    return 0.0, (0.0,) * SLICES


def _turns(model: Model, chance: Random) -> list[int]:
    """The place of each task when people look for work: by latest start, but for some."""
    count, rnd = len(model.work), chance.random
    if not model.strays:
        return list(range(count))
    share = model.strays * rnd()
    key = [0.0] * count
    for task in model.draws:
        stray, place = rnd() < share, rnd() * count
        key[task] = place if stray else task
    turn = [0] * count
    for place, task in enumerate(sorted(range(count), key=key.__getitem__)):
        turn[task] = place
    return turn


def _at_once_first(model: Model, turn: list[int]) -> list[int]:
    """The same places in the queue, but for what must follow other work soon: that stands first."""
    if not model.at_once:
        return turn
    tasks = sorted(range(len(turn)), key=lambda task: (task not in model.at_once, turn[task]))
    turn = [0] * len(tasks)
    for place, task in enumerate(tasks):
        turn[task] = place
    return turn


def _hands(model: Model, chance: Random) -> list[int]:
    """How many people a task really takes on: where more than the least are of use, they do not
    always come together."""
    if model.delays.sure:
        return [work.most for work in model.work]
    rnd = chance.random
    joins = rnd()
    most = [0] * len(model.work)
    for task in model.draws:
        work, chanced = model.work[task], rnd()
        most[task] = work.most if chanced < joins else work.least
    return most


def _still(work: Work, worth: float, own: float, chance: Random) -> float:
    """What is left of a task under way: its whole can only be more than what was worked."""
    for _ in range(6):
        whole = worth * own
        if whole > work.done:
            return whole - work.done
        worth = work.low + work.range * pert_table(work.table)[int(chance.random() * SLICES)]
        own *= 1.15
    return work.done * chance.expovariate(5.0)


def _hold_factors(model: Model, chance: Random) -> dict[int, float]:
    """Task -> by what its hold is stretched, for those that are made longer."""
    if model.delays.sure:
        return {}
    stretched = {}
    for task in model.draws:
        if model.work[task].hold is not None:
            longer, by = chance.random() < model.delays.extended, chance.uniform(*LONGER)
            if longer:
                stretched[task] = 1.0 + by
    return stretched


def _aside(model: Model, chance: Random) -> frozenset[int]:
    """The tasks that are set aside in this course, none of which is under way."""
    if model.delays.aside is None:
        return frozenset()
    share, rnd = chance.betavariate(*model.delays.aside), chance.random
    going = model.going
    return frozenset([task for task in model.draws if rnd() < share and task not in going])


def _supply_factors(model: Model, chance: Random) -> dict[int, tuple[float, float]]:
    """Supply -> by what its delivery is stretched, how long its ordering is put off (0 to 1)."""
    if model.delays.sure:
        return {}
    numbers = {n for w in model.work for n, _ in (*w.orders, *w.deliveries)}
    _, _, late, scatter, known, _ = model.delays
    if known:
        scatter *= sqrt(known / chance.gammavariate(known / 2, 2.0))
        late = chance.gauss(late, scatter / sqrt(known))
    return {
        number: (max(0.7, exp(chance.gauss(late, scatter))), chance.random())
        for number in range(max(numbers, default=-1) + 1)
    }
