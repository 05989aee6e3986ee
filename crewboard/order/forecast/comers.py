"""Who comes on the work days of one course: chances drawn once, and then day by day.

Somebody comes where a normal number of their own and one that all have in common that day, mixed,
stay below what their chance asks for: so everybody keeps their own chance, and good and bad days
are good and bad for all (correlated binary variates by a threshold: Emrich and Piedmonte 1991).

Everybody has a stream of chances of their own, so that one more person changes nobody else's.
"""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from math import erfc, exp, inf, sqrt
from random import Random
from statistics import NormalDist

from crewboard.order.forecast.model import Attendance, Person
from crewboard.plan.time_away import TimeAway

# Who said that they come, or do not, keeps to it with this chance (common sense, no source).
COMES, STAYS_AWAY = 0.9, 0.95
# Until somebody new is as useful as the one who left: years on average (common sense, no source).
REPLACED_AFTER = 0.5
# Where nobody comes for them it takes so many times as long: a crew does not shrink for ever.
NOT_REPLACED = 4.0
# Who is on the list and never came on so many work days was never lost, and is not replaced.
NEVER = 4
_YEAR = 365.25
_NORMAL = NormalDist()
_ROOT = sqrt(0.5)
# The luck that all have in common on a day is the middle of one of so many equal slices.
LUCKS = 8
_LUCK = [_NORMAL.inv_cdf((n + 0.5) / LUCKS) for n in range(LUCKS)]


class Comers:
    """Everybody of one course."""

    def __init__(self, attendance: Attendance, today: date, chance: Random) -> None:
        self._as = attendance
        self._everybody = (1 << len(attendance.people)) - 1
        if attendance.sure:
            return
        seed = chance.getrandbits(60)
        self._chance = Random(chance.getrandbits(60))
        habit, shut = attendance.takes_place.habit, attendance.takes_place.open
        self._held = chance.betavariate(*habit) * chance.betavariate(*shut)
        common = common_chance(attendance, chance)
        luck = Random(f"{seed}")
        together = _one_of(attendance.together, luck.random())
        self._mine, self._all = 1 / sqrt(1 - together), sqrt(together / (1 - together))
        alike = attendance.alike
        of_crew = _OfCrew(
            max(0.05, alike * common),
            max(0.05, alike * (1 - common)),
            _drawn_seasons(attendance, luck),
            luck.gammavariate(attendance.leaving[0], 1 / attendance.leaving[1])
            if attendance.leaving
            else 0.0,
            luck.betavariate(*attendance.replaced) if all(attendance.replaced) else 1.0,
            self._mine,
        )
        self._places = [
            _Place(person, of_crew, today.toordinal(), Random(f"{seed}/{person.id}"))
            for person in attendance.people
        ]
        self._own = [place.days.random for place in self._places]
        self._asks: dict[int, list[float]] = {}  # by the season
        self._chances: dict[tuple[int, int], list[float]] = {}  # by the season and the day's luck
        self._change = min((place.until for place in self._places), default=inf)

    def on(self, day: date) -> int:
        """The people who come, as bits."""
        attendance = self._as
        if attendance.sure:
            return self._everybody
        if day in attendance.past:
            return attendance.past[day]
        chance = self._chance
        answers = attendance.answers.get(day)
        takes_place = chance.random() < self._held or answers is not None
        luck = int(chance.random() * LUCKS)
        here, bit = 0, 1
        for own, comes in zip(self._own, self._chances_on(day, luck), strict=True):
            if own() < comes:
                here |= bit
            bit <<= 1
        if not takes_place:
            return 0
        if attendance.away:
            here &= ~_away(attendance.away, day)
        for person, coming in answers or ():
            keeps = chance.random() < (COMES if coming else STAYS_AWAY)
            here = here | 1 << person if coming == keeps else here & ~(1 << person)
        return here

    def _chances_on(self, day: date, luck: int) -> list[float]:
        """Everybody's chance of coming on a day of such luck."""
        number = day.toordinal()
        if number >= self._change:
            for place in self._places:
                place.live_on(number)
            self._change = min(place.until for place in self._places)
            self._asks = {}
            self._chances = {}
        which = (season_of(day.month), luck if self._all else 0)
        chances = self._chances.get(which)
        if chances is None:
            shift = self._all * _LUCK[luck]
            asks = self._asks.get(which[0])
            if asks is None:
                asks = self._asks[which[0]] = [place.asks(day.month) for place in self._places]
            chances = self._chances[which] = [0.5 * erfc((shift - each) * _ROOT) for each in asks]
        return chances


@lru_cache(maxsize=5000)
def _away(away: tuple[tuple[int, tuple[TimeAway, ...]], ...], day: date) -> int:
    """Who is away that day, as bits."""
    return sum(1 << number for number, weeks in away if any(w.holds_on(day) for w in weeks))


class _OfCrew:
    """What everybody has in common in one course."""

    __slots__ = ("alpha", "beta", "leaving", "mine", "replaced", "seasons")

    def __init__(
        self,
        alpha: float,
        beta: float,
        seasons: tuple[float, ...],
        leaving: float,
        replaced: float,
        mine: float,
    ) -> None:
        self.alpha = alpha
        self.beta = beta
        self.seasons = seasons
        self.leaving = leaving
        self.replaced = replaced
        self.mine = mine


class _Place:
    """One place in the crew: the person who has it now, and who takes it when they have left.

    Whoever takes it does there what was done before, for somebody has to learn it.
    """

    __slots__ = ("_asked", "_chance", "_comes", "_of_crew", "_taken", "days", "until")

    def __init__(self, person: Person, of_crew: _OfCrew, today: int, days: Random) -> None:
        self._of_crew = of_crew
        self.days = days  # the luck of each day, which what else is drawn must not shift
        self._chance = Random(days.getrandbits(60))
        self._taken = True
        gone = self._chance.random() < person.gone
        never = person.came == 0 and person.stayed_away >= NEVER
        self.until = inf if never else today + self._stays()
        if gone:
            self._leave(today)
        self._comes = self._chance.betavariate(
            of_crew.alpha + person.came, of_crew.beta + person.stayed_away
        )
        self._asked = [0.0] * 4  # by the season, once it was asked for

    def live_on(self, day: int) -> None:
        """Leave, be replaced, leave again, as it comes up to that day."""
        while self.until <= day:
            if self._taken:
                self._leave(self.until)
            else:
                self._is_taken(self.until)

    def asks(self, month: int) -> float:
        """Below what a normal number has to stay for somebody to come in that month."""
        if not self._taken:
            return -inf
        asked = self._asked[season_of(month)]
        if not asked:
            comes = min(0.995, max(1e-6, self._comes * self._of_crew.seasons[month - 1]))
            asked = _NORMAL.inv_cdf(comes) * self._of_crew.mine
            self._asked[season_of(month)] = asked
        return asked

    def _stays(self) -> float:
        """For how many days."""
        leaving = self._of_crew.leaving
        return self._chance.expovariate(leaving) * _YEAR if leaving else inf

    def _leave(self, since: float) -> None:
        self._taken = False
        replaced = self._chance.random() < self._of_crew.replaced
        wait = self._chance.expovariate(1 / REPLACED_AFTER) * _YEAR
        self.until = since + (wait if replaced else NOT_REPLACED * wait)

    def _is_taken(self, since: float) -> None:
        self._taken = True
        self._comes = self._chance.betavariate(self._of_crew.alpha, self._of_crew.beta)
        self._asked = [0.0] * 4
        self.until = since + self._stays()


def common_chance(attendance: Attendance, chance: Random) -> float:
    """The chance that the people of this crew have in common.

    Their number, not their days, says how surely it is known: they are alike, not the same.
    """
    came = sum(p.came for p in attendance.people)
    away = sum(p.stayed_away - p.gone * p.silent for p in attendance.people)
    worth = min(1.0, 2.0 * len(attendance.people) / (came + away)) if came + away else 0.0
    return chance.betavariate(2.5 + worth * came, 2.5 + worth * away)


def _drawn_seasons(attendance: Attendance, chance: Random) -> tuple[float, ...]:
    """What the months multiply the chance with; the three months of a season have one draw."""
    luck = [chance.gauss(0.0, 1.0) for _ in range(4)]
    return tuple(
        mean * exp(doubt * luck[season_of(month)])
        for month, (mean, doubt) in enumerate(
            zip(attendance.seasons, attendance.season_doubt, strict=True), 1
        )
    )


def season_of(month: int) -> int:
    """Winter (December to February) is 0, autumn 3."""
    return month % 12 // 3


def _one_of(chances: tuple[tuple[float, float], ...], luck: float) -> float:
    for value, chance in chances:
        luck -= chance
        if luck < 0:
            return value
    return chances[-1][0]
