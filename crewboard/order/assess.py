"""board = assess(plan, logbook, at): the one idea of the whole program."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, time

from crewboard.logbook.logbook import Logbook
from crewboard.order.board import Board, Passed, Standing, State
from crewboard.order.graph import OrderOfWork
from crewboard.order.history import Course, History
from crewboard.order.links import gate_of
from crewboard.order.running import StandingHold, as_running
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task

_NOTHING = Course()


def assess(plan: Plan, logbook: Logbook, at: datetime, order: OrderOfWork | None = None) -> Board:
    """Where every task stands at the moment `at` (the shop's wall clock).

    `order` is the plan's order of work where it was built before; it depends on the plan alone.
    """
    order = order or OrderOfWork(plan)
    history = History(plan, logbook, at)
    holds = {
        started.id: as_running(started, plan.clock, history.readings, at)
        for started in history.holds.values()
    }
    passed = _passed(plan, order, history, holds)
    standings = _standings(plan, order, history, holds, passed)
    return Board(plan, logbook, at, order, history, holds, standings, passed)


def _passed(
    plan: Plan, order: OrderOfWork, history: History, holds: Mapping[str, StandingHold]
) -> Passed:
    """Which tasks and gates are done, and which of them no hold keeps any longer."""
    held = {hold.task for hold in holds.values() if hold.stops_work}
    done: dict[str, bool] = {}
    clear: dict[str, bool] = {}
    for node in order.sequence:
        if gate_of(node):
            before = order.before[node]
            done[node] = all(done[b] for b in before)
            clear[node] = done[node] and all(clear[b] for b in before)
        else:
            course = history.courses.get(node, _NOTHING)
            # The logbook has the last word: a reopening undoes what the plan calls finished.
            done[node] = (
                course.finished is not None or _finished_by_plan(plan.tasks[node], history.at)
            ) and node not in history.reopened
            clear[node] = done[node] and node not in held
    return Passed(done, clear)


def _finished_by_plan(task: Task, at: datetime) -> bool:
    """A date still to come is no finish: nobody can have worked then."""
    return task.finished is not None and task.finished <= at.date()


def _standings(
    plan: Plan,
    order: OrderOfWork,
    history: History,
    holds: Mapping[str, StandingHold],
    passed: Passed,
) -> dict[str, Standing]:
    on_task: dict[str, list[StandingHold]] = {}
    left_alone: dict[str, list[StandingHold]] = {}
    for hold in holds.values():
        if not hold.stops_work:
            continue
        if hold.task:
            on_task.setdefault(hold.task, []).append(hold)
        if hold.leave_alone and hold.component in plan.components:
            for part in plan.with_parts(hold.component):
                left_alone.setdefault(part, []).append(hold)

    done, clear = passed

    def waits_and_holds(task: Task) -> tuple[bool, list[StandingHold]]:
        """Whether unfinished work stands before the task, and the holds that do."""
        if task.id not in order.during:
            before = order.before[task.id]
            if not all(done[b] for b in before):
                return True, []
            if all(clear[b] for b in before):
                return False, []
        earlier = order.tasks_right_before(task.id)
        allowed = order.during.get(task.id, frozenset())
        waiting = not all(done[e] for e in earlier)
        stopping = [h for e in earlier if e not in allowed for h in on_task.get(e, ())]
        return waiting, stopping

    def standing(task: Task) -> Standing:
        course = history.courses.get(task.id, _NOTHING)
        waiting, before = waits_and_holds(task)
        own = on_task.get(task.id, [])
        allowed = order.during.get(task.id, frozenset())
        around = [
            h
            for h in left_alone.get(task.component, ())
            if h.task != task.id and h.task not in allowed
        ]
        finished = _finished_at(task, course) if done[task.id] else None
        short_of = _short_of(plan, history, task) if finished is None else ()
        early = task.not_before is not None and history.at.date() < task.not_before
        aside = task.set_aside if course.set_aside is None else course.set_aside
        state: State
        if finished is not None:
            state, stopping = ("held", own) if own else ("finished", [])
        elif aside:
            state, stopping = "set aside", []
        elif own or around:
            state, stopping = "held", own + around
        elif course.begun is not None:
            state, stopping = "under way", []
        elif waiting:
            state, stopping = "waiting", []
        else:
            state, stopping = ("held", before) if before or short_of or early else ("ready", [])
        return Standing(
            task,
            state,
            course.begun.at if course.begun and finished is None else None,
            tuple(course.crew) if finished is None else (),
            finished,
            course.finished.by if course.finished else "",
            tuple(dict.fromkeys(h.id for h in stopping)),
            short_of,
            _until(plan, history, task, stopping, short_of, early) if state == "held" else None,
            course.hours,
            _hours_left(task, course, finished),
            aside,
        )

    return {task.id: standing(task) for task in plan.tasks.values()}


def _finished_at(task: Task, course: Course) -> datetime:
    if course.finished is not None:
        return course.finished.at
    assert task.finished is not None
    return datetime.combine(task.finished, time.min)


def _short_of(plan: Plan, history: History, task: Task) -> tuple[str, ...]:
    today = history.at.date()
    return tuple(
        each
        for each in task.supplies
        if (supply := plan.supplies.get(each)) is not None
        and not supply.in_stock
        and each not in history.arrived
        and (supply.arrived is None or supply.arrived > today)
    )


def _until(
    plan: Plan,
    history: History,
    task: Task,
    stopping: list[StandingHold],
    short_of: tuple[str, ...],
    early: bool,
) -> datetime | None:
    """The latest known end; None where one of the reasons has no date."""
    ends = [hold.until for hold in stopping]
    for each in short_of:
        told = history.ordered.get(each)  # what was promised last goes before the plan's date
        due = getattr(told.act, "due", None) if told else None
        due = due or plan.supplies[each].due
        ends.append(datetime.combine(due, time.min) if due else None)
    if early and task.not_before is not None:
        ends.append(datetime.combine(task.not_before, time.min))
    known = [end for end in ends if end is not None]
    return max(known) if known and len(known) == len(ends) else None


def _hours_left(task: Task, course: Course, finished: datetime | None) -> float | None:
    if finished is not None:
        return 0.0
    if course.left is not None:
        entry_hours, logged_then = course.left
        return max(0.0, entry_hours - (course.hours - logged_then))
    if task.estimate is None:
        return None
    return max(0.0, task.estimate.likely - course.hours)
