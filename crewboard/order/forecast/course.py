"""One course that the remaining job may take: as it is planned, and with what turns up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from random import Random

from crewboard.order.forecast.days import WorkDayTable
from crewboard.order.forecast.draws import draw
from crewboard.order.forecast.finds import turn_up
from crewboard.order.forecast.model import Model
from crewboard.order.forecast.people_free import with_people_free
from crewboard.order.forecast.playing import MOST_DAYS, Course, Playing


def play(model: Model, table: WorkDayTable, chance: Random) -> Course:
    """Play the job once; where the model says so, with the same chances as it is planned too.

    Of the two none ends earlier with what turns up: by luck people may be free for it at a better
    moment, and that would say that found work brings a job forward.
    """
    drawn = draw(model, table, chance)
    found = turn_up(model, Random(chance.getrandbits(60))) if model.finds else {}
    soonest = int(with_people_free(model, table, drawn, MOST_DAYS))
    if not found:
        return Playing(model, table, drawn).run(soonest)
    if not model.as_planned:
        return Playing(model, table, drawn, found).run(soonest)
    planned = Playing(model, table, drawn).run(soonest)
    grown = Playing(model, table, drawn, found).run(soonest)
    return grown._replace(
        finish=max(planned.finish, grown.finish),
        closings=tuple(map(max, planned.closings, grown.closings)),
        ended=planned.ended and grown.ended,
        soonest=min(planned.soonest, grown.soonest),
        planned=planned.finish,
        planned_ended=planned.ended,
    )


def work_days_until(
    model: Model,
    table: WorkDayTable,
    chance: Random,
    worth: Sequence[float],
    target: float,
    known: Mapping[int, float],
) -> float:
    """Work days until tasks that are worth `target` together are finished; of the last one as much
    as was needed to come so far. `known`: task -> the minutes that it took."""
    drawn = draw(model, table, chance)
    for task, minutes in known.items():
        drawn.left[task] = minutes / drawn.share
    played = Playing(model, table, drawn)
    before, day = 0.0, 0
    for closes in played.days():
        day = table.day_from(closes - 1)
        reached = sum(worth[task] for task in played.finished)
        if reached >= target:
            return day + (target - before) / (reached - before)
        before = reached
    return day + 1.0
