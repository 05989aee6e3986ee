"""Which tasks may be held back by what could not be read.

Without it nobody knows what it said: a day may have made a hold longer, a component may come before
others, a sheet may ask for a check. So each task that it could speak of is held, and no other.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta

from crewboard.logbook.acts import Begun, Finished
from crewboard.logbook.logbook import Logbook
from crewboard.order.may.needs import under_18s
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.order.unreadable import Unread, Unreadable
from crewboard.plan.hazard import longest_clock
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task


def held_back(
    plan: Plan,
    logbook: Logbook,
    order: OrderOfWork,
    unreadable: Sequence[Unreadable],
    today: date,
) -> Mapping[str, tuple[str, ...]]:
    """Task -> the files that may hold it back; mostly nothing."""
    files: dict[str, dict[str, None]] = {}
    for unread in unreadable:
        concerned = _HOLDS[unread.kind](_Whole(plan, logbook, order, today), unread)
        for task_id in {*concerned, *_written_as(plan, unread.named_by)}:
            files.setdefault(task_id, {})[unread.file] = None
    return {task_id: tuple(names) for task_id, names in files.items()}


class _Whole:
    """All that it takes to say what a file may concern."""

    def __init__(self, plan: Plan, logbook: Logbook, order: OrderOfWork, today: date) -> None:
        self.plan = plan
        self.logbook = logbook
        self.order = order
        self.today = today

    def with_all_behind(self, tasks: Iterable[str]) -> set[str]:
        """These tasks, and all that come after them."""
        starts = set(tasks)
        return starts.union(*map(self.order.all_behind, starts))

    def is_worked_on(self, concerned: Callable[[str], bool]) -> bool:
        """Whether such a task is under way, or was worked on so lately that one of its clocks may
        run: a danger of it may go on."""
        longest = self.plan.longest_clock or longest_clock(self.plan.hazards.values())
        earliest = self.today - timedelta(days=longest // 1440 + 1)
        begun: set[str] = set()
        for day in self.logbook.days.values():
            for entry in day.counting if day.date <= self.today else ():
                act = entry.act
                task = getattr(act, "task", "")
                if task and day.date >= earliest and concerned(task):
                    return True
                if isinstance(act, Begun):
                    begun.add(act.task)
                elif isinstance(act, Finished):
                    begun.discard(act.task)
        return any(map(concerned, begun))


def _everything(whole: _Whole, _unread: Unreadable) -> Iterable[str]:
    return whole.plan.tasks


def _of_component(whole: _Whole, unread: Unreadable) -> Iterable[str]:
    """Its own tasks and all behind them; what needs supplies or a jig, of which it may need some
    too; and, where it is worked on, so that a danger of it may go on, everything."""
    stem = f"{unread.about}/"
    if not unread.remembered and whole.is_worked_on(lambda task: task.startswith(stem)):
        return whole.plan.tasks
    own = (task_id for task_id in whole.plan.tasks if task_id.startswith(stem))
    shared = (task.id for task in whole.plan.tasks.values() if task.supplies or task.uses)
    return whole.with_all_behind(own).union(shared)


def _of_task(whole: _Whole, unread: Unreadable) -> Iterable[str]:
    return whole.with_all_behind(_written_as(whole.plan, [unread.about]))


def _written_as(plan: Plan, names: Sequence[str]) -> Iterator[str]:
    """The tasks that are written so: a series stands for one for each piece."""
    return (t.id for t in plan.tasks.values() if t.id in names or t.series in names)


def _with_hazards(whole: _Whole, unread: Unreadable) -> Iterable[str]:
    """Every task with the danger, or with any; where an under-18 may be on the work, or such work
    may go on, everything."""
    plan, about = whole.plan, unread.about
    dangerous = {t.id for t in plan.tasks.values() if (about in t.hazards if about else t.hazards)}
    minors = under_18s(plan.crew.values(), whole.today)
    goes_on = not unread.remembered and whole.is_worked_on(dangerous.__contains__)
    if goes_on or (minors and not about):
        return plan.tasks
    return dangerous


def _with_supplies(whole: _Whole, _unread: Unreadable) -> Iterator[str]:
    return (task.id for task in whole.plan.tasks.values() if task.supplies)


def _in_the_air(whole: _Whole, _unread: Unreadable) -> Iterable[str]:
    """What asks for conditions, and what comes after or lies beside a hold that does."""
    plan = whole.plan
    held = [task for task in plan.tasks.values() if task.hold and task.hold.conditions]
    asking = {task.id for task in plan.tasks.values() if task.conditions}
    beside = {part for task in held for part in _alone(plan, task)}
    return (
        asking
        | whole.with_all_behind(task.id for task in held)
        | {task.id for task in plan.tasks.values() if task.component in beside}
    )


def _alone(plan: Plan, task: Task) -> Iterable[str]:
    assert task.hold is not None
    return plan.with_parts(task.component) if task.hold.leave_alone else ()


_HOLDS: dict[Unread, Callable[[_Whole, Unreadable], Iterable[str]]] = {
    "vehicle": _everything,
    "crew": _everything,
    "day": _everything,
    "folder": _everything,
    "component": _of_component,
    "task": _of_task,
    "hazards": _with_hazards,
    "supplies": _with_supplies,
    "readings": _in_the_air,
}
