"""Is a programme sound? Checked from the plan and the logbook alone, turn by turn: nothing that
makes programmes is used here, and no board."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, datetime, time, timedelta
from itertools import combinations

from crewboard.logbook.acts import Expected
from crewboard.logbook.logbook import Logbook
from crewboard.order.programme.programme import Programme, TurnAtWork
from crewboard.plan.hazard import Hazard
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task


def violations(plan: Plan, log: Logbook, at: datetime, made: Programme) -> list[str]:
    """What is wrong with it, in words for whoever tests it; of a plan on which nothing was done."""
    turns = sorted((t for day in made.days for t in day.turns), key=lambda t: t.start)
    of_task: dict[str, list[TurnAtWork]] = {}
    for turn in turns:
        of_task.setdefault(turn.task, []).append(turn)
    return [
        *_days(plan, at, made),
        *(f"{t.task}: {s}" for t in turns for s in _people(plan, log, t)),
        *(f"{t.task}: {s}" for t in turns for s in _hazards(plan, t)),
        *_at_once(plan, turns),
        *(f"{name}: {s}" for name, each in of_task.items() for s in _hours(plan.tasks[name], each)),
        *(f"{t.task}: {s}" for t in turns for s in _before(plan, of_task, t)),
        *_jigs(plan, of_task),
        *_soon(plan, of_task, made),
    ]


# --- when and who --------------------------------------------------------------------------------


def _days(plan: Plan, at: datetime, made: Programme) -> Iterator[str]:
    for day in made.days:
        openings = plan.vehicle.work_days.openings_on(day.date)
        for turn in day.turns:
            inside = any(
                datetime.combine(day.date, o.opens) <= turn.start
                and turn.end <= datetime.combine(day.date, o.closes)
                for o in openings
            )
            if not inside or turn.start < at or turn.start >= turn.end:
                yield f"{turn.task} at {turn.start} is outside the open hours"
            if not set(turn.people) <= set(day.people):
                yield f"{turn.task} on {day.date} by somebody who is not expected"
    if [day.date for day in made.days] != sorted({day.date for day in made.days}):
        yield "the days are not in order"


def _people(plan: Plan, log: Logbook, turn: TurnAtWork) -> Iterator[str]:
    task, day = plan.tasks[turn.task], turn.start.date()
    crew = [plan.crew[who] for who in turn.people]
    hazards = _sheets(plan, task)
    least = max([task.least_people, *(h.people for h in hazards)])
    if len(crew) < least:
        yield f"{len(crew)} of {least} people"
    if task.most_people is not None and len(crew) > max(task.most_people, least):
        yield f"{len(crew)} people, no more than {task.most_people}"
    for skill in task.skills:
        if not any(skill in each.skills for each in crew):
            yield f"nobody with {skill}"
    for each in crew:
        beside = [o for o in crew if o is not each]
        wanted = each.needs_beside
        if wanted and not any(wanted == o.id or wanted in o.skills for o in beside):
            yield f"{each.id} without {wanted}"
        if not each.with_us_on(day):
            yield f"{each.id} is not of the crew"
        said = log.days.get(day)
        if each.away_on(day) and not any(
            isinstance(e.act, Expected) and e.act.who == each.id
            for e in (said.entries if said else ())
        ):
            yield f"{each.id} is away"
        yield from _answers(log, turn, each.id)


def _answers(log: Logbook, turn: TurnAtWork, who: str) -> Iterator[str]:
    of_day = log.days.get(turn.start.date())
    said = [
        entry.act
        for entry in (of_day.entries if of_day else ())
        if isinstance(entry.act, Expected) and entry.act.who == who
    ]
    for act in said[-1:]:
        if not act.coming:
            yield f"{who} does not come"
        elif turn.start.time() < (act.arrives or time.min):
            yield f"{who} is not there yet"
        elif turn.end.time() > (act.leaves or time.max):
            yield f"{who} has left"


def _sheets(plan: Plan, task: Task) -> list[Hazard]:
    return [plan.hazards[name] for name in task.hazards]


def _hazards(plan: Plan, turn: TurnAtWork) -> Iterator[str]:
    day = turn.start.date()
    crew = [plan.crew[who] for who in turn.people]
    for hazard in _sheets(plan, plan.tasks[turn.task]):
        if not hazard.under_18 and any(each.adult is False for each in crew):
            yield f"somebody under 18 at {hazard.id}"
        for need in hazard.certificates:
            holds = [
                any(p.kind == need.kind and p.until and day <= p.until for p in each.certificates)
                for each in crew
            ]
            if not (all(holds) if need.who == "each" else any(holds)):
                yield f"{need.kind} is missing"


# --- at a time -----------------------------------------------------------------------------------


def _at_once(plan: Plan, turns: list[TurnAtWork]) -> Iterator[str]:
    for one, two in combinations(turns, 2):
        if one.start < two.end and two.start < one.end:
            if set(one.people) & set(two.people):
                yield f"somebody is on {one.task} and on {two.task} at {two.start}"
            yield from _near(plan, one, two)
    for turn in turns:
        place = plan.tasks[turn.task].place
        there = [t for t in turns if place and plan.tasks[t.task].place == place]
        count = sum(t.start <= turn.start < t.end for t in there)
        if count > plan.vehicle.shop.room.get(place, 1):
            yield f"{count} jobs in the {place} at {turn.start}"


def _near(plan: Plan, one: TurnAtWork, two: TurnAtWork) -> Iterator[str]:
    tasks = plan.tasks[one.task], plan.tasks[two.task]
    beside = not tasks[0].place or not tasks[1].place or tasks[0].place == tasks[1].place
    for mine in _sheets(plan, tasks[0]):
        for theirs in _sheets(plan, tasks[1]):
            for sheet, other in ((mine, theirs), (theirs, mine)):
                if other.id in sheet.not_near and (sheet.near == "shop" or beside):
                    yield f"{one.task} and {two.task} are near one another at {two.start}"


# --- one task ------------------------------------------------------------------------------------


def _hours(task: Task, turns: list[TurnAtWork]) -> Iterator[str]:
    worked = sum(len(t.people) * t.hours for t in turns)
    likely = task.estimate.likely if task.estimate is not None else 0
    ended = [turn.finishes for turn in turns]
    if any(ended[:-1]):
        yield "it goes on after it is finished"
    if ended[-1] and worked < likely - 1e-9:
        yield f"finished by {worked:g} of {likely:g} hours"
    if task.in_one_go and (len(turns) > 1 or not ended[-1]):
        yield "left half done"
    for turn in turns:
        if not turn.finishes and turn.hours < 1:
            yield "not worth beginning"
        if timedelta(hours=turn.hours) > turn.end - turn.start:
            yield "more hours than the clock has"


def _over(plan: Plan, turns: list[TurnAtWork] | None) -> tuple[datetime, datetime] | None:
    """When a task is finished, and when its hold is over; None where it is not."""
    if not turns or not turns[-1].finishes:
        return None
    hold = plan.tasks[turns[-1].task].hold
    end = turns[-1].end
    return end, plan.clock.add(end, hold.lasts) if hold is not None and hold.lasts else end


def _before(plan: Plan, of_task: Mapping[str, list[TurnAtWork]], turn: TurnAtWork) -> Iterator[str]:
    task = plan.tasks[turn.task]
    for name in task.after:
        over = _over(plan, of_task.get(name))
        if over is None or over[name not in task.during] > turn.start:
            yield f"begins before {name} is over"
    for name, turns in of_task.items():
        hold, over = plan.tasks[name].hold, _over(plan, turns)
        alone = hold is not None and hold.leave_alone and name != turn.task
        alone = alone and plan.tasks[name].component == task.component and name not in task.during
        if alone and over is not None and over[0] < turn.end and turn.start < over[1]:
            yield f"{name} wants it left alone at {turn.start}"
    if task.not_before is not None and turn.start.date() < task.not_before:
        yield f"before {task.not_before}"


def _jigs(plan: Plan, of_task: Mapping[str, list[TurnAtWork]]) -> Iterator[str]:
    for jig in plan.vehicle.jigs.values():
        users = {n: t for n, t in of_task.items() if jig.id in plan.tasks[n].uses}
        for moment in (turns[0].start for turns in users.values()):
            having = [n for n, t in users.items() if t[0].start <= moment < _free(plan, t)]
            if len(having) > jig.number:
                yield f"{having} have the {jig.name} at {moment}"


def _free(plan: Plan, turns: list[TurnAtWork]) -> datetime:
    over = _over(plan, turns)
    return datetime.max if over is None else over[1]


def _soon(plan: Plan, of_task: Mapping[str, list[TurnAtWork]], made: Programme) -> Iterator[str]:
    """What has to follow soon does, or still can when the shop opens after the last day."""
    last = made.days[-1].date if made.days else date.min
    for task in plan.tasks.values():
        for name, span in task.within.items():
            over = _over(plan, of_task.get(name))
            if over is None:
                continue
            by, begun = plan.clock.add(over[0], span), of_task.get(task.id)
            opens = plan.vehicle.work_days.next_after(datetime.combine(last, time.max))
            if begun is not None and begun[0].start <= by:
                continue
            if begun is not None or opens is None or by < opens:
                yield f"{task.id} does not follow {name} by {by}"
