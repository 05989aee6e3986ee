"""Crews that live otherwise than those of `worlds`: kinds that the forecast was not built on.

Each overrides a little of the invented crew; every number is invented. They are measured like the
others (`forecast_calibration`), by the names in OTHERS.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from math import exp

from crewboard.logbook.acts import SetAside
from crewboard.plan.duration import parse_duration
from crewboard.plan.hold import Hold
from crewboard.plan.task import Task
from crewboard.plan.workdays import WorkDays, parse_rule
from tests.bench.invented_crew import InventedCrew

YEAR = 365.25
PARTS = ("c", "d", "e")


class Biased(InventedCrew):
    """Everything takes 1.6 times what was estimated, on top of what is so of each crew."""

    def begins(self) -> None:
        self.left = {task: 1.6 * hours for task, hours in self.left.items()}


class InParts(InventedCrew):
    """Three components one behind the other, as the tasks come."""

    def begins(self) -> None:
        tasks = list(self.plan.tasks.values())
        third = -(-len(tasks) // 3)
        named = (t._replace(component=PARTS[n // third]) for n, t in enumerate(tasks))
        self.plan = self.plan._replace(
            tasks={task.id: task for task in named},
            components={
                part: self.plan.components["c"]._replace(id=part, name=part) for part in PARTS
            },
        )


class BiasedInParts(InParts):
    """The hours of each component are estimated badly in a way of its own."""

    def begins(self) -> None:
        super().begins()
        bias = {part: exp(self.other.gauss(0.0, 0.4)) for part in PARTS}
        for task in self.plan.tasks.values():
            self.left[task.id] *= bias[task.component]


class FindsInOnePart(InParts):
    """All that turns up turns up in the second component."""

    def rate_of(self, task: Task) -> float:
        return 0.4 if task.component == PARTS[1] else 0.0


class FindsInBursts(InventedCrew):
    """One task in ten turns up a lot; in all a fifth more work."""

    def rate_of(self, task: Task) -> float:
        return 1.7 if self.other.random() < 0.1 else 0.0


class FindsEarly(InventedCrew):
    """What is opened up first turns up most."""

    def rate_of(self, task: Task) -> float:
        return 0.5 * max(0.0, 1 - 1.5 * len(self.done) / len(self.plan.tasks))


class FindsLate(InventedCrew):
    """Little turns up, until half is done."""

    def rate_of(self, task: Task) -> float:
        return 0.05 if 2 * len(self.done) < len(self.plan.tasks) else 0.3


class FewerCome(InventedCrew):
    """Who comes falls by a fifth a year."""

    yearly = 0.8

    def who_comes(self) -> list[str]:
        share = self.yearly ** ((self.day - self.first).days / YEAR)
        share = max(0.35, share) if self.yearly < 1 else 0.6 * min(1.6, share)
        return [who for who in super().who_comes() if self.other.random() < share]


class MoreCome(FewerCome):
    """Who comes rises by a fifth a year."""

    yearly = 1.2


class BusiestLeaves(InventedCrew):
    """Whoever comes most leaves when half is done."""

    gone = ""

    def who_comes(self) -> list[str]:
        if not self.gone and 2 * len(self.done) >= len(self.plan.tasks):
            crew = self.people.crew
            self.gone = max(crew, key=lambda who: self.people.comes[who])
            skills = crew[self.gone].skills
            crew[self.gone] = crew[self.gone]._replace(left=self.day - timedelta(1))
            heir = next(who for who in crew if who != self.gone)
            crew[heir] = crew[heir]._replace(skills=skills or crew[heir].skills)
        return [who for who in super().who_comes() if who != self.gone]


class NoWinter(InventedCrew):
    """Nobody comes from December to February; the plan does not say so."""

    def who_comes(self) -> list[str]:
        people = super().who_comes()
        return [] if self.day.month in (12, 1, 2) else people


class HalfWrite(InventedCrew):
    """Every other person writes no hours down."""

    def writes_hours(self, who: str) -> bool:
        return int(who[1:]) % 2 == 0


class Changes(InventedCrew):
    """Something changes after six days with people. The forecast is asked for when there were ten,
    or most is done."""

    @property
    def has_changed(self) -> bool:
        return len(self.entries) >= 6

    def is_asked(self, stop_at: float) -> bool:
        enough = len(self.entries) >= 10 or len(self.done) >= 0.7 * len(self.plan.tasks)
        return enough and super().is_asked(stop_at)


class RarerDays(Changes):
    """The crew changes from every Saturday to two a month, and writes it in the plan."""

    days: tuple[tuple[str, ...], ...] = ("saturday",), ("first saturday", "third saturday")

    def begins(self) -> None:
        self._meets(self.days[0])

    def who_comes(self) -> list[str]:
        if self.has_changed:
            self._meets(self.days[1])
        return super().who_comes()

    def _meets(self, days: tuple[str, ...]) -> None:
        vehicle = self.plan.vehicle._replace(work_days=WorkDays(tuple(map(parse_rule, days))))
        self.plan = self.plan._replace(vehicle=vehicle)


class MoreDays(RarerDays):
    """The other way about."""

    days = ("first saturday", "third saturday"), ("saturday",)


class SkipsDays(Changes):
    """From then on every third work day does not take place; no plan says so."""

    def who_comes(self) -> list[str]:
        people = super().who_comes()
        return [] if self.has_changed and self.other.random() < 1 / 3 else people


class Drops(InventedCrew):
    """One task in seven is set aside when its turn comes."""

    def begins(self) -> None:
        self._dropped = {task for task in self.plan.tasks if self.other.random() < 1 / 7}

    def begins_task(self, task_id: str, now: datetime) -> bool:
        if task_id not in self._dropped:
            return True
        self.say(now, SetAside(task_id, "not worth it"))
        self.done.add(task_id)
        self.clear[task_id] = now
        return False


class NoEstimates(InventedCrew):
    """Of four tasks in ten nobody said how long they take."""

    def begins(self) -> None:
        self.plan = self.plan._replace(
            tasks={
                name: task._replace(estimate=None) if self.other.random() < 0.4 else task
                for name, task in self.plan.tasks.items()
            }
        )


class LongHold(InventedCrew):
    """Wood dries for a year in the midst of it, and much waits for it."""

    def begins(self) -> None:
        tasks = list(self.plan.tasks.values())
        middle = len(tasks) // 2
        dries = Hold("dry", parse_duration("12 months"), "time")
        tasks[middle] = tasks[middle]._replace(hold=dries)
        last = tasks[-1]
        tasks[-1] = last._replace(after=tuple({*last.after, tasks[middle].id}))
        self.plan = self.plan._replace(tasks={task.id: task for task in tasks})
        self.pressing[tasks[middle].id] += 365.0


class SteadyPractice(InventedCrew):
    """Hours fall by a straight line, to half when all is done."""

    def hours_begun(self, task_id: str) -> float:
        return 1 - 0.5 * len(self.done) / len(self.plan.tasks)


class Tired(InventedCrew):
    """Hours rise by a straight line, to half as much again: the hard work comes last."""

    def hours_begun(self, task_id: str) -> float:
        return 1 + 0.5 * len(self.done) / len(self.plan.tasks)


class FewDays(InventedCrew):
    """The forecast is asked for after so many days with people."""

    after = 5

    def is_asked(self, stop_at: float) -> bool:
        return len(self.entries) >= self.after


class TenDays(FewDays):
    after = 10


class TwentyDays(FewDays):
    after = 20


class LongStop(Changes):
    """The shop was shut for a year then, and nothing was written."""

    def who_comes(self) -> list[str]:
        people = super().who_comes()
        worked = sorted(self.entries)
        shut = self.has_changed and self.day < worked[5] + timedelta(YEAR)
        return [] if shut else people


OTHERS: dict[str, type[InventedCrew]] = {
    "biased": Biased,
    "biased in parts": BiasedInParts,
    "finds in one part": FindsInOnePart,
    "finds in bursts": FindsInBursts,
    "finds early": FindsEarly,
    "finds late": FindsLate,
    "fewer come": FewerCome,
    "more come": MoreCome,
    "busiest leaves": BusiestLeaves,
    "no winter": NoWinter,
    "half write": HalfWrite,
    "rarer days": RarerDays,
    "more days": MoreDays,
    "skips days": SkipsDays,
    "drops": Drops,
    "no estimates": NoEstimates,
    "long hold": LongHold,
    "steady practice": SteadyPractice,
    "tired": Tired,
    "5 days": FewDays,
    "10 days": TenDays,
    "20 days": TwentyDays,
    "long stop": LongStop,
}
