"""The JSON forms of forecast, day plan and review; what is common to all stands in json_form.

- `forecast`: at, seed, runs, asked, soonest, finish FINISH, components [{id, finish FINISH}],
  courses [days in order, null for one without end], on_chain [{task, share}], basis {work_days,
  tasks_with_hours, people}, remarks, sooner [{says, gain_days, doubt_days, tells}].
- FINISH: even, likely, nearly_sure: the days by which it is finished with 50, 80 and 95 %.
- `day plan`: opens, closes, people, placed [{task, people, start, end, finishes}], not_placed
  [{task, why}], idle, by ("solver", "plain rule"), value, bound, gap, remarks.
- `review`: questions [{rule, source, mark, about, id, file, line, says, do}].
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from crewboard.command.json_form import Form, form_of

if TYPE_CHECKING:
    from crewboard.order.day_plan.proposal import DayPlan
    from crewboard.order.forecast.finish import Forecast
    from crewboard.order.review import Question


def forecast_form(found: Forecast) -> Form:
    return form_of(
        "forecast",
        at=found.at,
        seed=found.seed,
        runs=found.runs,
        asked=found.asked,
        soonest=found.soonest,
        finish=found.vehicle._asdict(),
        components=[{"id": c, "finish": finish._asdict()} for c, finish in found.components],
        courses=found.courses,
        on_chain=[each._asdict() for each in found.on_chain],
        basis=found.basis._asdict(),
        remarks=found.remarks,
        sooner=[
            {
                "says": each.says,
                "gain_days": each.gain.total_seconds() / 86400,
                "doubt_days": each.doubt.total_seconds() / 86400,
                "tells": each.tells,
            }
            for each in found.sooner
        ],
    )


def day_plan_form(found: DayPlan) -> Form:
    keys = found._asdict()
    keys["placed"] = [each._asdict() for each in found.placed]
    keys["not_placed"] = [each._asdict() for each in found.not_placed]
    return form_of("day plan", **keys, gap=found.gap)


def review_form(placed: Iterable[tuple[Question, str, int]]) -> Form:
    return form_of(
        "review",
        questions=[
            {
                "rule": each.rule,
                "source": each.source.source,
                "mark": each.source.mark,
                "about": each.about,
                "id": each.id,
                "file": file,
                "line": line,
                "says": each.says,
                "do": each.do,
            }
            for each, file, line in placed
        ],
    )
