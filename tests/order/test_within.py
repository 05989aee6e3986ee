"""What has to follow, against its definition said out in full, on random plans and logbooks."""

from __future__ import annotations

from datetime import datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import Act, Begun, Finished, Reopened, SetAside
from crewboard.logbook.entry import Entry
from crewboard.order.assess import assess
from crewboard.order.within import must_follow
from crewboard.plan.clock import ShopClock
from crewboard.plan.duration import Duration
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from tests.long_form import cases
from tests.order import small_plans
from tests.order.test_readiness import logbook_of

START = datetime(2026, 3, 27, 9)


@st.composite
def situations(draw: st.DrawFn) -> tuple[Plan, list[Entry], datetime]:
    """A few tasks in a row, some of which have to follow earlier ones soon; what was written."""
    tasks: list[Task] = []
    for number in range(draw(st.integers(2, 5))):
        names = [task.id for task in tasks]
        after = draw(st.lists(st.sampled_from(names), unique=True, max_size=2)) if names else []
        within = {name: Duration(minutes=draw(st.integers(30, 3000))) for name in after}
        tasks.append(small_plans.task(f"c/t{number}", after=tuple(after), within=within))
    plan = small_plans.plan(tasks)._replace(clock=ShopClock(None))
    entries: list[Entry] = []
    at = START
    for number in range(draw(st.integers(0, 14))):
        at += timedelta(minutes=draw(st.integers(1, 900)))
        name = draw(st.sampled_from([task.id for task in tasks]))
        acts: list[Act] = [
            Begun(name, ("ada",)), Finished(name), Finished(name), Reopened(name, "x"),
            SetAside(name, "later"), SetAside(name, back=True),
        ]  # fmt: skip
        entries.append(Entry(f"e{number}", at, draw(st.sampled_from(acts)), "ada"))
    return plan, entries, at + timedelta(minutes=draw(st.integers(0, 900)))


def as_defined(plan: Plan, entries: list[Entry], now: datetime) -> dict[str, tuple[datetime, bool]]:
    """Line by line: when each task was last finished and whether it counts, when it was begun."""
    finished: dict[str, datetime] = {}
    begun: dict[str, list[datetime]] = {}
    going: set[str] = set()
    aside: set[str] = set()
    for entry in entries:
        match entry.act:
            case Begun(task=name):
                begun.setdefault(name, []).append(entry.at)
                going.add(name)
            case Finished(task=name):
                finished.setdefault(name, entry.at)
            case Reopened(task=name):
                finished.pop(name, None)
                going.discard(name)
            case SetAside(task=name, back=back):
                (aside.discard if back else aside.add)(name)
            case _:
                pass
    ends: dict[str, tuple[datetime, bool]] = {}
    for task_id, task in plan.tasks.items():
        running = [
            (finished[name] + timedelta(minutes=span.minutes), finished[name])
            for name, span in task.within.items()
            if name in finished
        ]
        if not running or task_id in finished or task_id in aside or task_id in going:
            continue
        by, since = min(running)
        if not any(moment >= since for moment in begun.get(task_id, ())):
            ends[task_id] = (by, now > by)
    return ends


@cases(200, 5000)
@given(situations())
def test_the_board_knows_what_has_to_follow_and_what_is_too_late(
    situation: tuple[Plan, list[Entry], datetime],
) -> None:
    plan, entries, now = situation
    board = assess(plan, logbook_of(entries), now)
    told = {task: (f.by, bool(f.late)) for task, f in must_follow(board).items()}
    assert told == as_defined(plan, entries, now)
    assert list(told.values()) == sorted(told.values(), key=lambda end: end[0])
