"""Which safety checks a task or the day asks for now, which of them are signed, and which dangers
are going on.

A task under way may rest for weeks. Its danger is going on from the moment that it is begun, or
taken up again, on this day, until the sheet's after-checks are signed, the work is finished or
stopped for the day, or everyone on it has left.
"""

from collections.abc import Iterable, Iterator
from datetime import date, datetime
from typing import Literal, NamedTuple

from crewboard.logbook.acts import CheckSigned
from crewboard.order.board import Board
from crewboard.order.may.needs import hazards_for, hazards_of_one_alone, under_18s
from crewboard.order.safety.signatures import as_signed, signatures
from crewboard.order.safety.went_on import sheets_of_work
from crewboard.plan.hazard import Check, Hazard, When

Answer = Literal["signed", "does not apply", "unsigned"]


class Asked(NamedTuple):
    """One check as it stands.

    `task` is empty for what is signed once a day for the whole shop, `who` names the person whom it
    concerns where it is signed for each. `written_by` wrote the line that `signed_by` signed. `due`
    is when a during-check comes round next, None while its work is not going on.
    """

    hazard: Hazard
    check: Check
    task: str
    who: str = ""
    answer: Answer = "unsigned"
    signed_by: str = ""
    written_by: str = ""
    at: datetime | None = None
    entry: str = ""  # the logbook line that signed it
    why: str = ""  # the reason, where it does not apply
    due: datetime | None = None

    @property
    def text(self) -> str:
        """The words of the check, each figure with its unit."""
        return self.hazard.told(self.check.text)

    @property
    def open(self) -> bool:
        return self.answer == "unsigned"

    def overdue(self, at: datetime) -> bool:
        return self.due is not None and self.due <= at


def hazards_of(board: Board, task_id: str, people: Iterable[str] = ()) -> list[Hazard]:
    """The sheets that a task asks for when these people work on it today, those among them under
    which it was begun today and which the plan names no more; while one of them is alone in the
    shop, also what is for whoever works alone."""
    people = tuple(people)
    sheets = hazards_for(board.plan, board.plan.tasks[task_id], people, board.at.date())
    if any(visit.who in people for visit in board.present):
        sheets += [sheet for sheet in hazards_of_one_alone(board) if sheet not in sheets]
    if task_id not in signatures(board).worked:
        return sheets
    ids = {sheet.id for sheet in sheets}
    begun = sheets_of_work(board, task_id, board.at.date())
    return sheets + [sheet for sheet in begun if sheet.id not in ids and sheet.concerns == "task"]


def checks_of(
    board: Board, task_id: str, people: Iterable[str] = (), when: When | None = None
) -> list[Asked]:
    """Every check of the task, in the order of its sheets: before, during, after.

    `people` are those who are to work on it; without any, those who are on it already. Raises
    KeyError for an unknown task.
    """
    crew = tuple(people) or board[task_id].crew
    asked = [
        asking
        for hazard in hazards_of(board, task_id, crew)
        for check in hazard.checks
        if when in (None, check.when)
        for asking in _asked(board, hazard, check, task_id, crew)
    ]
    order = ("before", "during", "after")
    return sorted(asked, key=lambda asking: order.index(asking.check.when))


def checks_of_the_day(board: Board, when: When | None = None) -> list[Asked]:
    """What is signed once a work day for the whole shop: opening and closing it."""
    return [
        _answered(board, Asked(hazard, check, ""))
        for hazard in board.plan.hazards.values()
        if hazard.concerns == "day"
        for check in hazard.checks
        if when in (None, check.when)
    ]


def coming_round(board: Board) -> list[Asked]:
    """During-checks of work that is going on, the one due first at the top."""
    asked = {
        (
            asking.hazard.id,
            asking.check.id,
            "" if asking.check.every == "day" else asking.task,
        ): asking
        for task_id, hazard in going_on(board)
        if task_id in board.plan.tasks
        for asking in checks_of(board, task_id, when="during")
        if asking.hazard.id == hazard.id and asking.due is not None
    }
    return sorted(asked.values(), key=lambda asking: (asking.due or board.at, asking.task))


def going_on(board: Board) -> Iterator[tuple[str, Hazard]]:
    """Each task being worked on today, with each of its dangers that has not ended yet."""
    for task_id in signatures(board).worked:
        for hazard in sheets_of_work(board, task_id, board.at.date()):
            if is_going_on(board, task_id, hazard):
                yield task_id, hazard


def is_going_on(board: Board, task_id: str, hazard: Hazard) -> bool:
    """Whether the task is worked on now and this danger of it has not ended."""
    signed = signatures(board)
    if task_id not in signed.worked or _work_done(board, task_id):
        return False
    if signed.stopped_on(board.at.date(), task_id) is not None:
        return False
    course = board.history.courses.get(task_id)
    here = {visit.who for visit in board.present}
    if board.history.visits and course and course.crew and not here & course.crew.keys():
        return False
    return not any(signed.of(hazard, check, task_id, "") for check in _ending(hazard))


def closed_by(board: Board) -> Iterator[tuple[str, Hazard]]:
    """Each task with each of its dangers for which its place is closed: from the begin of the work
    until somebody signs that it has ended. That everyone has left, or another day has come, opens
    no place: what is on jacks stays there. That it is finished opens it only where a clock goes on
    from there: no clock says that the load is down, or the fibres are gone."""
    signed = signatures(board)
    for task_id, course in board.history.courses.items():
        begun = signed.last_begun(task_id)
        if course.begun is None or begun is None:
            continue
        done = _work_done(board, task_id)
        if done and not _lasts_after_finish(board, task_id, begun.date()):
            continue
        for hazard in sheets_of_work(board, task_id, begun.date()):
            if (
                hazard.closes_place
                and not (done and hazard.clocks)
                and not any(
                    signed.said_since(hazard, check.id, task_id, begun) for check in _ending(hazard)
                )
            ):
                yield task_id, hazard


def _lasts_after_finish(board: Board, task_id: str, day: date) -> bool:
    """Whether a danger of the task closes its place and has no clock that goes on from its finish:
    of those that the plan names, and those written down at its begin. Only their sheets are read.
    """
    task = board.plan.tasks.get(task_id)
    names = dict.fromkeys(task.hazards if task is not None else ())
    for act in signatures(board).begun_under(day, task_id):
        names |= dict.fromkeys(act.dangers)
    sheets = (board.plan.hazards[name] for name in names if name in board.plan.hazards)
    return any(sheet.closes_place and not sheet.clocks for sheet in sheets)


def _work_done(board: Board, task_id: str) -> bool:
    """Whether the work is finished; the task may be gone from the plan."""
    if task_id in board.standings:
        return board[task_id].work_done
    course = board.history.courses.get(task_id)
    return course is not None and course.finished is not None


def _ending(hazard: Hazard) -> list[Check]:
    """The after-checks of which any says that the work is over: those that start a clock, where
    there are such."""
    after = [check for check in hazard.checks if check.when == "after"]
    starts = {clock.starts for clock in hazard.clocks if clock.starts}
    return [check for check in after if check.id in starts] or after


def _asked(
    board: Board, hazard: Hazard, check: Check, task_id: str, crew: tuple[str, ...]
) -> list[Asked]:
    if not check.each_person:
        return [_answered(board, Asked(hazard, check, task_id))]
    day = board.at.date()
    young = {volunteer.id for volunteer in under_18s(board.plan.crew.values(), day)}
    concerned = [who for who in crew if hazard.concerns != "minors" or who in young]
    # Before anybody is named, the check stands once, for whoever it will be.
    return [_answered(board, Asked(hazard, check, task_id, who)) for who in concerned or ("",)]


def _answered(board: Board, asked: Asked) -> Asked:
    """The check with its signature, and when it comes round next."""
    entry = signatures(board).of(asked.hazard, asked.check, asked.task, asked.who)
    if entry is not None:
        assert isinstance(entry.act, CheckSigned)
        act = as_signed(asked.check, entry.act, entry.by)
        asked = asked._replace(
            answer="signed" if act.applies else "does not apply",
            signed_by=act.who,
            written_by=entry.by,
            at=entry.at,
            entry=entry.id,
            why=act.why,
        )
    return asked._replace(due=_due(board, asked)) if asked.check.when == "during" else asked


def _due(board: Board, asked: Asked) -> datetime | None:
    """When a during-check comes round: its interval after the last look, or after the start."""
    number = asked.hazard.number(asked.check.interval)
    if number is None or not number.may_gate or (span := number.span) is None:
        return None
    if not asked.task or not is_going_on(board, asked.task, asked.hazard):
        return None
    if asked.answer == "does not apply":
        return None
    signed = signatures(board)
    begun = [*signed.begun_on(board.at.date(), asked.task), signed.worked.get(asked.task), asked.at]
    since = max((at for at in begun if at is not None), default=None)
    return board.plan.clock.add(since, span) if since is not None else None
