"""When one course would have ended, had nothing in it ever waited for people.

The hours, holds and deliveries are those of the course; only the people are always there, as many
as a task has room for, on every work day. No course ends earlier than that: what else a course
heeds (jigs, room in a place, work in one go) only ever makes it later, and is left out here.
"""

from __future__ import annotations

from crewboard.order.ahead.work_time import DAY
from crewboard.order.forecast.counts import Counts
from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.draws import Drawn
from crewboard.order.forecast.model import Model


def with_people_free(model: Model, table: WorkDayTable, drawn: Drawn, most_days: int) -> float:
    """Minutes since midnight before the model's start; one forward pass over the order of work.

    What would take longer than `most_days` is broken off there.
    """
    waits, ready = list(model.waits), [float(minute) for minute in model.earliest]
    begun = frozenset(model.going)
    ahead = [*begun, *(node for node, count in enumerate(waits) if not count)]
    ahead = list(dict.fromkeys(ahead))
    finish, counts = 0.0, Counts(model)
    while ahead:
        node = ahead.pop()
        done = clear = ready[node]
        if node < len(model.work):
            start = table.now if node in begun else _can_begin(model, drawn, node, ready[node])
            done = _worked(table, start, drawn.left[node] / _hands(model, drawn, node), most_days)
            clear = _clear(model, table, drawn, node, done)
        finish = max(finish, clear)
        for nodes, moment in ((model.behind_clear[node], clear), (model.behind_done[node], done)):
            for behind in nodes:
                if moment > ready[behind]:
                    ready[behind] = moment
                waits[behind] = missing = waits[behind] - 1
                if not missing and behind not in begun:
                    ahead.append(behind)
        for gate in counts.gates_of.get(node, ()):
            passing = counts.add(gate, node, done, clear)
            if passing is not None and passing.surely:
                ready[gate] = max(ready[gate], passing.minute)
                ahead.append(gate)
    return finish


def _can_begin(model: Model, drawn: Drawn, node: int, ready: float) -> float:
    work = model.work[node]
    start = max(ready, work.free)
    if work.orders or work.deliveries:
        start = max(start, drawn.supplied(work, start))
    return start


def _hands(model: Model, drawn: Drawn, node: int) -> int:
    """The most people who ever are on the task."""
    work = model.work[node]
    return max(1, drawn.most[node], work.least, len(work.covers))


def _worked(table: WorkDayTable, start: float, work: float, most_days: int) -> float:
    """When so much work is done, in the hours in which the shop is open."""
    day = table.day_from(start)
    while True:
        opens, closes = table.hours(day)
        begins = max(start, float(opens))
        if begins + work <= closes or opens >= most_days * DAY:
            return begins + work
        work -= max(0.0, closes - begins)
        day += 1


def _clear(model: Model, table: WorkDayTable, drawn: Drawn, node: int, done: float) -> float:
    """When its hold is over; what waits for somebody's word is over as soon as they meet again."""
    work = model.work[node]
    if work.hold is not None:
        return drawn.hold_over(node, work, done)
    return float(table.next_day(done)) if work.waits_for_word else done
