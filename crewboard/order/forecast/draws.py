"""What chance decides in one course: hours, who comes, how long holds and deliveries take."""

from __future__ import annotations

from datetime import date
from math import exp
from random import Random

from crewboard.order.ahead.work_time import DAY
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.model import Attendance, Model, Work
from crewboard.order.forecast.pert_table import SLICES, normal_table, pert_table

# A hold that is made longer gets this much more of its length (common sense, no source).
LONGER = (0.15, 1.0)
# Each time the crew meets, what waits for a word (an inspection, a decision) is over with this
# chance (common sense, no source).
WORD = 0.5
# Who said that they come, or do not, keeps to it with this chance (common sense, no source).
COMES, STAYS_AWAY = 0.9, 0.95


class Drawn:
    """One course's chances. Streams are kept apart, so that a change of the plan that touches
    only one of them leaves the others as they are."""

    def __init__(self, model: Model, table: WorkDayTable, chance: Random) -> None:
        self.model = model
        self.table = table
        seed = chance.getrandbits(60)
        self.left, self.slower = _hours(model, Random(seed))
        self.turn = _at_once_first(model, _turns(model, Random(seed + 4)))
        self.most = _hands(model, Random(seed + 5))
        self._holds = Random(seed + 1)
        self._crew = _Comers(model.attendance, Random(seed + 2))
        self._supplies = _supply_factors(model, Random(seed + 3))
        self._came: dict[int, int] = {}
        self._longer = _hold_factors(model, self._holds)

    def present(self, day: int) -> int:
        """Who comes on that work day, as bits; always the same."""
        if day not in self._came:
            self._came[day] = self._crew.on(self.table.date(day))
        return self._came[day]

    def hold_over(self, task: int, work: Work, finish: float) -> float:
        """When the hold behind a task that ends then is over."""
        if work.hold is None:
            over = self.table.next_day(finish)
            while not self.model.delays.sure and self._holds.random() > WORD:
                over = self.table.next_day(over)
            return over
        end = finish + self.table.hold_length(work.hold, finish) * self._longer.get(task, 1.0)
        return self.table.open_from(end) if work.look else end

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


def _hours(model: Model, chance: Random) -> tuple[list[float], float]:
    """Person-minutes in the shop that each task still takes, and how many the crew takes on the
    whole for each that is estimated."""
    pace, rnd = model.pace, chance.random
    normal = normal_table()
    factor = exp(chance.gauss(pace.mean, pace.doubt) if pace.doubt else pace.mean)
    stretch = exp(chance.gauss(pace.stretch, pace.stretch_doubt) if pace.stretch_doubt else 0.0)
    share = pace.share
    if pace.share_doubt:
        share = min(1.0, max(0.1, share * exp(chance.gauss(0.0, pace.share_doubt))))
    noise = [exp(pace.scatter * z) for z in normal] if pace.scatter else [1.0]
    slices = len(noise)
    left = [0.0] * len(model.work)
    for task in model.draws:
        work = model.work[task]
        if work.range:
            worth = work.low + work.range * pert_table(work.table)[int(rnd() * SLICES)]
        else:
            worth = work.low
        scatter = stretch * noise[int(rnd() * slices)]
        own = factor * scatter
        if work.left is not None and work.overran:
            left[task] = work.left * scatter / share
        elif work.left is not None:
            left[task] = work.left * own / share
        elif work.done:
            left[task] = _still(work, worth, own, chance) / share
        else:
            left[task] = worth * own / share
    return left, factor * stretch / share


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


def _supply_factors(model: Model, chance: Random) -> dict[int, tuple[float, float]]:
    """Supply -> by what its delivery is stretched, how long its ordering is put off (0 to 1)."""
    if model.delays.sure:
        return {}
    numbers = {n for w in model.work for n, _ in (*w.orders, *w.deliveries)}
    late, scatter = model.delays.late_mean, model.delays.late_scatter
    return {
        number: (max(0.7, exp(chance.gauss(late, scatter))), chance.random())
        for number in range(max(numbers, default=-1) + 1)
    }


class _Comers:
    """Everybody's chance of coming, drawn once for a course, and who comes on a day.

    Everybody has a stream of chances of their own, so that one more person changes nobody else's.
    """

    def __init__(self, attendance: Attendance, chance: Random) -> None:
        self._as = attendance
        self._chance = chance
        self._everybody = (1 << len(attendance.people)) - 1
        if attendance.sure:
            return
        common = _common(attendance, chance)
        self._held = chance.betavariate(9.5 + attendance.held, 0.5 + attendance.dropped)
        alike, seed = attendance.alike, chance.getrandbits(60)
        self._each = []
        for person in attendance.people:
            own = Random(f"{seed}/{person.id}")
            comes = own.betavariate(
                max(0.05, alike * common) + person.came,
                max(0.05, alike * (1 - common)) + person.stayed_away,
            )
            self._each.append((own.random, comes))

    def on(self, day: date) -> int:
        """The people who come, as bits."""
        attendance = self._as
        if attendance.sure:
            return self._everybody
        rnd = self._chance.random
        answers = attendance.answers.get(day)
        season = attendance.seasons[day.month - 1]
        takes_place = rnd() < self._held or answers is not None
        here, bit = 0, 1
        for own, comes in self._each:
            if own() < comes * season and takes_place:
                here |= bit
            bit <<= 1
        for number, coming in answers or ():
            keeps = rnd() < (COMES if coming else STAYS_AWAY)
            here = here | 1 << number if coming == keeps else here & ~(1 << number)
        return here


def _common(attendance: Attendance, chance: Random) -> float:
    """The chance that the people of this crew have in common.

    Their number, not their days, says how surely it is known: they are alike, not the same.
    """
    came = sum(p.came for p in attendance.people)
    away = sum(p.stayed_away for p in attendance.people)
    worth = min(1.0, 2.0 * len(attendance.people) / (came + away)) if came + away else 0.0
    return chance.betavariate(2.5 + worth * came, 2.5 + worth * away)
