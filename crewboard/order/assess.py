"""board = assess(plan, logbook, at): the one idea of the whole program."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence, Set
from datetime import datetime, time
from functools import cache, partial

from crewboard.logbook.logbook import Logbook
from crewboard.logbook.state import NOT_YET, State
from crewboard.order.board import Board, Standing
from crewboard.order.history import History, TaskCourse
from crewboard.order.holds.looked_at import LastBegun
from crewboard.order.holds.running import Rules, StandingHold, as_standing
from crewboard.order.holds.shop_air import ShopAir
from crewboard.order.hours.left import HoursToGo, hours_to_go, said_of
from crewboard.order.pieces import NotAsked, not_asked
from crewboard.order.readiness import HoldsInTheWay, Readiness, Stops, holds_in_the_way
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.order.sequence.passing import Facts, passed
from crewboard.order.supplies import Stock
from crewboard.order.unreadable import Unreadable
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task

_NOTHING = TaskCourse()


def assess(
    plan: Plan,
    logbook: Logbook,
    at: datetime,
    order: OrderOfWork | None = None,
    unreadable: tuple[Unreadable, ...] = (),
) -> Board:
    """Where every task stands at the moment `at` (the shop's wall clock).

    `order` is the plan's order of work where it was built before; it depends on the plan alone.
    `unreadable` is what of the plan and the logbook could not be read: what it may hold back is
    never ready.
    """
    order = order or OrderOfWork(plan)
    history = History(plan, logbook, at)
    air = ShopAir(history.readings, logbook.logged)
    rules = Rules(plan.clock, air, plan.vehicle.shop.readings_good_for)
    holds = {started.id: as_standing(started, rules, at) for started in history.holds.values()}
    begun = LastBegun(order, history)
    for hold in holds.values():
        if hold.stage == "due" and hold.release == "time" and begun.since(hold):
            holds[hold.id] = hold._replace(stage="over")
    finished = _finished(plan, history)
    if unreadable:
        holds |= _in_doubt(order, finished, holds, unreadable)
    in_the_way = holds_in_the_way(plan, holds.values())
    idle = not_asked(plan, history)
    lost = {task for task, answer in idle.items() if answer.lost}
    facts = Facts(finished, history.reopened.keys(), in_the_way.behind.keys(), lost)
    taken = _jigs_taken(plan, history, finished, in_the_way, idle)
    jigs = plan.vehicle.jigs
    so_far = passed(order, facts)
    readiness = Readiness(order, facts, so_far, in_the_way, at.date(), jigs, taken)
    stock = Stock(plan, history.supplies, facts.finished, at.date())
    standings = _standings(plan, history, readiness, stock, idle)
    if unreadable:
        from crewboard.order.held_back import held_back  # mostly everything can be read

        for task_id, files in held_back(plan, logbook, order, unreadable, at.date()).items():
            standings[task_id] = _held_back(standings[task_id], files)
    return Board(
        plan,
        logbook,
        at,
        order,
        history,
        holds,
        standings,
        readiness,
        rules,
        stock,
        unreadable,
        idle,
    )


def _held_back(standing: Standing, files: tuple[str, ...]) -> Standing:
    """The standing of a task that a file may hold back: never ready, and no end is sure."""
    if standing.work_done or standing.state == "set aside":
        return standing._replace(until=None)
    if standing.state == "ready":
        return standing._replace(state="on hold", unreadable=files, else_ready=True)
    return standing._replace(until=None, unreadable=files)


def _in_doubt(
    order: OrderOfWork,
    done: set[str],
    holds: Mapping[str, StandingHold],
    unreadable: tuple[Unreadable, ...],
) -> dict[str, StandingHold]:
    """The holds that may run on for all that can be read: not those that ended by themselves and
    behind which all work is done."""
    from crewboard.order.holds.in_doubt import in_doubt  # mostly everything can be read

    def is_settled(hold: StandingHold) -> bool:
        behind = order.tasks_right_behind(hold.task) if hold.task in order.behind else ()
        return not hold.stops_work and bool(behind) and done.issuperset(behind)

    asked = (hold for hold in holds.values() if not is_settled(hold))
    return {hold.id: hold for hold in in_doubt(asked, unreadable)}


def _finished(plan: Plan, history: History) -> set[str]:
    """The tasks whose own work is done: by the logbook, or by the plan where no reopening undoes
    that. A date still to come is no finish: nobody can have worked then."""
    today = history.at.date()
    by_plan = {t.id for t in plan.tasks.values() if t.finished is not None and t.finished <= today}
    by_logbook = {task for task, course in history.courses.items() if course.finished is not None}
    return (by_plan - history.reopened.keys()) | by_logbook


def _standings(
    plan: Plan,
    history: History,
    readiness: Readiness,
    stock: Stock,
    idle: Mapping[str, NotAsked],
) -> dict[str, Standing]:
    standings: dict[str, Standing] = {}
    overruns = cache(partial(_overruns, plan, history))  # asked for by the few that overran
    for task in plan.tasks.values():
        course = history.courses.get(task.id, _NOTHING)
        if task.id in readiness.facts.finished:
            own = readiness.holds.behind.get(task.id, ())
            standing = _finished_standing(task, course, own)
        else:
            in_front = readiness.stops(task, stock.short_of(task))
            to_go = _hours_to_go(task, course, overruns)
            aside = idle[task.id].why if task.id in idle else _aside(task, course)
            standing = _open_standing(readiness, stock, task, course, in_front, to_go, aside)
        if open_again := readiness.passed.open_again.get(task.id):
            standing = standing._replace(open_again=open_again)
        standings[task.id] = standing
    return standings


def _finished_standing(task: Task, course: TaskCourse, own: Sequence[StandingHold]) -> Standing:
    return Standing(
        task,
        "on hold" if own else "finished",
        finished=_finished_at(task, course),
        finished_by=course.finished.by if course.finished else "",
        holds=_ids(own),
        until=_latest([hold.until for hold in own]),
        hours=course.hours,
        left=0.0,
        aside=_aside(task, course),
    )


def _open_standing(
    readiness: Readiness,
    stock: Stock,
    task: Task,
    course: TaskCourse,
    in_front: Stops,
    to_go: HoursToGo,
    aside: str,
) -> Standing:
    state, keeping = _state(aside, course, in_front)
    waits = state == "waiting" and in_front.waits
    ends = [hold.until for hold in keeping]
    days = [stock[supply_id].promised for supply_id in in_front.short_of]
    days += [task.not_before] if in_front.early else []
    ends += [datetime.combine(day, time.min) if day else None for day in days]
    ends += [readiness.free_from(jig) for jig in in_front.jigs]
    return Standing(
        task,
        state,
        begun=course.begun.at if course.begun else None,
        crew=tuple(course.crew),
        stopped=course.stopped.at if course.stopped else None,
        holds=_ids(keeping),
        short_of=in_front.short_of,
        jigs=in_front.jigs,
        waits=waits,
        until=_latest(ends) if state in NOT_YET and not waits else None,
        hours=course.hours,
        left=to_go.hours,
        ask_left=to_go.ask,
        aside=aside,
        held_again=_held_again(course, in_front) if state == "under way" else (),
    )


def _state(aside: str, course: TaskCourse, in_front: Stops) -> tuple[State, Sequence[StandingHold]]:
    """Where unfinished work stands, and the holds that keep it there."""
    if aside:
        return "set aside", ()
    on_piece = () if in_front.waits else in_front.on_piece
    if in_front.own or in_front.around or on_piece:
        return "on hold", in_front.own + in_front.around + on_piece
    if course.begun is not None:
        return "under way", ()
    if in_front.waits:
        return "waiting", ()
    if in_front.before or in_front.jigs or in_front.early:
        return "waiting", in_front.before
    return ("needs supplies" if in_front.short_of else "ready"), ()


def _jigs_taken(
    plan: Plan,
    history: History,
    finished: Set[str],
    holds: HoldsInTheWay,
    idle: Mapping[str, NotAsked],
) -> dict[str, dict[str, None]]:
    """Jig -> the tasks that have one: from their begin until their hold is over. What is set aside
    half done, or done to a piece that failed, has none any more."""
    taken: dict[str, dict[str, None]] = {}
    for task in plan.tasks.values() if plan.vehicle.jigs else ():
        if not task.uses:
            continue
        course = history.courses.get(task.id, _NOTHING)
        goes_on = course.begun is not None and task.id not in finished
        aside = task.id in idle or bool(_aside(task, course))
        sets = any(hold.task for hold in holds.behind.get(task.id, ()))
        if sets or (goes_on and not aside):
            for jig in task.uses:
                taken.setdefault(jig, {})[task.id] = None
    return taken


def _held_again(course: TaskCourse, in_front: Stops) -> tuple[str, ...]:
    """The holds right before work that was begun before they ran, or ran again: not those of which
    whoever began it knew and gave a reason."""
    begun = course.begun
    assert begun is not None
    knew = begun.despite or getattr(begun.act, "despite", "")
    return _ids([hold for hold in in_front.before if not knew or begun.at < hold.last_moved])


def _aside(task: Task, course: TaskCourse) -> str:
    return task.set_aside if course.set_aside is None else course.set_aside


def _ids(holds: Sequence[StandingHold]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(hold.id for hold in holds))


def _latest(ends: list[datetime | None]) -> datetime | None:
    """The latest known end; None where one of the reasons has no date."""
    known = [end for end in ends if end is not None]
    return max(known) if known and len(known) == len(ends) else None


def _finished_at(task: Task, course: TaskCourse) -> datetime:
    if course.finished is not None:
        return course.finished.at
    assert task.finished is not None
    return datetime.combine(task.finished, time.min)


def _hours_to_go(task: Task, course: TaskCourse, overruns: Callable[[], list[float]]) -> HoursToGo:
    said = task.estimate.likely if task.estimate is not None else None
    worked = course.hours
    if course.left is not None:
        said, worked = said_of(course.left), course.since
    overrun = said is not None and worked >= said
    return hours_to_go(said, worked, overruns() if overrun else ())


def _overruns(plan: Plan, history: History) -> list[float]:
    """Of each finished task that took longer than its estimate, how many times as long."""
    done = ((plan.tasks.get(task), c.hours) for task, c in history.courses.items() if c.finished)
    estimates = ((t.estimate.likely, hours) for t, hours in done if t and t.estimate)
    return [hours / likely for likely, hours in estimates if 0 < likely < hours]
