"""Why a task that can be worked on found no place in the day: asked of `order/may` and of the plan.

What is named stands in the way in truth: nobody here may do it, or it would have a place without
the work that is named.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from crewboard.order.board import Board
from crewboard.order.day_plan.following import followers
from crewboard.order.day_plan.in_the_way import InTheWay, in_the_way
from crewboard.order.day_plan.place_for import easier, job_is_done, place_for
from crewboard.order.day_plan.proposal import NotPlaced
from crewboard.order.day_plan.shop_day import Job, ShopDay, Slot
from crewboard.order.holds.words import outside_in_words
from crewboard.order.may.day import PeopleOfTheDay
from crewboard.order.may.short import in_short
from crewboard.order.said import how_many, listed, quoted_title, short_names
from crewboard.order.within import followed_by

_NAMED = 3  # of the work that stands in the way, how much is named before it is counted


def not_placed(board: Board, day: ShopDay, slots: Sequence[Slot]) -> Iterator[NotPlaced]:
    """Each job of the day without a slot, with the reason."""
    reasons = _Reasons(board, day, {slot.job: slot for slot in slots})
    for number, job in enumerate(day.jobs):
        if number not in reasons.placed:
            yield reasons.of(number, job)


class _Reasons:
    def __init__(self, board: Board, day: ShopDay, placed: Mapping[int, Slot]) -> None:
        self.board, self.day, self.placed = board, day, placed
        self.asking = PeopleOfTheDay(board, day.people)

    def of(self, number: int, job: Job) -> NotPlaced:
        """The first reason that holds."""
        if said := self._may(job):
            return NotPlaced(job.task, said, "may")
        if said := _time(self.day, job):
            return NotPlaced(job.task, said, "time")
        for before in job.after:
            if not job_is_done(self.day, before, self.placed):
                title = quoted_title(self.board.plan, self.day.jobs[before].task)
                return NotPlaced(
                    job.task,
                    f"it waits for {title}, which is not finished today",
                    "waits",
                    (self.day.jobs[before].task,),
                )
        slot = place_for(self.day, number, self.placed)
        if slot is not None:
            said = f"there is still room for it from {self.day.at(slot.start):%H:%M}"
            return NotPlaced(job.task, said, "room")
        way = in_the_way(self.day, number, self.placed)
        if way is not None:
            tasks = tuple(self.day.jobs[slot.job].task for slot in way.slots)
            return NotPlaced(job.task, self._taken(job, way), "taken", tasks)
        code, said = self._never(number, job)
        return NotPlaced(job.task, said, code)

    # --- who may ---------------------------------------------------------------------------------

    def _may(self, job: Job) -> str:
        board, day = self.board, self.day
        task, crew = board.plan.tasks[job.task], board.plan.crew
        against = self.asking.against_task(task) + self.asking.against_people(task)
        if day.people and against:
            return "; ".join(dict.fromkeys(in_short(board, obstacle) for obstacle in against))
        if len(job.able) < job.least or not all(job.covers):
            may = f"{len(job.able)} of those here may do it" if job.able else "nobody here may"
            return f"it needs {how_many(job.least, 'person')}: {may}"
        away = [who for who in job.always if who not in job.able]
        if away and away[0] in job.stay:
            return f"{crew[away[0]].name} is on it, and is not here or may not go on"
        if away:
            return f"{crew[away[0]].name} is not here or may not do it"
        if len(job.always) > job.most:
            return f"there is room for {how_many(job.most, 'person')}"
        air = board.rules.air.outside(task.conditions, board.at)
        return outside_in_words(air, board.plan.vehicle.units) if air is not None else ""

    # --- what stands in the way ------------------------------------------------------------------

    def _taken(self, job: Job, way: InTheWay) -> str:
        """ "Tomasz and Aiko are on "Glue up the doors" until 15:00"."""
        until = [self._until(slot) for slot in way.slots[:_NAMED]]
        more = len(way.slots) - _NAMED
        work = listed([*until, *([f"{more} more"] if more > 0 else [])])
        if way.because == ("place",):
            return f"the {job.place} is in use for {work}"
        if way.because == ("jig",):
            titles = [quoted_title(self.board.plan, self.day.jobs[s.job].task) for s in way.slots]
            return f"{self._jigs(job, way)}: taken by {listed(titles)}"  # it may be kept for a hold
        if way.because == ("near",):
            return f"it must not be near {work}"
        people = {who: None for slot in way.slots for who in slot.people if who in job.able}
        few = listed(short_names(self.board.plan, people)) if len(people) <= _NAMED else ""
        if way.because == ("people",):
            who = few or "those who could do it"
            return f"{who} {'is' if len(people) == 1 else 'are'} on {work}"
        takes = [f"the {job.place}"] if "place" in way.because else []
        takes += [self._jigs(job, way)] if "jig" in way.because else []
        if "people" in way.because:
            takes += short_names(self.board.plan, people) if few else ["those who could do it"]
        near = ", and it must not be near some of that" if "near" in way.because else ""
        return f"{listed(takes)} {'is' if len(takes) == 1 else 'are'} taken by {work}{near}"

    def _until(self, slot: Slot) -> str:
        title = quoted_title(self.board.plan, self.day.jobs[slot.job].task)
        until = f"{self.day.until(slot.end):%H:%M}"
        if slot.start:
            return f"{title} from {self.day.at(slot.start):%H:%M} to {until}"
        return f"{title} until {until}"

    def _jigs(self, job: Job, way: InTheWay) -> str:
        """The names of the jigs that it wants and they have."""
        theirs = {jig for slot in way.slots for jig in self.day.jobs[slot.job].jigs}
        jigs = self.board.plan.vehicle.jigs
        names = [jigs[jig].name for jig in job.jigs if jig in theirs]
        return listed(names) or "its jig"

    # --- no place even in a day of its own -------------------------------------------------------

    def _never(self, number: int, job: Job) -> tuple[str, str]:
        """The first thing without which it would have one, and the sort of reason."""
        day, tasks = self.day, self.board.plan.tasks

        def would(eased: ShopDay) -> bool:
            return place_for(eased, number, {}) is not None

        free = easier(day, number, after=(), follows=())
        behind = followers(day).get(number, ())
        alone = day._replace(
            jobs=tuple(
                j._replace(follows=tuple(f for f in j.follows if f.first != number))
                for j in easier(free, number, may_finish=True).jobs
            )
        )
        after = [self.placed[n] for n in job.after if n in self.placed]
        if after and would(free):
            last = max(after, key=lambda slot: slot.end)
            title = quoted_title(self.board.plan, day.jobs[last.job].task)
            return (
                "time",
                f"{title}, which comes before it, ends only at {day.until(last.end):%H:%M}",
            )
        if would(alone):
            for task, span in followed_by(self.board.plan, job.task):
                if not job.may_finish or task.id in {day.jobs[n].task for n in behind}:
                    return (
                        "soon",
                        f'"{tasks[task.id].title}" has to be begun within {span} after it',
                    )
        if job.begin_by is not None and would(easier(alone, number, begin_by=None)):
            return "soon", f"it has to be begun by {day.at(max(0, job.begin_by)):%H:%M}"
        if job.whole and would(easier(alone, number, whole=False)):
            late = f"it can begin only at {day.at(job.since):%H:%M}, and then " if job.since else ""
            return "time", f"it must not be left half done, and {late}the day is too short for it"
        if job.fixed is not None and would(
            easier(alone, number, fixed=None, fixed_start=None, stay=())
        ):
            return "fixed", "it has no place as it is fixed"
        if would(alone._replace(hours={})):
            return "time", "those who may do it are not here long enough together"
        if job.watch and would(easier(alone, number, watch=0, watched=())):
            return "may", "nobody is left to watch"
        if would(alone._replace(beside={})):
            return "may", "who needs somebody beside them would be on it alone"
        if would(easier(alone, number, place="")):
            return "may", f"the {job.place} is full: work goes on there"
        if would(easier(alone, number, jigs=())):
            names = listed(self.board.plan.vehicle.jigs[jig].name for jig in job.jigs)
            return "may", f"{names} {'is' if len(job.jigs) == 1 else 'are'} taken already"
        return "time", "what is left of the day is too short for it"


def _time(day: ShopDay, job: Job) -> str:
    if not day.blocks:
        return "the shop closes before anything could be begun"
    if job.by <= 0:
        return "it could not end early enough for its fire watch or other clock before closing"
    if job.since >= job.by:
        return "a clock of earlier work, or what goes on near it, lasts too long today"
    return ""
