"""Who of an invented crew comes on a day: each with a chance of their own, or in groups as well.

In groups: fewer in winter, nobody in the holidays, days that suit few or many (rain, a fair), and
people who leave for good, of whom every other is struck off the list, and others who join.
"""

from __future__ import annotations

from datetime import date, timedelta
from math import exp, log
from random import Random

from crewboard.plan.plan import Plan
from crewboard.plan.volunteer import Volunteer

_FEWEST = 3


class People:
    """The crew of a plan, and how it changes."""

    def __init__(self, plan: Plan, comes: dict[str, float], chance: Random, groups: bool) -> None:
        self.crew = dict(plan.crew)
        self.comes = comes
        self._chance = chance
        self._groups = groups
        self._gone: set[str] = set()
        self._number = len(self.crew)
        self._winter = chance.uniform(0.3, 0.8)
        self._shock = chance.uniform(0.4, 1.2)
        self._leave = chance.uniform(0.1, 0.5)  # of each, a year
        self._join = self._leave * len(self.crew) * chance.uniform(0.6, 1.4)
        self._common, self._alike = chance.uniform(0.3, 0.85), chance.uniform(2, 10)
        self._summer = chance.randint(190, 230)  # the first day of three weeks, in the year
        self._before: date | None = None

    def here(self, day: date, chance: Random) -> list[str]:
        """Who comes on that work day."""
        if not self._groups:
            return [who for who in self.crew if chance.random() < self.comes[who]]
        self._come_and_go(day)
        if self._is_holiday(day):
            return []
        season = log(self._winter) if day.month in (11, 12, 1, 2) else 0.0
        shock = season + self._chance.gauss(0.0, self._shock)
        staying = (who for who in self.crew if who not in self._gone)
        return [who for who in staying if chance.random() < _shifted(self.comes[who], shock)]

    def _is_holiday(self, day: date) -> bool:
        in_year = day.timetuple().tm_yday
        return in_year >= 356 or in_year <= 5 or self._summer <= in_year < self._summer + 21

    def _come_and_go(self, day: date) -> None:
        years = (day - (self._before or day)).days / 365
        self._before = day
        for who in [who for who in self.crew if who not in self._gone]:
            if self._chance.random() < 1 - exp(-self._leave * years):
                self._gone.add(who)
                if self._chance.random() < 0.5:
                    self.crew[who] = self.crew[who]._replace(left=day - timedelta(1))
        short = len(self.crew) - len(self._gone) < _FEWEST
        while short or self._chance.random() < 1 - exp(-self._join * years):
            self._joins(day)
            short = len(self.crew) - len(self._gone) < _FEWEST
            years = 0.0
        staying = [who for who in self.crew if who not in self._gone]
        if not any(self.crew[who].skills for who in staying):
            most = max(staying, key=lambda who: self.comes[who])
            self.crew[most] = self.crew[most]._replace(skills=("welding",))

    def _joins(self, day: date) -> None:
        who = f"p{self._number}"
        self._number += 1
        common, alike = self._common, self._alike
        skills = ("welding",) if self._chance.random() < 0.2 else ()
        self.crew[who] = Volunteer(who, who.upper(), skills, joined=day)
        self.comes[who] = self._chance.betavariate(alike * common, alike * (1 - common))


def _shifted(chance: float, by: float) -> float:
    """The chance with its log odds shifted."""
    odds = chance / max(1e-9, 1 - chance) * exp(by)
    return odds / (1 + odds)
