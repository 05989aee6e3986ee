"""Is a plan for the day sound? Checked half hour by half hour, from the board and not from the
numbers that the plan was made of.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime, timedelta

from crewboard.logbook.state import NOT_YET
from crewboard.order.board import Board
from crewboard.order.day_plan.proposal import DayPlan, Placed, Wish
from crewboard.order.may.on_it import on_it
from crewboard.plan.hazard import CertificateNeed, Hazard, minutes_of
from crewboard.plan.volunteer import Volunteer
from tests.order.day_plan.feasible_hours import breaks, here, sheets, small, watch, worked

STEP = timedelta(minutes=15)


def violations(
    board: Board, wish: Wish, plan: DayPlan, running: Sequence[Placed] = ()
) -> list[str]:
    """What is wrong with the plan, in words for whoever tests it; empty for a sound one. What the
    `running` plan began began earlier, and its hours since are done though nobody wrote them."""
    began = {each.task: each for each in running if on_it(board, each.task)}
    return [
        *_hours(board, wish, plan, began),
        *breaks(board, plan),
        *here(board, plan),
        *small(board, plan),
        *watch(board, plan),
        *_work(board, wish, plan, began),
        *_wishes(wish, plan),
        *(f"{each.task}: {says}" for each in plan.placed for says in _crew(board, each)),
        *(f"{each.task}: {says}" for each in plan.placed for says in _hazards(board, each)),
        *_at_once(board, plan),
        *_clocks(board, plan),
        *_jigs(board, plan),
        *_in_one_go(board, plan),
        *_followed(board, plan),
    ]


def _hours(board: Board, wish: Wish, plan: DayPlan, began: Mapping[str, Placed]) -> Iterator[str]:
    hours = board.opening or board.plan.vehicle.work_days.usual
    just = timedelta(minutes=wish.block / 3)  # a block that has only just begun counts
    opens = max(board.at - just, datetime.combine(board.at.date(), hours.opens))
    closes = datetime.combine(board.at.date(), hours.closes)
    for each in plan.placed:
        since = min(opens, began[each.task].start) if each.task in began else opens
        if not since <= each.start < each.end <= closes:
            yield f"{each.task}: {each.start:%H:%M} to {each.end:%H:%M} is outside the open hours"


def _work(board: Board, wish: Wish, plan: DayPlan, began: Mapping[str, Placed]) -> Iterator[str]:
    """Only what can be worked on, each once, and followers only behind what is finished."""
    names = [each.task for each in plan.placed]
    if len(set(names)) < len(names):
        yield "a task is planned twice"
    ends = {each.task: each.end for each in plan.placed if each.finishes}
    for each in plan.placed:
        standing = board[each.task]
        if standing.state in ("ready", "under way"):
            continue
        for earlier in board.order.tasks_right_before(each.task):
            if not board[earlier].work_done and ends.get(earlier, datetime.max) > each.start:
                yield f"{each.task} begins before {earlier} is finished"
        if standing.work_done or standing.short_of or standing.aside:
            yield f"{each.task} cannot be worked on"
        for name in standing.holds:
            hold = board.holds[name]
            due = datetime.min if hold.stage == "due" else hold.until
            if due is not None and due <= each.start and (name in each.looks or not hold.asks):
                continue
            yield f"{each.task} cannot be worked on"
    for each in plan.placed:
        brief = worked(board, each) < timedelta(minutes=2 * wish.block)
        if not each.finishes and brief and not on_it(board, each.task):
            yield f"{each.task}: not worth beginning"
        left = board[each.task].left
        hands = len(each.people) - len(each.watch)
        hours = hands * worked(board, each) / timedelta(hours=1)
        if each.task in began:
            continue  # what has been done of it nobody wrote down yet
        if each.finishes and left is not None and hours < left - 1e-9:
            yield f"{each.task} is not finished by {hours:g} hours of {left:g}"


def _wishes(wish: Wish, plan: DayPlan) -> Iterator[str]:
    placed = {each.task: each for each in plan.placed}
    for task in wish.left_out:
        if task in placed:
            yield f"{task} was to be left out"
    for who, task in wish.apart:
        if task in placed and who in placed[task].people:
            yield f"{who} was not to be on {task}"
    for fixed in wish.fixed:
        each = placed.get(fixed.task)
        if each is None:
            continue  # it says why
        if not set(fixed.people) <= set(each.people):
            yield f"{fixed.task}: somebody who was fixed is missing"
        if fixed.only and set(each.people) != set(fixed.people):
            yield f"{fixed.task}: others than those fixed are on it"
        if fixed.start is not None and each.start.time() != fixed.start:
            yield f"{fixed.task}: begins at another time than was fixed"


def _crew(board: Board, each: Placed) -> Iterator[str]:
    task, crew = board.plan.tasks[each.task], board.plan.crew
    people = [crew[who] for who in each.people]
    if len(set(each.people)) < len(each.people):
        yield "somebody is on it twice"
    if len(people) < task.least_people:
        yield f"{len(people)} people, {task.least_people} are needed"
    most = task.most_people
    # A danger that asks for more people than the plan thought of has the last word.
    if most is not None and len(people) > max(most, *_least_for(board, each.task)):
        yield f"{len(people)} people, {most} are the most"
    for skill in task.skills:
        if not any(skill in v.skills and v.id not in each.watch for v in people):
            yield f"nobody has the skill {skill}"
    for volunteer in people:
        need = volunteer.needs_beside
        others = [o for o in people if o.id != volunteer.id]
        if need and not any(o.id == need or need in o.skills for o in others):
            yield f"{volunteer.id} needs {need} beside"


def _least_for(board: Board, task_id: str) -> list[int]:
    return [1, *(hazard.people for hazard in sheets(board, task_id))]


def _hazards(board: Board, each: Placed) -> Iterator[str]:
    day = board.at.date()
    people = [board.plan.crew[who] for who in each.people]
    for hazard in sheets(board, each.task):
        if len(people) < hazard.people:
            yield f"{hazard.id} needs {hazard.people} people"
        if not hazard.under_18 and any(volunteer.minor_on(day) for volunteer in people):
            yield f"{hazard.id} is not for under-18s"
        for need in hazard.certificates:
            have = [_has(volunteer, need, hazard, day) for volunteer in people]
            if not (all(have) if need.who == "each" else any(have)):
                yield f"{hazard.id} needs the certificate {need.kind}"


def _has(volunteer: Volunteer, need: CertificateNeed, hazard: Hazard, day: date) -> bool:

    from crewboard.order.may.needs import has_certificate

    return has_certificate(volunteer, need, hazard, day)


def _at_once(board: Board, plan: DayPlan) -> Iterator[str]:
    """At each quarter of an hour: nobody in two places, room in each place, dangers apart."""
    now = plan.opens
    while now < plan.closes:
        running = [each for each in plan.placed if each.start <= now < each.end]
        people = [who for each in running for who in each.people]
        people += [
            who
            for each in plan.placed
            if each.watched_until and each.end <= now < each.watched_until
            for who in each.watch
        ]
        places = [p for each in running if (p := board.plan.tasks[each.task].place)]
        if len(set(people)) < len(people):
            yield f"somebody is on two tasks at {now:%H:%M}"
        for place in set(places):
            if places.count(place) > board.plan.vehicle.shop.room.get(place, 1):
                yield f"too many tasks are in {place} at {now:%H:%M}"
        for one in running:
            for two in running:
                if one is not two and _too_near(board, one.task, two.task):
                    yield f"{one.task} is near {two.task} at {now:%H:%M}"
        now += STEP


def _too_near(board: Board, one: str, two: str) -> bool:
    here, there = board.plan.tasks[one].place, board.plan.tasks[two].place
    same = not here or not there or here == there
    return any(
        other.id in sheet.not_near and (same or sheet.near == "shop")
        for sheet in sheets(board, one)
        for other in sheets(board, two)
    )


def _clocks(board: Board, plan: DayPlan) -> Iterator[str]:
    """Fire watches end before the shop closes; what must wait for a clock of other work waits."""
    hours = board.opening or board.plan.vehicle.work_days.usual
    closes = datetime.combine(board.at.date(), hours.closes)
    for each in plan.placed:
        for hazard in sheets(board, each.task):
            for clock in hazard.clocks:
                rule = hazard.ruling(clock)
                if rule is None:
                    continue
                over = each.end + timedelta(minutes=minutes_of(rule))
                if clock.guards == "closing" and over > closes:
                    yield f"{each.task}: the {clock.kind} ends after the shop closes"
                later = [p for p in plan.placed if p is not each and each.end <= p.start < over]
                yield from _not_waited(board, each, hazard, clock.guards == "entry", later)


def _not_waited(
    board: Board, each: Placed, hazard: Hazard, entry: bool, later: Sequence[Placed]
) -> Iterator[str]:
    here = board.plan.tasks[each.task].place
    for other in later:
        there = board.plan.tasks[other.task].place
        same = not here or not there or here == there
        named = any(hazard.id in sheet.not_after for sheet in sheets(board, other.task))
        if named or (entry and same):
            yield f"{other.task} begins while the clock after {each.task} runs"


def _jigs(board: Board, plan: DayPlan) -> Iterator[str]:
    """At each quarter of an hour: whoever uses a jig is among as many as there are of it."""
    placed = {each.task: each for each in plan.placed}
    for jig in board.plan.vehicle.jigs.values():
        had = board.readiness.taken.get(jig.id, {})
        now = plan.opens
        while now < plan.closes:
            having = [
                name
                for name in {**had, **placed}
                if name in had or jig.id in board.plan.tasks[name].uses
                if _has_jig(board, placed.get(name), name in had, now)
            ]
            if len(having) > max(jig.number, len(had)):
                yield f"{', '.join(sorted(having))} have the {jig.name} at {now:%H:%M}"
            now += STEP


def _has_jig(board: Board, placed: Placed | None, had: bool, now: datetime) -> bool:
    if placed is None or (not had and now < placed.start):
        return had
    free = placed.finishes and board.plan.tasks[placed.task].hold is None
    return not (free and placed.end <= now)


def _in_one_go(board: Board, plan: DayPlan) -> Iterator[str]:
    for each in plan.placed:
        under_way = board[each.task].state == "under way"
        if board.plan.tasks[each.task].in_one_go and not each.finishes and not under_way:
            yield f"{each.task} is left half done"


def _followed(board: Board, plan: DayPlan) -> Iterator[str]:
    """What is finished is followed in time, today or when the shop is next open."""
    placed = {each.task: each for each in plan.placed}
    next_day = next(board.plan.vehicle.work_days.coming(plan.opens.date() + timedelta(days=1), 99))
    opens = datetime.combine(next_day, board.plan.vehicle.work_days.usual.opens)
    for task in board.plan.tasks.values():
        then = placed.get(task.id)
        for before, span in task.within.items():
            end = placed[before].end if before in placed and placed[before].finishes else None
            course = board.history.courses.get(before)
            if end is None and course is not None and course.finished and then is not None:
                end = course.finished.at
            standing = board[task.id]
            kept = standing.state in NOT_YET and not standing.waits
            if end is None or kept or standing.state in ("under way", "finished"):
                continue
            by = board.plan.clock.add(end, span)
            if by < opens and (then is None or then.start > by):
                yield f"{task.id} does not follow {before} by {by:%H:%M}"
