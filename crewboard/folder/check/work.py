"""Whether what was logged can have been so: people's hours, and the order of what was finished."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, datetime, time

from crewboard.folder.read.fault import KeyPath, Remark
from crewboard.folder.read.files import COMPONENTS, CREW, DAYS, VEHICLE, component_path, day_path
from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import HOURS, Begun, Finished, GuestHours, HoursWorked, Reopened
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.hours.guests import joined_since, worker
from crewboard.order.presence import ROUNDING, time_there
from crewboard.order.reasons.why import again_in_words
from crewboard.order.safety.left_open import days_left_open as left_open_before
from crewboard.order.safety.left_open import end_of, left_open_in_words, with_what_stood_against
from crewboard.order.said import person
from crewboard.order.sequence.graph import OrderOfWork

_WHOLE_DAY = 24
_LOOKED_INTO = 10  # of the days left open: what was not signed is worked out for the latest


def too_many_hours(folder: Folder) -> Iterator[Remark]:
    """More than 24 hours of one person on one day."""
    joined = joined_since(folder.plan)
    for day, who, hours, last in _by_person(folder):
        if hours > _WHOLE_DAY and not _insisted(joined, day, who):
            name = person(folder.plan, who)
            sentence = f"{name} has {hours:g} hours on {day.date}, more than a day has"
            path = ("entries", last, "hours")
            yield Remark(day_path(day.date), path, "hours", sentence, "correct the hours")


def _insisted(joined: Mapping[str, str], day: Day, who: str) -> bool:
    """Whether somebody answers for hours that no day has."""
    return any(
        entry.despite and isinstance(entry.act, HOURS) and _worker(joined, entry.act) == who
        for entry in day.counting
    )


def hours_in_question(folder: Folder) -> Iterator[Remark]:
    """More hours than the person was signed in for, or than the shop was open."""
    for day, who, hours, last in _by_person(folder):
        there = time_there(folder.plan, folder.logbook, day.date, datetime.max).get(who)
        if there is not None and there + ROUNDING < hours <= _WHOLE_DAY:
            name = person(folder.plan, who)
            sentence = f"{name} has {hours:g} hours on {day.date} and was there for {there:.3g}"
            hint = "correct the hours, or the sign-in"
            file, path = day_path(day.date), ("entries", last, "hours")
            yield Remark(file, path, "hours", sentence, hint, rests_on=(VEHICLE,))


def _by_person(folder: Folder) -> Iterator[tuple[Day, str, float, str]]:
    """Each person's hours of each day, guests too, with the last entry that adds to them."""
    joined = joined_since(folder.plan)
    for day in folder.logbook.days.values():
        hours: dict[str, float] = {}
        last: dict[str, str] = {}
        for entry in day.counting:
            if isinstance(entry.act, HOURS):
                who = _worker(joined, entry.act)
                hours[who] = hours.get(who, 0.0) + entry.act.hours
                last[who] = entry.id
        for who, total in hours.items():
            yield day, who, total, last[who]


def _worker(joined: Mapping[str, str], act: HoursWorked | GuestHours) -> str:
    """The id of somebody of the crew, or a guest's name."""
    who, guest = worker(joined, act)
    return who or guest


def days_left_open(folder: Folder, today: date) -> Iterator[Remark]:
    """Past days that were never closed, or on which somebody never signed out."""
    plan, logbook, order = folder.plan, folder.logbook, OrderOfWork(folder.plan)
    for number, left_open in enumerate(left_open_before(plan, logbook, today)):
        if number < _LOOKED_INTO:
            left_open = with_what_stood_against(plan, logbook, order, left_open)
        sentence = "; ".join(left_open_in_words(plan, left_open))
        hint = f"crewboard close-day --at {end_of(plan, logbook, left_open.day):%Y-%m-%dT%H:%M}"
        if left_open.closed:
            hint = "crewboard sign-out with --at and when they left"
        file, rests_on = day_path(left_open.day), (VEHICLE, CREW)
        yield Remark(file, ("entries",), "left-open", sentence, hint, rests_on=rests_on)


def over_reopened_work(board: Board) -> Iterator[Remark]:
    """Work that was finished over earlier work that is open again, or is to be stopped."""
    for standing in board.standings.values():
        if not standing.to_stop and not (standing.work_done and standing.open_again):
            continue
        stands = "was finished" if standing.work_done else "is under way"
        sentence = f'"{standing.task.title}" {stands}: {again_in_words(board, standing)}'
        hint = (
            "look whether it is still right, and reopen it where it is not"
            if standing.work_done
            else "stop it until that is over"
        )
        file, path = _where_done(board, standing.task.id)
        yield Remark(file, path, "order", sentence, hint, rests_on=(DAYS, COMPONENTS))


def _where_done(board: Board, task_id: str) -> tuple[str, KeyPath]:
    """The entry that finished or began a task, or the task itself where the plan says so."""
    course = board.history.courses.get(task_id)
    entry = course and (course.finished or course.begun)
    in_day = board.logbook.find(entry.id) if entry else None
    if in_day is not None:
        return day_path(in_day[0].date), ("entries", in_day[1].id)
    component, _, name = task_id.partition("/")
    return component_path(component), ("tasks", name)


def out_of_order(folder: Folder) -> Iterator[Remark]:
    """Work finished before what comes before it, where nobody gave a reason."""
    plan = folder.plan
    finished: dict[str, tuple[datetime, Day | None, Entry | None]] = {
        task.id: (datetime.combine(task.finished, time.min), None, None)
        for task in plan.tasks.values()
        if task.finished is not None
    }
    despite: set[str] = set()
    open_again: set[str] = set()  # questioned by `over_reopened_work`
    for day in folder.logbook.days.values():
        for entry in day.counting:
            act = entry.act
            if isinstance(act, Finished):
                finished[act.task] = (entry.at, day, entry)
                open_again.discard(act.task)
            elif isinstance(act, Reopened):
                finished.pop(act.task, None)
                open_again.add(act.task)
            elif isinstance(act, Begun) and act.despite:
                despite.add(act.task)
    order = OrderOfWork(plan)
    for task_id, (at, in_file, line) in finished.items():
        if in_file is None or line is None or task_id in despite or task_id not in plan.tasks:
            continue
        early = [
            before
            for before in order.tasks_right_before(task_id)
            if before not in open_again and (before not in finished or finished[before][0] > at)
        ]
        if early:
            first = f'"{plan.tasks[early[0]].title}"'
            more = f" and {len(early) - 1} more" if len(early) > 1 else ""
            title = plan.tasks[task_id].title
            sentence = f'"{title}" was finished before {first}{more}, which comes before it'
            hint = "mend the order in the plan, or the entry"
            path = ("entries", line.id)
            file, rests_on = day_path(in_file.date), (DAYS, COMPONENTS)
            yield Remark(file, path, "order", sentence, hint, rests_on=rests_on)
