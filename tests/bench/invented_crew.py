"""A crew that never was, at work: hidden people, hidden pace, and the logbook that they leave.

The crew's truth is drawn at random and known only here. It works half hour by half hour, picks its
work as real crews do (often what is pressing, sometimes what it likes), and shares no code with
the forecast that is checked against it.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from math import exp, log
from random import Random
from typing import Any

from dateutil.relativedelta import relativedelta

from crewboard.logbook.acts import (
    Arrived,
    Begun,
    Extended,
    Finished,
    HoursWorked,
    Ordered,
    Released,
    SignIn,
)
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.plan.duration import Duration
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from tests.bench.invented_finds import before_one_of, found_after
from tests.bench.invented_people import People
from tests.bench.worlds import WORLDS, World

TICK = timedelta(minutes=30)


class Truth:
    """What is so, and nobody knows."""

    def __init__(self, plan: Plan, rnd: Random, world: World) -> None:
        factor = exp(rnd.gauss(0.1, 0.35))
        scatter = rnd.uniform(0.1, 0.5)
        common, alike = rnd.uniform(0.3, 0.85), rnd.uniform(2, 10)
        self.share = rnd.uniform(0.6, 0.95)
        self.likes_its_own = rnd.uniform(0.0, 0.6)
        self.held = rnd.choice((1.0, 1.0, 0.95, 0.85))
        self.extends = rnd.uniform(0.0, 0.2)
        self.late = rnd.gauss(0.1, 0.15)
        self.comes = {
            who: rnd.betavariate(alike * common, alike * (1 - common)) for who in plan.crew
        }
        self._factor, self._scatter, self._tail = factor, scatter, world.tail
        self.hours = {task.id: self.hours_of(task, rnd) for task in plan.tasks.values()}
        self.other = Random(f"{world.name} {self.share}")  # what only some worlds ask for
        self.learns = self.other.uniform(0.1, 0.3) if world.practice else 0.0
        self.late_scatter = 0.6 if world.tail else 0.3

    def hours_of(self, task: Task, rnd: Random) -> float:
        """The person-hours that a task really takes, for a crew without practice."""
        low, likely, high = task.estimate or (2.0, 4.0, 12.0)
        if self._tail == "log-normal":
            return likely * self._factor * exp(rnd.gauss(0.0, 0.8))
        if self._tail == "pareto":
            return likely * self._factor * 0.6 * rnd.paretovariate(2.5)
        worth = low
        if high > low:
            alpha = 1 + 4 * (likely - low) / (high - low)
            beta = 1 + 4 * (high - likely) / (high - low)
            worth = low + (high - low) * rnd.betavariate(alpha, beta)
        return worth * self._factor * exp(rnd.gauss(0.0, self._scatter))

    def practised(self, done: int) -> float:
        """By what hours fall when so many tasks are done (Wright 1936: a power of their number)."""
        return exp(-self.learns * log(1 + done / 5))


class InventedCrew:
    """The crew at work from a first day on. Crews that are otherwise (`other_crews`) override
    what is public."""

    def __init__(self, plan: Plan, first: date, rnd: Random, world: World = WORLDS[0]) -> None:
        self.plan = plan
        self.world = world
        self.first = self.day = first
        self.rnd = rnd
        self.truth = Truth(plan, rnd, world)
        self.other = self.truth.other
        self.people = People(plan, self.truth.comes, self.other, world.groups)
        self.pressing = _how_pressing(plan)
        self.left = dict(self.truth.hours)
        self.begun: set[str] = set()
        self.clear: dict[str, datetime] = {}  # task -> when its hold is over (and looked at)
        self.done: set[str] = set()
        self.came: dict[str, date] = {}  # supply -> when it comes
        self.entries: dict[date, list[Entry]] = {}
        self._number = 0
        self.begins()

    @property
    def finished(self) -> bool:
        return len(self.done) == len(self.plan.tasks)

    @property
    def finish(self) -> datetime:
        """When everything was done, holds and all."""
        return max(self.clear.values())

    def begins(self) -> None:
        """Before the first day: what is otherwise from the beginning."""

    def is_asked(self, stop_at: float) -> bool:
        """Whether the forecast is asked for now: when so many tasks are done."""
        return len(self.done) >= stop_at

    def who_comes(self) -> list[str]:
        return self.people.here(self.day, self.rnd)

    def writes_hours(self, who: str) -> bool:
        """Whether somebody's hours get into the logbook."""
        return True

    def begins_task(self, task_id: str, now: datetime) -> bool:
        """Whether a task whose turn has come is begun at all."""
        return True

    def hours_begun(self, task_id: str) -> float:
        """By what a task's hours are multiplied that is begun now."""
        return self.truth.practised(len(self.done))

    def rate_of(self, task: Task) -> float:
        """Hours found for each hour of a task that is finished now."""
        return self.world.rate

    def logbook(self) -> Logbook:
        return Logbook({day: Day(day, self.entries[day]) for day in sorted(self.entries)})

    def next_day(self) -> None:
        """Go through one day of the calendar."""
        openings = self.plan.vehicle.work_days.openings_on(self.day)
        if openings and self.rnd.random() < self.truth.held:
            people = self.who_comes()
            self.plan = self.plan._replace(crew=self.people.crew.copy())
            opens, closes = (datetime.combine(self.day, each) for each in openings[0])
            if people:
                self._work_day(people, opens, closes)
        self.day += timedelta(days=1)

    def say(self, at: datetime, act: Any) -> str:
        self._number += 1
        entry = Entry(f"x{self._number}", at, act)
        self.entries.setdefault(at.date(), []).append(entry)
        return entry.id

    def _work_day(self, people: list[str], opens: datetime, closes: datetime) -> None:
        self._morning(people, opens)
        idle, teams, worked = set(people), dict[str, list[str]](), dict[tuple[str, str], float]()
        now = opens
        while now < closes:
            self._form_teams(idle, teams, now)
            now += TICK
            for task, team in list(teams.items()):
                for who in team:
                    spent = 0.5 * self.truth.share
                    worked[who, task] = worked.get((who, task), 0.0) + spent
                    self.left[task] -= spent
                if self.left[task] <= 0:
                    idle |= set(teams.pop(task))
                    self._finish(task, now)
        for (who, task), spent in worked.items():
            if self.writes_hours(who):
                self.say(closes, HoursWorked(who, round(spent, 2), task))

    def _morning(self, people: list[str], opens: datetime) -> None:
        for who in people:
            self.say(opens, SignIn(who))
        for supply in self.plan.supplies.values():
            if supply.in_stock:
                continue
            due = self.came.get(supply.id)
            if due is None and self.rnd.random() < 0.2:
                lead = supply.lead_time or Duration(days=14)
                promised = self.day + timedelta(days=lead.days + 30 * lead.months)
                self.say(opens, Ordered(supply.id, promised))
                days = (promised - self.day).days * exp(
                    self.rnd.gauss(self.truth.late, self.truth.late_scatter)
                )
                self.came[supply.id] = self.day + timedelta(days=round(days))
            elif due is not None and due <= self.day and not self._is_said(supply.id):
                self.say(opens, Arrived(supply.id))

    def _is_said(self, supply: str) -> bool:
        return any(
            isinstance(e.act, Arrived) and e.act.supply == supply
            for day in self.entries.values()
            for e in day
        )

    def _form_teams(self, idle: set[str], teams: dict[str, list[str]], now: datetime) -> None:
        busy = {self.plan.tasks[t].place for t in teams} - {""}
        for task_id in self._in_order_of_liking(now):
            task = self.plan.tasks[task_id]
            if task_id in teams or task.place in busy or not idle:
                continue
            if task_id not in self.begun and not self.begins_task(task_id, now):
                continue
            team: list[str] = []
            for skill in task.skills:
                able = [w for w in sorted(idle) if skill in self.plan.crew[w].skills]
                team += [w for w in able if w not in team][:1]
                if not able:
                    break
            else:
                wanted = max(task.least_people, len(team))
                if self.rnd.random() < 0.5:
                    wanted = max(wanted, min(task.most_people or 2, wanted + 1))
                team += [w for w in sorted(idle) if w not in team][: wanted - len(team)]
                if len(team) < task.least_people:
                    continue
                idle -= set(team)
                busy |= {task.place} - {""}
                teams[task_id] = team
                if task_id not in self.begun:
                    self.begun.add(task_id)
                    self.left[task_id] *= self.hours_begun(task_id)
                    self.say(now, Begun(task_id, tuple(team)))

    def _in_order_of_liking(self, now: datetime) -> list[str]:
        found = [t for t in self.plan.tasks if t not in self.done and self._is_ready(t, now)]
        own = self.truth.likes_its_own
        rank = {
            t: (t not in self.begun, self.rnd.random() if self.rnd.random() < own else 0.0,
                -self.pressing[t])
            for t in found
        }  # fmt: skip
        return sorted(found, key=lambda t: rank[t])

    def _is_ready(self, task_id: str, now: datetime) -> bool:
        task = self.plan.tasks[task_id]
        for each in task.after:
            if each not in self.done or (each not in task.during and self.clear[each] > now):
                return False
        return all(
            self.plan.supplies[s].in_stock or self.came.get(s, date.max) <= now.date()
            for s in task.supplies
        )

    def _finish(self, task_id: str, now: datetime) -> None:
        self.done.add(task_id)
        entry = self.say(now, Finished(task_id))
        hold = self.plan.tasks[task_id].hold
        over = now
        if hold is not None and hold.lasts is not None:
            over = _later(now, hold.lasts)
            if self.rnd.random() < self.truth.extends:
                more = timedelta(days=max(1, round((over - now).days * self.rnd.uniform(0.2, 0.8))))
                self.say(now, Extended(entry, until=over + more, why="still soft"))
                over += more
            if hold.release == "look":
                over = self._looked_at(over)
                self.say(over, Released(entry, "looked at"))
        self.clear[task_id] = over
        if self.rate_of(self.plan.tasks[task_id]):
            self._find(self.plan.tasks[task_id], now.date())

    def _find(self, task: Task, day: date) -> None:
        """Take up in the plan what finishing the task has brought to light."""
        tasks = dict(self.plan.tasks)
        for found in found_after(task, self.rate_of(task), day, len(tasks), self.other):
            before = before_one_of(found, tasks, self.begun, self.other)
            if before:
                tasks[before] = tasks[before]._replace(after=(*tasks[before].after, found.id))
            tasks[found.id] = found
            self.left[found.id] = self.truth.hours_of(found, self.other)
            self.pressing[found.id] = 5.0 + self.pressing.get(before, 0.0)
        self.plan = self.plan._replace(tasks=tasks)

    def _looked_at(self, moment: datetime) -> datetime:
        day = moment.date()
        while True:
            for opening in self.plan.vehicle.work_days.openings_on(day):
                if datetime.combine(day, opening.closes) > moment:
                    return max(moment, datetime.combine(day, opening.opens))
            day += timedelta(days=1)


def _later(moment: datetime, span: Duration) -> datetime:
    return moment + relativedelta(months=span.months) + timedelta(span.days, minutes=span.minutes)


def _how_pressing(plan: Plan) -> dict[str, float]:
    """Days of work and waiting from a task to the end, as an old hand would reckon."""
    found: dict[str, float] = {}
    for task in reversed(list(plan.tasks.values())):
        behind = max(
            [found[t.id] for t in plan.tasks.values() if task.id in t.after and t.id in found],
            default=0.0,
        )
        wait = 0.0
        if task.hold is not None and task.hold.lasts is not None:
            wait = (_later(datetime(2026, 1, 1), task.hold.lasts) - datetime(2026, 1, 1)).days
        likely = task.estimate.likely if task.estimate else 4.0
        found[task.id] = behind + wait + 14 * likely / 7 / max(1, task.least_people)
    return found
