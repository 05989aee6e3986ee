"""The work ahead as a project of the scheduling engine: a likeness, since that knows only whole
numbers, resources that renew and lags that are always as long.

Time is the blocks of the work days laid end to end; of people, and of those with each skill or
certificate asked for, there are always as many as come on these days in the middle; a hold takes as
many blocks as it does on average, from whichever block it begins; jigs stay taken through it.
"""

from __future__ import annotations

from crewboard.order.ahead.waits import HoldLengths
from crewboard.order.ahead.work_time import WorkTime
from crewboard.order.programme.ahead import BLOCK
from crewboard.order.programme.frame import CourseFrame
from crewboard.order.programme.jobs import TaskAhead
from crewboard.plan.hold import Hold
from tests.order.network.engine.resources import Project

# From the openings of so many work days the usual length of a hold is taken.
_SAMPLED = 12


def likeness(frame: CourseFrame, time: WorkTime) -> Project:
    """The work as a project: activity i is job i, then come the holds, then the beginning."""
    return _Likeness(frame, time).project()


class _Likeness:
    def __init__(self, frame: CourseFrame, time: WorkTime) -> None:
        self.frame = frame
        self.time = time
        self.lengths: dict[tuple[object, bool], int] = {}
        days = len(frame.ahead.days)
        self.people = max(1, round(sum(len(day.people) for day in frame.ahead.days) / days))
        skills = dict.fromkeys(asked for job in frame.jobs for asked in _asked(job))
        places = dict.fromkeys(job.task.place for job in frame.jobs if job.room)
        self.resource = {
            name: number
            for number, name in enumerate(
                ["", *(f"may {s}" for s in skills), *(f"in {p}" for p in places),
                 *(f"on {j}" for j in frame.jigs)]
            )
        }  # fmt: skip
        room = {job.task.place: job.room for job in frame.jobs if job.room}
        self.capacities = [
            self.people,
            *(self._who_may(skill) for skill in skills),
            *(room[place] for place in places),
            *frame.jigs.values(),
        ]

    def project(self) -> Project:
        jobs = self.frame.jobs
        durations = [-(-job.need // min(job.usual, self.people)) for job in jobs]
        demands = [self._demand(job) for job in jobs]
        links: list[tuple[int, int, int]] = []
        hold_of: dict[int, int] = {}
        for number, job in enumerate(jobs):
            if job.hold is not None:
                hold_of[number] = len(durations)
                links.append((number, len(durations), 0))
                durations.append(self._length(job.hold, job.look))
                demands.append(self._jigs(job))
        begin = len(durations)
        durations.append(0)
        demands.append([0] * len(self.capacities))
        for number, job in enumerate(jobs):
            links.append((begin, number, self._blocks_until(job.floor)))
            some = [b for e in job.enough for b in e.of[: max(0, e.need - len(e.known))]]
            before = sorted({*job.before, *some})
            ends = (b.job if b.by_done else hold_of.get(b.job, b.job) for b in before)
            links.extend((end, number, 0) for end in ends)
        return Project(durations, links, demands, self.capacities)

    def _demand(self, job: TaskAhead) -> list[int]:
        row = self._jigs(job)
        row[0] = min(job.usual, self.people)
        for skill in _asked(job):
            row[self.resource[f"may {skill}"]] = 1
        if job.room:
            row[self.resource[f"in {job.task.place}"]] = 1
        return row

    def _jigs(self, job: TaskAhead) -> list[int]:
        row = [0] * len(self.capacities)
        for jig in job.task.uses:
            row[self.resource[f"on {jig}"]] = 1
        return row

    def _who_may(self, asked: str) -> int:
        """How many of those who come have a skill, or a certificate, in the middle of the days."""
        frame = self.frame
        number = next(n for n, job in enumerate(frame.jobs) if asked in _asked(job))
        place = _asked(frame.jobs[number]).index(asked)
        counts = []
        for day in range(len(frame.ahead.days)):
            covers = frame.crews.able(number, day).covers
            counts.append(covers[place].bit_count() if place < len(covers) else 0)
        return max(1, round(sum(counts) / len(counts)))

    def _blocks_until(self, minute: int) -> int:
        time = self.time
        return max(0, time.worked_by(minute) - time.worked_by(time.now)) // BLOCK

    def _length(self, hold: Hold, look: bool) -> int:
        """Blocks of a hold, on average over the blocks of the next work days."""
        key = (hold.lasts, look)
        if key not in self.lengths:
            self.lengths[key] = _mean_length(self.frame.lengths, self.time, hold, look)
        return self.lengths[key]


def _mean_length(lengths: HoldLengths, time: WorkTime, hold: Hold, look: bool) -> int:
    blocks = []
    minute = time.open_from(time.now)
    for _ in range(_SAMPLED):
        closes = time.closes[time.day_from(minute)]
        for finish in range(minute + BLOCK, closes + 1, 2 * BLOCK):
            over = lengths.ends(hold, finish, look=look)
            blocks.append((time.worked_by(over) - time.worked_by(finish)) / BLOCK)
        minute = time.open_from(closes)
    return round(sum(blocks) / len(blocks)) if blocks else 0


def _asked(job: TaskAhead) -> list[str]:
    """The skills and certificates of which one on it must have each, as `Needs.covers` has them."""
    return [*job.task.skills, *(f"paper {asked.need.kind}" for asked in job.needs.one)]
