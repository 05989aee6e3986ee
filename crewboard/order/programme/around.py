"""What belongs to each day of a programme: what falls due by then, what must be there, and whom to
ask to come."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from typing import Literal, NamedTuple

from crewboard.order.ahead.work_time import DAY
from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.may.moment import temporary_before
from crewboard.order.may.needs import CertificateOf, Needs
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.may.people import why_nobody
from crewboard.order.programme.ahead import DayAhead
from crewboard.order.programme.frame import ready_at
from crewboard.order.programme.jobs import TaskAhead
from crewboard.order.programme.programme import Made
from crewboard.plan.duration import Duration
from crewboard.plan.volunteer import Volunteer

DueKind = Literal["look", "delivery", "date"]


class Due(NamedTuple):
    """Something that falls due by a day: a hold to look at, a delivery, a task's own date. `about`
    is the task, or the supply; of a hold that runs already `hold` is its id. `kept`: of a date,
    whether the task is finished by then."""

    kind: DueKind
    about: str
    at: datetime
    hold: str = ""
    kept: bool = True


class MustBe(NamedTuple):
    """What work of the day supposes: a supply that is not here, with the day by which it has to be
    `ordered_by` where nobody has ordered it; the end of a hold (inspection, decision, weather) of
    which nobody knows when it is; what is temporary and has to be undone first; a certificate that
    somebody expected holds today and, as things stand, not on that day any more."""

    task: str
    supply: str = ""
    unordered: bool = False
    order_by: date | None = None
    hold: StandingHold | None = None
    awaited: str = ""  # a task of the programme, the end of whose hold only a word tells
    undo: str = ""
    certificate: str = ""
    who: str = ""


class AskToCome(NamedTuple):
    """Tasks that could be done on the day, were there somebody who is not expected: `lacks` says
    whom; `could` are those of the crew who would do."""

    tasks: tuple[str, ...]
    lacks: Obstacle
    could: tuple[str, ...]


class Around(NamedTuple):
    due: tuple[Due, ...]
    must_be: tuple[MustBe, ...]
    ask: tuple[AskToCome, ...]


def around(board: Board, made: Made) -> tuple[Around, ...]:
    """Of each day what belongs to it."""
    seen: set[str] = set()
    found = []
    for number in range(len(made.frame.ahead.days)):
        due = sorted(_due(board, made, number), key=lambda one: (one.at, one.about))
        must_be = tuple(_must_be(board, made, number, seen))
        found.append(Around(tuple(due), must_be, tuple(_ask(made, number))))
    return tuple(found)


# --- what falls due ------------------------------------------------------------------------------


def _due(board: Board, made: Made, number: int) -> Iterator[Due]:
    """What ends after the day before has closed, and before this one does; on the first also all
    that is due already."""
    since, until = _between(made, number)
    for hold in board.stopping():
        if hold.until is not None and hold.asks and since <= hold.until < until:
            yield Due("look", hold.task, hold.until, hold.id)
    for finished, ended in made.course.finished.items():
        job = made.frame.jobs[finished]
        if job.hold is not None and job.hold.lasts is not None and job.look:
            over = board.plan.clock.add(made.frame.ahead.moment(ended), job.hold.lasts)
            if since <= over < until:
                yield Due("look", job.task.id, over)
    for account in board.stock.all():
        if account.to_come and account.promised is not None:
            promised = datetime.combine(account.promised, time.min)
            if since <= promised < until:
                yield Due("delivery", account.supply.id, promised)
    by = {job.task.id: made.course.finished.get(n) for n, job in enumerate(made.frame.jobs)}
    for standing in board.standings.values():
        day = standing.task.due
        if day is None or standing.work_done or standing.state == "set aside":
            continue
        ends = datetime.combine(day, time.max)
        if since <= ends and datetime.combine(day, time.min) < until:
            minute = by.get(standing.task.id)
            kept = minute is not None and made.frame.ahead.moment(minute) <= ends
            yield Due("date", standing.task.id, ends, kept=kept)


def _between(made: Made, number: int) -> tuple[datetime, datetime]:
    ends = [_closes(day) for day in made.frame.ahead.days]
    return ends[number - 1] if number else datetime.min, ends[number]


def _closes(day: DayAhead) -> datetime:
    return datetime.combine(day.date, day.openings[-1].closes)


# --- what must be there --------------------------------------------------------------------------


def _must_be(board: Board, made: Made, number: int, seen: set[str]) -> Iterator[MustBe]:
    """What the tasks that are first worked on that day suppose; each thing once."""
    day = made.frame.ahead.days[number].date
    tasks = [task for task in _tasks_of(made, number) if f"task {task}" not in seen]
    for task in tasks:
        seen.add(f"task {task}")
        for supply in board.stock.short_of(board.plan.tasks[task]):
            if f"supply {supply}" not in seen:
                seen.add(f"supply {supply}")
                yield _supply(board, task, supply, day)
        for hold in _only_a_word_ends(board, task):
            if hold.id not in seen:
                seen.add(hold.id)
                yield MustBe(task, hold=hold)
        for obstacle in temporary_before(board, board.plan.tasks[task]):
            if obstacle.entry not in seen:
                seen.add(obstacle.entry)
                yield MustBe(task, undo=board.history.temporary[obstacle.entry].what)
    yield from _awaited(made, tasks, seen)
    yield from _certificates(board, made, number, seen)


def _tasks_of(made: Made, number: int) -> list[str]:
    return list(dict.fromkeys(turn.task for turn in made.programme.days[number].turns))


def _supply(board: Board, task: str, supply: str, day: date) -> MustBe:
    account = board.stock[supply]
    unordered, lead = account.unordered > 0, account.supply.lead_time
    by = _ordered_by(board, lead, day) if unordered and lead is not None else None
    return MustBe(task, supply, unordered, by)


def _ordered_by(board: Board, lead: Duration, day: date) -> date | None:
    """The last day on which it can be ordered to be there in time."""
    today = board.at.date()
    for before in range((day - today).days + 1):
        ordered = day - timedelta(days=before)
        if board.plan.clock.add(datetime.combine(ordered, time.min), lead).date() <= day:
            return ordered
    return None


def _only_a_word_ends(board: Board, task: str) -> Iterator[StandingHold]:
    """Running holds before a task of which nobody knows until when."""
    before = board.order.all_before(task) | {task}
    for hold in board.stopping():
        own = hold.id in board[task].holds
        if hold.until is None and (own or hold.task in before):
            yield hold


def _awaited(made: Made, tasks: list[str], seen: set[str]) -> Iterator[MustBe]:
    """Holds of work of the programme that only a word ends, before tasks of that day."""
    frame, number = made.frame, {job.task.id: n for n, job in enumerate(made.frame.jobs)}
    for task in tasks:
        job = frame.jobs[number[task]]
        for before in job.before:
            earlier = frame.jobs[before.job]
            if earlier.hold is None or earlier.hold.lasts is not None or before.by_done:
                continue
            if f"awaited {earlier.task.id}" not in seen:
                seen.add(f"awaited {earlier.task.id}")
                yield MustBe(task, awaited=earlier.task.id)


def _certificates(board: Board, made: Made, number: int, seen: set[str]) -> Iterator[MustBe]:
    """Papers that work ahead asks for, and that will have lapsed by that day."""
    day, today = made.frame.ahead.days[number], board.at.date()
    asked = {(a.need.kind, a.hazard.id): a for j in made.frame.jobs for a in _papers(j.needs)}
    for who in day.people:
        volunteer = board.plan.crew[who]
        for paper in asked.values():
            name = f"paper {who} {paper.need.kind}"
            lapses = paper.held_by(volunteer, today) and not paper.held_by(volunteer, day.date)
            if lapses and name not in seen:
                seen.add(name)
                yield MustBe("", certificate=paper.need.kind, who=who)


def _papers(needs: Needs) -> tuple[CertificateOf, ...]:
    return (*needs.one, *needs.each)


# --- whom to ask ---------------------------------------------------------------------------------


def _ask(made: Made, number: int) -> Iterator[AskToCome]:
    """Work that could go on that day, and that nobody expected may do."""
    frame, day = made.frame, made.frame.ahead.days[number]
    closes = ((day.date - frame.ahead.base.date()).days + 1) * DAY
    blocks = [s for s in frame.ahead.sittings if s.day == number]
    lacking: dict[Obstacle, list[TaskAhead]] = {}
    for place, job in enumerate(frame.jobs):
        first = [s.first for s in made.course.spells if s.job == place]
        if first and min(first) < blocks[-1].end:
            continue
        ready = ready_at(job, made.course.finished, made.course.clear)
        if ready is None or ready >= closes - DAY + _last(day) or not _few(made, place, number):
            continue
        people = [day.board.plan.crew[who] for who in day.people if who in day.board.plan.crew]
        for obstacle in list(why_nobody(job.needs, people, day.date, "today"))[:1]:
            lacking.setdefault(obstacle, []).append(job)
    for obstacle, jobs in lacking.items():
        yield AskToCome(
            tuple(job.task.id for job in jobs), obstacle, tuple(_could(day, jobs[0], obstacle))
        )


def _last(day: DayAhead) -> int:
    return day.openings[-1].closes.hour * 60 + day.openings[-1].closes.minute


def _few(made: Made, job: int, day: int) -> bool:
    """Whether those expected are not enough for it, or lack something."""
    may, covers = made.frame.crews.able(job, day)
    return may.bit_count() < made.frame.jobs[job].least or not all(covers)


def _could(day: DayAhead, job: TaskAhead, lacks: Obstacle) -> Iterator[str]:
    """Who of the crew, not expected, has what is lacking."""
    for volunteer in day.board.plan.crew.values():
        here = volunteer.id in day.people or volunteer.away_on(day.date)
        if here or not volunteer.with_us_on(day.date):
            continue
        if not job.needs.bars(volunteer, day.date) and _has(volunteer, job, lacks, day.date):
            yield volunteer.id


def _has(volunteer: Volunteer, job: TaskAhead, lacks: Obstacle, day: date) -> bool:
    if lacks.code == "skill":
        return lacks.skill in volunteer.skills
    if lacks.code in ("certificate", "paper"):
        asked = (a for a in _papers(job.needs) if a.need.kind == lacks.certificate)
        return any(a.held_by(volunteer, day) for a in asked)
    return True
