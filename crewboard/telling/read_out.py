"""Each person's day by the plan, as a line that can be read out in the morning."""

from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple

from crewboard.order.day_plan.proposal import DayPlan, Pause, Placed
from crewboard.order.said import listed, short_names, title_of_all
from crewboard.plan.plan import Plan


class _Doing(NamedTuple):
    """What one person does from when till when, and who with."""

    says: str
    others: tuple[str, ...]
    start: datetime
    end: datetime
    tasks: tuple[str, ...] = ()


def read_out(of: Plan, plan: DayPlan, who: str) -> str:
    """ "plumb the frame with Mirela and Aiko until lunch, then run the loom with Kwame"."""
    parts = _parts(of, plan, who)
    if not parts:
        return "nothing planned"
    there = plan.hours.get(who, (plan.opens, plan.closes))
    said: list[str] = []
    for place, part in enumerate(parts):
        after = parts[place + 1].start if place + 1 < len(parts) else there[1]
        before = parts[place - 1].end if place else there[0]
        leads_in = _from(plan.pauses, before, part.start, first=not place)
        runs_out = part.end >= after and place + 1 == len(parts)
        until = "" if runs_out else f" until {_moment(plan.pauses, part.end)}"
        beside = f" with {listed(short_names(of, part.others))}" if part.others else ""
        said.append(f"{leads_in}{part.says}{beside}{until}")
    return ", ".join(said)


def _parts(of: Plan, plan: DayPlan, who: str) -> list[_Doing]:
    """In order of time; the same work on one piece after the other, with the same people, once."""
    parts = [_placed(of, placed, who) for placed in plan.placed if who in placed.people]
    parts += [
        _Doing(in_a_sentence(of, job.what), _without(job.people, who), job.start, job.end)
        for job in plan.small
        if who in job.people
    ]
    told: list[_Doing] = []
    for part in sorted(parts, key=lambda part: part.start):
        last = told[-1] if told else None
        if last is not None and _goes_on(of, last, part):
            tasks = (*last.tasks, *part.tasks)
            says = in_a_sentence(of, title_of_all(of, tasks).strip('"'))
            told[-1] = last._replace(says=says, end=part.end, tasks=tasks)
        else:
            told.append(part)
    return told


def _placed(of: Plan, placed: Placed, who: str) -> _Doing:
    says = in_a_sentence(of, of.tasks[placed.task].title)
    others, start = _without(placed.people, who), placed.start
    if who in placed.watch:
        return _Doing(f"watch over: {says}", others, start, placed.watched_until or placed.end)
    learns = " to learn it" if who in placed.learning else ""
    return _Doing(f"{says}{learns}", others, start, placed.end, () if learns else (placed.task,))


def _goes_on(of: Plan, last: _Doing, part: _Doing) -> bool:
    """Whether it is the same work on the next piece, right after, with the same people."""
    if not (last.tasks and part.tasks) or last.end != part.start or last.others != part.others:
        return False
    series = {of.tasks[task].series for task in (*last.tasks, *part.tasks)}
    return len(series) == 1 and "" not in series


def _without(people: Sequence[str], who: str) -> tuple[str, ...]:
    return tuple(other for other in people if other != who)


def _from(pauses: Sequence[Pause], before: datetime, start: datetime, *, first: bool) -> str:
    """How a part begins: "then", "after lunch", "from 13:30"; nothing for the first thing."""
    pause = next((p for p in pauses if before <= p.start and p.end == start), None)
    if pause is not None and pause.name:
        return f"after {pause.name} "
    if start > before:
        return f"from {start:%H:%M} "
    return "" if first else "then "


def _moment(pauses: Sequence[Pause], end: datetime) -> str:
    """ "lunch" where that is when it begins, else the time."""
    name = next((pause.name for pause in pauses if pause.start == end), "")
    return name or f"{end:%H:%M}"


def in_a_sentence(plan: Plan, title: str) -> str:
    """The title with a small letter in front, as the middle of a sentence has it; as it is where
    its first word is a name, or is written in capitals."""
    first, _, rest = title.partition(" ")
    word = first.rstrip(":,;.")
    names = " ".join((plan.vehicle.name, *(v.name for v in plan.crew.values()))).split()
    if word == "A" or (word[:1].isupper() and word[1:].islower() and word not in names):
        return f"{first[:1].lower()}{first[1:]}{' ' if rest else ''}{rest}"
    return title
