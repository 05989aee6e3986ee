"""The board: where every task stands at one moment. Made by `assess`, never stored."""

from collections.abc import Iterator, Mapping
from datetime import date, datetime, time, timedelta
from typing import TYPE_CHECKING, NamedTuple

from crewboard.logbook.acts import OpenUntil
from crewboard.logbook.day import Day
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.state import State
from crewboard.logbook.visits import GuestVisit, Visit, guest_visits
from crewboard.order.history import History
from crewboard.order.holds.running import Rules, StandingHold
from crewboard.order.pieces import NotAsked
from crewboard.order.readiness import Readiness
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.order.supplies import Stock
from crewboard.order.unreadable import Unreadable
from crewboard.plan.plan import Plan
from crewboard.plan.series import Series
from crewboard.plan.task import Task
from crewboard.plan.workdays import Opening

if TYPE_CHECKING:
    from crewboard.fabric.fabric import Fabric

LATELY = timedelta(days=28)  # holds over for longer are only in the logbook


class Standing(NamedTuple):
    """Where one task stands.

    A task whose own work is finished is "on hold" until its hold is over, and "finished" then; its
    `finished` says when the work was done; what comes after it is "waiting" meanwhile. `begun` and
    `crew` tell of work under way. `holds` are the ids of the running holds that keep it where it
    is; `short_of` the supplies not yet here.
    `hours` are person-hours logged, `left` the likely person-hours to go (None: no estimate).
    `open_again` are the reopened tasks somewhere before it: where it is under way all the same,
    that work is to be stopped. `held_again`, of work under way, are the holds right before it that
    run since it was begun, or were made longer since: that work is to be stopped too. `jigs` are
    those it uses and of which none is free. `unreadable` are the files that cannot be read and may
    hold it back: it is not ready.
    """

    task: Task
    state: State
    begun: datetime | None = None
    crew: tuple[str, ...] = ()
    finished: datetime | None = None
    finished_by: str = ""
    holds: tuple[str, ...] = ()
    short_of: tuple[str, ...] = ()
    until: datetime | None = None  # the latest known end of what keeps it, where that is no work
    hours: float = 0.0
    left: float | None = None
    aside: str = ""
    open_again: tuple[str, ...] = ()
    held_again: tuple[str, ...] = ()
    jigs: tuple[str, ...] = ()
    ask_left: bool = False  # more was worked than was said: `left` is what overruns suggest
    unreadable: tuple[str, ...] = ()
    else_ready: bool = False  # on hold for what could not be read alone
    waits: bool = False  # waiting for work that comes first, unfinished or open again
    stopped: datetime | None = None  # under way, to go on another day: nobody was on it since

    @property
    def left_in_words(self) -> str:
        """ "about 3 h left"; "ask how much is left" where more was worked than was said."""
        if not self.left or self.work_done:
            return ""
        return "ask how much is left" if self.ask_left else f"about {self.left:g} h left"

    @property
    def to_stop(self) -> bool:
        """Whether it is under way over work that is open again, or over a hold that runs again."""
        return self.state == "under way" and bool(self.open_again or self.held_again)

    @property
    def work_done(self) -> bool:
        """The work itself is finished, whether or not its hold still runs."""
        return self.finished is not None


class Board:
    """Everything known at `at`: a function of the plan, the logbook, and what could not be read."""

    __slots__ = (
        "_fabric",
        "at",
        "history",
        "holds",
        "logbook",
        "not_asked",
        "openings",
        "order",
        "plan",
        "readiness",
        "rules",
        "standings",
        "stock",
        "unreadable",
    )

    def __init__(
        self,
        plan: Plan,
        logbook: Logbook,
        at: datetime,
        order: OrderOfWork,
        history: History,
        holds: Mapping[str, StandingHold],
        standings: Mapping[str, Standing],
        readiness: Readiness,
        rules: Rules,
        stock: Stock,
        unreadable: tuple[Unreadable, ...] = (),
        not_asked: Mapping[str, NotAsked] = {},
    ) -> None:
        self.plan = plan
        self.logbook = logbook
        self.at = at
        self.order = order
        self.history = history
        self.holds = holds
        self.standings = standings
        self.readiness = readiness
        self.rules = rules
        self.stock = stock
        self.unreadable = unreadable
        self.not_asked = not_asked  # tasks of series that nobody is asked to do
        self.openings = openings_of(plan, logbook, at.date())
        self._fabric: Fabric | None = None

    def __getitem__(self, task_id: str) -> Standing:
        return self.standings[task_id]

    @property
    def fabric(self) -> "Fabric":
        """The record of the vehicle at the board's moment, made when it is first asked for."""
        if self._fabric is None:
            from crewboard.fabric.fabric import fabric_of  # not on the way of a board

            self._fabric = fabric_of(self.plan, self.logbook, self.at)
        return self._fabric

    def goes_on_from(self, fabric: "Fabric") -> None:
        """Take the record of another moment of the same plan and logbook where nothing was written
        down between the two."""
        first, last = sorted((fabric.at, self.at))
        entries = (e for day in self.logbook.days.values() for e in (*day.counting, *day.record))
        if self._fabric is None and not any(first < entry.at <= last for entry in entries):
            self._fabric = fabric._replace(at=self.at)

    def in_state(self, *states: State) -> Iterator[Standing]:
        """The tasks in any of these states, in the order of the files."""
        return (s for s in self.standings.values() if s.state in states)

    @property
    def opening(self) -> Opening | None:
        """The opening that counts at the board's moment: the one that runs or comes next, else the
        day's last; None where the shop stays closed."""
        now = self.at.time()
        return next(
            (opening for opening in self.openings if now < opening.closes),
            self.openings[-1] if self.openings else None,
        )

    @property
    def people_unknown(self) -> Unreadable | None:
        """What cannot be read of this day, so that nobody knows who is in the shop."""
        today = self.at.date()
        return next(
            (
                one
                for one in self.unreadable
                if not one.remembered and (one.day == today or one.kind == "folder")
            ),
            None,
        )

    @property
    def present(self) -> list[Visit]:
        """Who is in the shop now, in order of arrival."""
        return [visit for visit in self.history.visits if visit.until is None]

    @property
    def guests(self) -> list[GuestVisit]:
        """The guests in the shop now: counted when everybody is called together, for no work."""
        today = self.logbook.days.get(self.at.date())
        return [visit for visit in guest_visits(today, self.at) if visit.until is None]

    def stopping(self) -> list[StandingHold]:
        """Holds not over, those due for a look first, then by their end; open-ended ones last."""
        return sorted(
            (hold for hold in self.holds.values() if hold.stops_work),
            key=lambda h: (h.stage != "due", h.until or datetime.max, h.since),
        )

    def lately_over(self) -> list[StandingHold]:
        """Holds over in the last weeks, the last one first."""
        since = self.at - LATELY
        over = (hold for hold in self.holds.values() if not hold.stops_work)
        return sorted((h for h in over if h.ended > since), key=lambda h: h.ended, reverse=True)

    def progress(self, component_id: str) -> tuple[int, int]:
        """Tasks whose work is done, and all tasks that are not set aside, of a component with its
        parts, or of a series. A place of a series counts although its piece failed: something has
        to take it."""
        series = self.plan.series.get(component_id)
        if series is not None:
            every = [self.standings[task] for task in series.members.values()]
        else:
            parts = self.plan.with_parts(component_id)
            every = [s for s in self.standings.values() if s.task.component in parts]
        inside = [standing for standing in every if standing.state != "set aside"]
        places = self._places_asked(series) if series is not None else 0
        return sum(s.work_done for s in inside), max(len(inside), places)

    def _places_asked(self, series: Series) -> int:
        """How many of its places have to be finished: all but those that were set aside by hand."""
        lost, stands_in = self.readiness.facts.lost, self.history.stands_for
        aside = sum(
            self.standings[task].state == "set aside"
            and task not in lost
            and (not self.plan.pieces[piece].spare or piece in stands_in)
            for piece, task in series.members.items()
        )
        return series.places - aside

    def progress_of_all(self) -> dict[str, tuple[int, int]]:
        """`progress` of every component, worked out together."""
        done = dict.fromkeys(self.plan.components, 0)
        every = dict.fromkeys(self.plan.components, 0)
        for standing in self.standings.values():
            component = standing.task.component if standing.state != "set aside" else ""
            while component:
                every[component] += 1
                done[component] += standing.work_done
                component = self.plan.components[component].part_of
        return {component_id: (done[component_id], every[component_id]) for component_id in every}


def _said_until(day: Day) -> time | None:
    """The last word on until when the shop is open that day."""
    words = (e.act.until for e in reversed(day.events) if isinstance(e.act, OpenUntil))
    return next(words, None)


def openings_of(plan: Plan, logbook: Logbook, day: date) -> tuple[Opening, ...]:
    """When the shop is open on a day, in order: the day's own word before the rule's."""
    usual = plan.vehicle.work_days.openings_on(day)
    of_day = logbook.days.get(day)
    said = _said_until(of_day) if of_day is not None else None
    if of_day is None or (of_day.opens is None and of_day.closes is None and said is None):
        return usual
    closes = said or of_day.closes
    first, *_ = *usual, plan.vehicle.work_days.usual
    last = usual[-1] if usual else first
    if len(usual) < 2:
        return (Opening(of_day.opens or first.opens, closes or last.closes),)
    first = Opening(of_day.opens or first.opens, first.closes)
    last = Opening(last.opens, closes or last.closes)
    return tuple(opening for opening in (first, *usual[1:-1], last) if opening.length > 0)
