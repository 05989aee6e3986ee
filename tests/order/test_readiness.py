"""Where a task stands, against the definition said out in full, on random plans and logbooks.

The definition below knows nothing of gates, folds or courses: it looks at all earlier work, pair
by pair (networkx over `random_plans.pairs`), and at each line of the logbook from the first to
the moment asked for.
"""

from __future__ import annotations

import itertools
from datetime import date, datetime, timedelta
from typing import Any

import networkx
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import (
    Act,
    Arrived,
    Begun,
    Finished,
    HoldStarted,
    HoursWorked,
    Released,
    Reopened,
    SetAside,
)
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.state import NOT_YET
from crewboard.order.assess import assess
from crewboard.plan.duration import Duration
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from tests.long_form import cases
from tests.order.random_plans import inside, pairs, plans

nx: Any = networkx  # the library carries no types
START = datetime(2026, 1, 3, 9)


def logbook_of(entries: list[Entry]) -> Logbook:
    days: dict[date, list[Entry]] = {}
    for entry in entries:
        days.setdefault(entry.at.date(), []).append(entry)
    return Logbook({day: Day(day, days[day]) for day in sorted(days)})


@st.composite
def situations(draw: st.DrawFn) -> tuple[Plan, list[Entry], datetime]:
    """A plan, what was written about it in four months, sensible or not, and a moment."""
    plan = draw(plans(8, holds=True))
    supply = Supply("oak", "Oak", arrived=draw(st.sampled_from([None, date(2026, 2, 1)])))
    tasks = {
        t.id: t._replace(
            supplies=("oak",) if draw(st.integers(0, 4)) == 0 else (),
            not_before=date(2026, 2, 20) if draw(st.integers(0, 5)) == 0 else None,
            finished=date(2026, 1, 1) if draw(st.integers(0, 5)) == 0 else None,
            set_aside="later" if draw(st.integers(0, 9)) == 0 else "",
        )
        for t in plan.tasks.values()
    }
    plan = plan._replace(tasks=tasks, supplies={"oak": supply})
    entries: list[Entry] = []
    at = START
    for number in range(draw(st.integers(0, 18))):
        at += timedelta(minutes=draw(st.integers(1, 15_000)))
        task = draw(st.sampled_from(sorted(tasks)))
        holds = [e.id for e in entries if isinstance(e.act, Finished | HoldStarted)]
        kind = draw(st.sampled_from("ffffbbbrrhxsoa"))
        acts: dict[str, Act] = {
            "f": Finished(task),
            "b": Begun(task, ("ada",)),
            "r": Released(draw(st.sampled_from(holds)) if holds else "none"),
            "h": HoldStarted("dry", task, "", Duration(days=9), "look" if number % 2 else ""),
            "x": Reopened(task, "a gap"),
            "s": SetAside(task, "" if number % 2 else "no room", back=bool(number % 2)),
            "o": HoldStarted("decision", "", tasks[task].component),
            "a": Arrived("oak"),
        }
        entries.append(Entry(f"e{number}", at, acts[kind], "ada"))
    moment = START + timedelta(minutes=draw(st.integers(0, 200_000)))
    return plan, entries, moment


class Said:
    """The logbook read line by line, with nothing but lists and sets."""

    def __init__(self, plan: Plan, entries: list[Entry], at: datetime) -> None:
        self.plan, self.at = plan, at
        self.done = {t.id for t in plan.tasks.values() if t.finished}
        self.begun: set[str] = set()
        self.open_again: set[str] = set()
        self.aside = {t.id: bool(t.set_aside) for t in plan.tasks.values()}
        self.oak = bool((oak := plan.supplies["oak"]).arrived and oak.arrived <= at.date())
        self.logged: dict[str, str] = {}  # task -> the line that finished it
        # id -> (task, component, end or None, asks for a look, leave the component alone)
        self.holds: dict[str, tuple[str, str, datetime | None, bool, bool]] = {}
        for task in plan.tasks.values():
            if task.finished and task.hold and task.hold.lasts:
                midnight = datetime.combine(task.finished, datetime.min.time()) + timedelta(days=1)
                self._start(task.id, task.id, midnight, look=False)
        for entry in entries:
            if entry.at <= at:
                self._read(entry)

    def _start(self, name: str, task_id: str, since: datetime, look: bool | None = None) -> None:
        task = self.plan.tasks[task_id]
        hold = task.hold
        assert hold is not None
        end = None
        if hold.lasts is not None:
            end = since + relativedelta(
                months=hold.lasts.months, days=hold.lasts.days, minutes=hold.lasts.minutes
            )
        asks = hold.release == "look" if look is None else look
        self.holds[name] = (task_id, task.component, end, asks, hold.leave_alone)

    def _read(self, entry: Entry) -> None:
        match entry.act:
            case Finished(task=task) if task not in self.logged:
                self.logged[task] = entry.id
                self.done.add(task)
                self.open_again.discard(task)
                if self.plan.tasks[task].hold:
                    self._start(entry.id, task, entry.at)
            case Begun(task=task):
                self.begun.add(task)
            case Reopened(task=task):
                self.holds.pop(self.logged.pop(task, ""), None)
                self.holds.pop(task, None)
                self.done.discard(task)
                self.begun.discard(task)
                self.open_again.add(task)
            case Released(hold=hold):
                self.holds.pop(hold, None)
            case SetAside(task=task, back=back):
                self.aside[task] = not back
            case HoldStarted(task=task, component=component, lasts=lasts, release=release):
                end = entry.at + timedelta(days=lasts.days) if lasts else None
                where = component or self.plan.tasks[task].component
                look = release == "look" or lasts is None
                # A decision about a component keeps what comes after it, not the work on it.
                self.holds[entry.id] = (task or f"#{where}", where, end, look, False)
            case Arrived():
                self.oak = True

    def running(self) -> dict[str, tuple[str, str, bool]]:
        """The holds that stop work: id -> task, component, leave alone."""
        return {
            name: (task, component, alone)
            for name, (task, component, end, look, alone) in self.holds.items()
            if end is None or look or self.at < end
        }

    def state(self, task_id: str, graph: Any) -> str:
        task = self.plan.tasks[task_id]
        running = self.running()
        own = any(on == task_id for on, _, _ in running.values())
        if task_id in self.done:
            return "on hold" if own else "finished"
        if self.aside[task_id]:
            return "set aside"
        allowed = self._allowed(task_id)
        around = any(
            alone and on != task_id and on not in allowed
            and task.component in inside(self.plan.components, where)
            for on, where, alone in running.values()
        )  # fmt: skip
        if own or around:
            return "on hold"
        if task_id in self.begun:
            return "under way"
        before = self._next_before(task_id, graph)
        if {each for each in before if not each.startswith("#")} - self.done:
            return "waiting"
        if nx.ancestors(graph, task_id) & self.open_again:
            return "waiting"
        short = "oak" in task.supplies and not self.oak
        early = task.not_before is not None and self.at.date() < task.not_before
        still = any(on in before - allowed for on, _, _ in running.values())
        if early or still:
            return "waiting"
        return "needs supplies" if short else "ready"

    def _allowed(self, task_id: str) -> set[str]:
        """Earlier work whose hold need not be over."""
        found: set[str] = set()
        for named in self.plan.tasks[task_id].during:
            if named in self.plan.tasks:
                found.add(named)
            else:
                within = inside(self.plan.components, named)
                found |= {f"#{each}" for each in within}
                found |= {t.id for t in self.plan.tasks.values() if t.component in within}
        return found

    def _next_before(self, task_id: str, graph: Any) -> set[str]:
        """The nearest earlier work, and the components ("#c") through which it is seen."""
        view = nx.subgraph_view(graph, filter_edge=lambda a, b: b == task_id or b.startswith("#"))
        return set(nx.ancestors(view, task_id))


@cases(200, 8000)
@given(situations())
def test_every_task_stands_where_the_definition_puts_it(
    situation: tuple[Plan, list[Entry], datetime],
) -> None:
    plan, entries, at = situation
    graph = nx.DiGraph(pairs(plan.components, plan.tasks))
    graph.add_nodes_from(plan.tasks)
    said = Said(plan, entries, at)
    board = assess(plan, logbook_of(entries), at)
    expected = {task: said.state(task, graph) for task in plan.tasks}
    assert {task: s.state for task, s in board.standings.items()} == expected
    assert {h.id for h in board.holds.values() if h.stops_work} == set(said.running())


@cases(100, 4000)
@given(situations(), st.integers(0, 200_000))
def test_the_board_of_a_past_moment_knows_nothing_of_what_came_later(
    situation: tuple[Plan, list[Entry], datetime], minutes: int
) -> None:
    plan, entries, _ = situation
    worked = [
        Entry(f"h{n}", e.at + timedelta(minutes=30), HoursWorked("ada", 1.5, task))
        for n, e in enumerate(entries)
        if (task := getattr(e.act, "task", ""))
    ]
    everything = sorted([*entries, *worked], key=lambda e: e.at)
    past = START + timedelta(minutes=minutes)
    whole = assess(plan, logbook_of(everything), past)
    cut = assess(plan, logbook_of([e for e in everything if e.at <= past]), past)
    assert whole.standings == cut.standings
    assert whole.holds == cut.holds
    assert whole.present == cut.present


@cases(60, 3000)
@given(situations())
def test_why_and_what_then_agree_with_where_the_tasks_stand(
    situation: tuple[Plan, list[Entry], datetime],
) -> None:
    """What finishing a task would let go now, stands ready once it is finished."""
    from crewboard.order.reasons.onward import what_then
    from crewboard.order.reasons.why import roots

    plan, entries, at = situation
    board = assess(plan, logbook_of(entries), at)
    for standing in board.standings.values():
        task = standing.task.id
        if standing.state in NOT_YET and not standing.work_done:
            assert roots(board, task), "a task that cannot begin has a reason"
        if standing.work_done:
            continue
        then = [*(e for e in entries if e.at <= at), Entry("then", at, Finished(task))]
        after = assess(plan, logbook_of(then), at)
        ready = {t for t, s in after.standings.items() if s.state == "ready"}
        ready -= {t for t, s in board.standings.items() if s.state == "ready"}
        assert set(what_then(board, task).now) == ready
        for follower in what_then(board, task).after_hold:
            assert after[follower].state in NOT_YET, (task, follower)
        for follower in what_then(board, task).closer:
            assert after[follower].state in NOT_YET, (task, follower)


@cases(80, 3000)
@given(situations())
def test_why_goes_step_by_step_down_to_something_that_can_be_done_or_waited_for(
    situation: tuple[Plan, list[Entry], datetime],
) -> None:
    from crewboard.order.reasons.why import why

    plan, entries, at = situation
    board = assess(plan, logbook_of(entries), at)
    for task in plan.tasks:
        chain = why(board, task)
        assert (chain[0].depth, chain[0].about, chain[0].id) == (0, "task", task)
        for step, deeper in itertools.pairwise(chain):
            assert deeper.depth <= step.depth + 1
        tasks_told = [reason.id for reason in chain if reason.about == "task"]
        assert len(tasks_told) == len(set(tasks_told)), "nothing is told twice"
        for reason in chain:
            if reason.root and reason.about == "task":
                assert board[reason.id].state in ("ready", "under way", "set aside")
            if reason.about == "hold":
                assert board.holds[reason.id].stops_work
