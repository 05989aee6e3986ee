"""What was so at the moment of one line: who was here, who was on what, what went on, what ran."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import NamedTuple

from tests.safety_machine.books import Line, Plan, Sheet, is_of_age


class Wrong(NamedTuple):
    """Something that should not be: in which line, what."""

    line: str
    what: str


class Moment:
    """The lines that count up to one of them, it included."""

    def __init__(self, lines: list[Line], line: Line, plans: dict[str, Plan]) -> None:
        key = (line["at"], line["order"])
        self.lines = [other for other in lines if (other["at"], other["order"]) <= key]
        self.line, self.at, self.day = line, line["at"], line["at"].date()
        self.plan, self.plans = plans[line["id"]], plans

    def today(self, *kinds: str) -> list[Line]:
        return [e for e in self.lines if e["at"].date() == self.day and e["kind"] in kinds]

    def without(self, line: Line) -> Moment:
        other = object.__new__(Moment)
        other.__dict__ |= self.__dict__ | {"lines": [e for e in self.lines if e is not line]}
        return other

    def here(self) -> set[str]:
        last = {e["who"]: e["kind"] for e in self.today("sign-in", "sign-out")}
        return {who for who, kind in last.items() if kind == "sign-in"}

    def party(self, task: str) -> tuple[set[str], set[str], str]:
        """Who is on it, here, and began nothing else since; who of them watches; the adult."""
        last: dict[str, str] = {}
        crew: set[str] = set()
        watch: set[str] = set()
        adult = ""
        for e in self.today("begun", "finished", "stopped", "reopened"):
            if e["kind"] == "begun":
                doing = {*e.get("crew", ()), *filter(None, [e.get("adult", "")])}
                last |= dict.fromkeys({*doing, *e.get("watch", ())}, e["task"])
                if e["task"] == task:
                    watch = set(e.get("watch", ())) or watch
                    watch -= doing
                    crew = (crew | doing) - watch
                    adult = e.get("adult", "") or adult
            elif e["task"] == task:
                crew, watch, adult = set(), set(), ""
        here = {who for who in self.here() if last.get(who) == task}
        return (crew | watch) & here, watch & here, adult if adult in crew & here else ""

    def adults(self, people: set[str]) -> set[str]:
        return {who for who in people if is_of_age(self.plan.crew.get(who), self.day)}

    def minors(self, people: set[str]) -> set[str]:
        return {who for who in people if self.plan.crew.get(who, {}).get("adult") is False}

    def begun(self, task: str) -> list[Line]:
        return [e for e in self.lines if e["kind"] == "begun" and e["task"] == task]

    def over(self, task: str, sheet: Sheet, since: datetime) -> bool:
        """Whether anything said since that the work, or this danger of it, has ended."""
        for e in self.lines:
            if e["at"] < since or e.get("task", task) not in (task, ""):
                continue
            if e["kind"] in ("finished", "stopped", "reopened") and e["task"] == task:
                return True
            check = sheet.checks.get(e.get("check", ""), {})
            if e["kind"] == "check" and e["hazard"] == sheet.id and check.get("when") == "after":
                return True
        return False

    def dangers(self) -> Iterator[tuple[str, Sheet, str]]:
        """Task, sheet and place of work that goes on now: begun today, somebody on it is here."""
        for task in dict.fromkeys(e["task"] for e in self.today("begun")):
            begin = self.begun(task)[-1]
            then = self.plans[begin["id"]]
            if begin["at"].date() == self.day and self.party(task)[0]:
                for name in then.tasks[task].get("hazards", ()):
                    if name in then.sheets and not self.over(task, then.sheets[name], begin["at"]):
                        yield task, then.sheets[name], then.tasks[task].get("place", "")

    def clocks(self) -> Iterator[tuple[str, Sheet, str, str]]:
        """Task, sheet, place and what is guarded by each clock that runs: since its first check was
        signed, or its work was finished or stopped."""
        for task in dict.fromkeys(e["task"] for e in self.lines if e["kind"] == "begun"):
            begin = self.begun(task)[-1]
            then = self.plans[begin["id"]]
            for name in then.tasks[task].get("hazards", ()):
                sheet = then.sheets[name]
                for clock in sheet.clocks.values():
                    since = self._since(task, sheet, clock.get("starts", ""), begin["at"])
                    if since is not None and since <= self.at < since + sheet.lasts(clock):
                        place = then.tasks[task].get("place", "")
                        yield task, sheet, place, clock.get("guards", "closing")

    def _since(self, task: str, sheet: Sheet, starts: str, begun: datetime) -> datetime | None:
        said = [
            e["at"]
            for e in self.lines
            if e["at"] >= begun
            and e["kind"] == "check"
            and (e["hazard"], e["check"]) == (sheet.id, starts)
            and e.get("task") == task
            and e.get("who") in self.plan.crew
        ]
        done = [
            e["at"]
            for e in self.lines
            if e["at"] >= begun and e["kind"] in ("finished", "stopped") and e["task"] == task
        ]
        return max(said or done[-1:], default=None)
