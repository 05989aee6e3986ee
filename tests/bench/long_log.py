"""The board over a long logbook: the sample's, lived ten and a hundred times over.

Each life is the sample's plan with tasks of its own, its entries moved back by three years, so
that holds, readings and hours grow alike; in processor time. And the sample beside 10,000 rows of
a data logger.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from datetime import date, datetime, timedelta
from pathlib import Path

from crewboard.logbook.acts import Act
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.logged import Logged
from crewboard.order.assess import assess
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.plan.plan import Plan
from crewboard.workbench import Workbench
from tests.bench.table import Measured

SAMPLE = Path(__file__).parent.parent.parent / "sample_project"
AT = datetime(2026, 5, 2, 9)
LIFE = timedelta(days=3 * 364)
SEVERAL = 3  # runs, of which the fastest counts


def measure() -> list[Measured]:
    """Milliseconds of one board, and the ratio to one life."""
    bench = Workbench(SAMPLE)
    once = board_ms(bench.plan, bench.logbook)
    found = [Measured("the sample's log", f"{once:.1f} ms")]
    for lives in (10, 100):
        plan, book = lived(bench.plan, bench.logbook, lives)
        took = board_ms(plan, book)
        says = f"{took:.0f} ms ({took / once:.1f} x)"
        found.append(Measured(f"its log and plan, {lives} times", says, f"{lives} x"))
    rows = bench.logbook._replace(logged=hourly(10_000))
    took = board_ms(bench.plan, rows)
    says = f"{took:.1f} ms ({took / once:.2f} x)"
    return [*found, Measured("beside 10,000 rows of a data logger", says, "")]


def board_ms(plan: Plan, book: Logbook) -> float:
    """The fastest of several boards, with nothing remembered of the logger's rows."""
    order, best = OrderOfWork(plan), 1e9
    for _ in range(SEVERAL):
        fresh = book._replace(logged=Logged(dict(book.logged.texts)))
        start = time.process_time()  # not the clock: others work on the machine too
        assess(plan, fresh, AT, order)
        best = min(best, time.process_time() - start)
    return best * 1000


def lived(plan: Plan, book: Logbook, lives: int) -> tuple[Plan, Logbook]:
    """The plan and the log so many times over, each life three years before the next."""
    tasks, days = dict(plan.tasks), dict[date, Day]()
    for life in range(lives):
        names = {name: f"{name}-{life}" if life else name for name in plan.tasks}
        for name, task in plan.tasks.items():
            after = tuple(names.get(each, each) for each in task.after if each in names)
            during = tuple(names[each] for each in task.during if each in names)
            new = task._replace(id=names[name], after=after, during=during)
            tasks[names[name]] = new if life else task
        for day in book.days.values():
            on = day.date - life * LIFE
            entries = [_moved(entry, life, names) for entry in day.entries]
            days[on] = Day(on, entries, day.opens, day.closes)
    plan = plan._replace(tasks=tasks)
    return plan, Logbook({day: days[day] for day in sorted(days)})


def _moved(entry: Entry, life: int, names: Mapping[str, str]) -> Entry:
    changes = {
        field: names.get(value, value) if field == "task" else f"{value}{life}"
        for field in ("task", "hold", "entry")
        if (value := getattr(entry.act, field, None)) and (field != "hold" or "start" not in value)
    }
    replaced: Callable[..., Act] = entry.act._replace
    return entry._replace(
        id=f"{entry.id}{life}",
        at=entry.at - life * LIFE,
        act=replaced(**changes) if changes else entry.act,
        replaces=f"{entry.replaces}{life}" if entry.replaces else "",
    )


def hourly(count: int) -> Logged:
    """So many hours up to the moment, as the folder holds them."""
    months: dict[str, list[str]] = {}
    for hour in range(count):
        at = AT - timedelta(hours=count - hour)
        line = f"{at:%Y-%m-%dT%H:%M},{8 + hour % 9},{9 + hour % 9},60,65"
        months.setdefault(f"{at:%Y-%m}", []).append(line)
    return Logged({month: "\n".join(lines) for month, lines in months.items()})


if __name__ == "__main__":
    from tests.bench.table import show

    show("A long logbook", measure())
