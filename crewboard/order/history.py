"""What the logbook tells up to a moment: each task's course, the holds started, who is here."""

from datetime import datetime, time, timedelta
from operator import attrgetter
from typing import NamedTuple

from crewboard.logbook.acts import (
    HOURS,
    Act,
    Arrived,
    Begun,
    CheckSigned,
    Extended,
    Finished,
    HazardRuledOut,
    HoldStarted,
    HoursLeft,
    Noted,
    Ordered,
    PieceFailed,
    Reading,
    Released,
    Reopened,
    SentBack,
    SetAside,
    Steamed,
    Stopped,
    Temporary,
    TookPlace,
    Undone,
    Used,
)
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.record.temporary import still_temporary
from crewboard.logbook.visits import Visit, visits
from crewboard.order.hours.left import worked_since
from crewboard.plan.hold import KINDS, Hold, HoldKind, Release
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task


class TaskCourse:
    """One task's course through the logbook."""

    __slots__ = ("begun", "crew", "finished", "hours", "left", "set_aside", "since", "stopped")

    def __init__(self) -> None:
        self.begun: Entry | None = None
        self.crew: dict[str, None] = {}
        self.finished: Entry | None = None
        self.stopped: Entry | None = None  # to go on another day, and not begun again since
        self.set_aside: str | None = None  # None: the plan's own word holds
        self.left: Entry | None = None  # the last word on the hours left
        self.since: float = 0.0  # hours worked since that word
        self.hours: float = 0.0


class Started(NamedTuple):
    """A hold as it was started; what was said of it afterwards stands beside it."""

    id: str
    hold: Hold
    task: str
    component: str
    since: datetime
    by: str
    said: list[Entry]  # extended, released: in order of time
    pieces: tuple[str, ...] = ()  # which are left alone meanwhile

    @property
    def taken_over(self) -> bool:
        """Whether the plan itself calls its task finished: nobody can be asked about that time."""
        return self.id == self.task


# The most lines of a logbook by far: of where the work stands they say nothing.
_NO_MATTER = frozenset({CheckSigned, HazardRuledOut, Noted, Steamed})


class History:
    """The logbook up to `at`, folded once."""

    __slots__ = (
        "at",
        "courses",
        "failed",
        "holds",
        "never_begun",
        "readings",
        "reopened",
        "stands_for",
        "supplies",
        "temporary",
        "visits",
    )

    def __init__(self, plan: Plan, logbook: Logbook, at: datetime) -> None:
        self.at = at
        self.courses: dict[str, TaskCourse] = {}
        self.holds: dict[str, Started] = {}
        self.readings: list[tuple[datetime, Reading]] = []
        self.supplies: dict[str, list[Entry]] = {}  # what was said of each, in order of time
        self.never_begun: list[Entry] = []  # lines that finished work which nobody wrote to begin
        self.reopened: dict[str, Entry] = {}  # tasks whose last word is that they are not finished
        self.failed: dict[str, Entry] = {}  # pieces that failed and are not made anew
        self.stands_for: dict[str, str] = {}  # spare -> the piece whose place it took
        told: list[Entry] = []  # of temporary things
        self.visits: list[Visit] = visits(logbook.days.get(at.date()), at)
        self._take_over(plan, at)
        for entry in _events(logbook, at):
            act = entry.act
            if isinstance(act, (Temporary, Undone)):
                told.append(entry)
            elif type(act) not in _NO_MATTER:
                self._take(plan, entry, act)
        self.temporary = {some_id: act for some_id, (_, act) in still_temporary(told).items()}
        self._sum_hours(logbook, at)

    def _course(self, task_id: str) -> TaskCourse:
        course = self.courses.get(task_id)
        if course is None:
            course = self.courses[task_id] = TaskCourse()
        return course

    def _take(self, plan: Plan, entry: Entry, act: Act) -> None:
        match act:
            case Begun():
                course = self._course(act.task)
                course.begun = course.begun or entry
                course.stopped = None
                course.crew |= dict.fromkeys(act.people)
            case Finished():
                self._finish(plan, entry, act)
            case Stopped():
                self._course(act.task).stopped = entry
            case Reopened():
                self._reopen(act.task, entry)
            case PieceFailed():
                self._fail(plan, entry, act)
            case TookPlace():
                self.stands_for[act.piece] = act.instead
            case HoursLeft():
                course = self._course(act.task)
                course.left, course.since = entry, 0.0
            case SetAside():
                self._course(act.task).set_aside = "" if act.back else (act.why or "set aside")
            case HoldStarted():
                self._start_by_hand(plan, entry, act)
            case Extended() | Released():
                if act.hold in self.holds:
                    self.holds[act.hold].said.append(entry)
            case Reading():
                self.readings.append((entry.at, act))
            case Arrived() | Ordered() | SentBack() | Used():
                self.supplies.setdefault(act.supply, []).append(entry)
            case _:
                pass

    def _reopen(self, task_id: str, entry: Entry) -> None:
        course = self._course(task_id)
        self._void(task_id, course)
        course.finished = None
        course.begun, course.crew, course.stopped = None, {}, None
        self.reopened[task_id] = entry

    def _void(self, task_id: str, course: TaskCourse) -> None:
        """What its finish started is void: the work is not done, or done to what is no more."""
        if course.finished is not None:
            self.holds.pop(course.finished.id, None)
        self.holds.pop(task_id, None)

    def _fail(self, plan: Plan, entry: Entry, act: PieceFailed) -> None:
        for task in plan.tasks_of(act.piece):
            if not task.series:
                continue
            course = self._course(task.id)
            if act.again and (course.begun or course.finished or task.finished):
                self._reopen(task.id, entry)
            else:
                self._void(task.id, course)
        for hold in [h for h in self.holds.values() if act.piece in h.pieces]:
            left = tuple(piece for piece in hold.pieces if piece != act.piece)
            if left or hold.task:  # it sets on the others, or keeps what comes after its task
                self.holds[hold.id] = hold._replace(pieces=left)
            else:
                del self.holds[hold.id]
        if act.again:
            self.failed.pop(act.piece, None)
        else:
            self.failed[act.piece] = entry

    def _take_over(self, plan: Plan, at: datetime) -> None:
        """Holds of tasks that the plan itself calls finished run from the end of that day.

        Nobody signed such a hold in, so nobody is asked to look: it is over when its time is up.
        """
        for task in plan.tasks.values():
            if task.finished is None or task.hold is None or task.hold.lasts is None:
                continue
            since = datetime.combine(task.finished, time.min) + timedelta(days=1)
            if since <= at:
                hold = task.hold._replace(release="time")
                self.holds[task.id] = Started(
                    task.id, hold, task.id, task.component, since, "", [], task.pieces
                )

    def _finish(self, plan: Plan, entry: Entry, act: Finished) -> None:
        course = self._course(act.task)
        if course.finished is not None:
            return  # said twice: the clock runs from the first
        course.finished = entry
        if course.begun is None:
            self.never_begun.append(entry)
        self.reopened.pop(act.task, None)
        task = plan.tasks.get(act.task)
        started = task and started_by_finish(task, entry, act.clock or entry.at)
        if started:
            self.holds[entry.id] = started

    def _start_by_hand(self, plan: Plan, entry: Entry, act: HoldStarted) -> None:
        kind: HoldKind = act.hold if act.hold in KINDS else "decision"
        release: Release = (
            act.release  # type: ignore[assignment]
            if act.release in ("time", "look")
            else KINDS[kind].release
        )
        task = plan.tasks.get(act.task)
        piece = plan.pieces.get(act.piece)
        own = task.component if task else piece.component if piece else ""
        component = act.component or own
        pieces = task.pieces if task else (act.piece,) if act.piece else ()
        hold = Hold(
            kind,
            act.lasts,
            release if act.lasts else "look",
            act.leave_alone or (not act.task and not act.piece and not KINDS[kind].awaited),
            note=act.why,
        )
        self.holds[entry.id] = Started(
            entry.id, hold, act.task, component, entry.at, entry.by, [], pieces
        )

    def _sum_hours(self, logbook: Logbook, at: datetime) -> None:
        for day in logbook.days.values():
            if day.date < at.date():
                for task_id, hours in day.hours_by_task.items():
                    if task_id:
                        self._course(task_id).hours += hours
            elif day.date == at.date():
                for entry in day.counting:
                    act = entry.act
                    if isinstance(act, HOURS) and act.task and entry.at <= at:
                        self._course(act.task).hours += act.hours
        words = {task: c.left for task, c in self.courses.items() if c.left is not None}
        for task_id, hours in worked_since(logbook, words, at):
            self.courses[task_id].since += hours


def started_by_finish(task: Task, entry: Entry, since: datetime) -> Started | None:
    """The hold that finishing the task starts; None where the plan foresees none."""
    if task.hold is None:
        return None
    return Started(entry.id, task.hold, task.id, task.component, since, entry.by, [], task.pieces)


_at = attrgetter("at")


def _events(logbook: Logbook, at: datetime) -> list[Entry]:
    """The entries that change what can be worked on, up to `at`, in order of time."""
    today = at.date()
    entries: list[Entry] = []
    for day in logbook.days.values():
        if day.date < today:
            entries += day.events
        else:  # written into a later day's file or later today: only what has happened by now
            entries += [e for e in day.events if e.at <= at]
    entries.sort(key=_at)
    while entries and entries[-1].at > at:
        entries.pop()
    return entries
