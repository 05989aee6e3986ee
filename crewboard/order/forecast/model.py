"""The remaining job as plain arrays, ready to be played through: small, picklable, no board.

People are bits of an integer, the least sought-after the lowest bit. Tasks are numbers in the
order of their latest start: as a rule a lower number goes first. Nodes from `len(tasks)` on are
gates and tasks set aside, which take no time.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from typing import NamedTuple

from crewboard.order.forecast.gamma import Gamma
from crewboard.order.forecast.held import Held
from crewboard.plan.clock import ShopClock
from crewboard.plan.duration import Duration
from crewboard.plan.time_away import TimeAway
from crewboard.plan.workdays import Opening, WorkDays


class Tail(NamedTuple):
    """How the hours of a task scatter about the pace, as logarithms, if Student's t with so many
    degrees of freedom tells it: `chance` is how surely it does, `scatter` its scale."""

    chance: float
    freedom: int
    scatter: float


class Pace(NamedTuple):
    """Hours worked against hours estimated, as logarithms: the crew's own mean with how surely it
    is known, and the scatter from task to task, by one of `tails`, known as from so many tasks
    (`known`; 0: surely). `share` is how much of the time in the shop goes into tasks, `stretch`
    what the past says on top (see `lookback`). Hours fall by `practice`, a power of
    the number of tasks done; `done` are so far, and the mean is of when it was `middle`.
    """

    mean: float = 0.0
    doubt: float = 0.0
    tails: tuple[Tail, ...] = ()
    known: float = 0.0
    share: float = 1.0
    share_doubt: float = 0.0
    stretch: float = 0.0
    stretch_doubt: float = 0.0
    practice: float = 0.0
    practice_doubt: float = 0.0
    done: int = 0
    middle: float = 0.0


class Person(NamedTuple):
    """One volunteer's record: work days come, work days not come, since they joined. Of these the
    last `silent` ones, all since they last came; `gone` is the chance that they have left."""

    id: str
    came: int
    stayed_away: int
    silent: int = 0
    gone: float = 0.0


class Attendance(NamedTuple):
    """Who comes on a work day. `sure`: everybody always does.

    `people` from the lowest bit on. `alike`: how much the crew's common chance says about each
    (in work days). `held`, `dropped`: work days of the calendar on which somebody, or nobody, came;
    `takes_place` is what is learned of that.
    `seasons` multiply the chance, by month, and `season_doubt` is how unsurely each is known, as a
    logarithm. `together`: how much of people's luck on a day is the same for all, 0 to 1, with the
    chance of each. `leaving`: shape and years of the Gamma belief of how often somebody leaves,
    None where nobody ever does; `replaced`: of those who left how many were, and were not,
    replaced. `answers` are the days for which people said whether they come. `past`: who came, as
    bits, on days that are known. `away`: by number who is away in which weeks; whoever has come for
    them by then is so too.
    """

    people: tuple[Person, ...]
    sure: bool = False
    alike: float = 4.0
    held: int = 0
    dropped: int = 0
    takes_place: Held = Held()
    seasons: tuple[float, ...] = (1.0,) * 12
    season_doubt: tuple[float, ...] = (0.0,) * 12
    together: tuple[tuple[float, float], ...] = ((0.0, 1.0),)
    leaving: tuple[float, float] | None = None
    replaced: tuple[float, float] = (1.0, 0.0)
    answers: Mapping[date, tuple[tuple[int, bool], ...]] = {}
    past: Mapping[date, int] = {}
    away: tuple[tuple[int, tuple[TimeAway, ...]], ...] = ()


class Delays(NamedTuple):
    """How often a hold is made longer, and how deliveries keep their dates. `sure`: never, always.

    `aside`: what counts for and against it that a task is set aside in the end (None: none is).
    A lead time is multiplied with a log-normal factor of this mean and scatter, which are known as
    from so many deliveries (`known`; 0: surely).
    """

    sure: bool = False
    extended: float = 0.1
    late_mean: float = 0.1
    late_scatter: float = 0.3
    known: float = 0.0
    aside: tuple[float, float] | None = None


class Work(NamedTuple):
    """One task: person-minutes, who may be on it, what starts when it ends.

    `low` and `range` of the estimate, with its table; `done` the minutes logged already; `left`
    where the crew said anew how much is to do, or where it `overran`: then by the log's overruns,
    which have the crew's pace in them. `allowed` are the people who may be on it, `covers`
    sets of people of whom at least one must be. `place` is a bit, 0 for none; `uses` are the bits
    of its jigs, which stay taken until its hold is over. With `in_one_go` it is begun only where
    all of it fits the day.
    `blocks` are the tasks that are left alone while its hold runs. `orders` holds the lead times of
    supplies nobody has ordered, in minutes, by the number of the supply.
    """

    low: float
    range: float
    table: int
    done: float
    left: float | None
    least: int
    most: int
    allowed: int
    covers: tuple[int, ...]
    place: int
    free: int
    hold: Duration | None
    waits_for_word: bool
    look: bool
    blocks: tuple[int, ...] = ()
    orders: tuple[tuple[int, int], ...] = ()
    deliveries: tuple[tuple[int, int], ...] = ()
    overran: bool = False
    uses: int = 0
    in_one_go: bool = False


class FoundKind(NamedTuple):
    """Of what kind found work is, as in `Work`; `lead`: minutes till what is ordered for it comes,
    0 where nothing has to be."""

    allowed: int
    least: int
    covers: tuple[int, ...]
    hold: Duration | None = None
    waits_for_word: bool = False
    look: bool = False
    lead: int = 0


class Finds(NamedTuple):
    """What turns up on the way: minutes for each minute of estimated work that is finished.

    `rate` as it is believed. For each task: by which factor its component's differs, and the
    minutes of its estimate. `sizes` of what turns up in minutes, each as likely as the others, as
    are the `kinds` of what each task may turn up (none: whoever may be on the task does it).
    """

    rate: Gamma
    factors: tuple[float, ...]
    minutes: tuple[float, ...]
    sizes: tuple[float, ...]
    kinds: tuple[tuple[FoundKind, ...], ...] = ()


class Counted(NamedTuple):
    """A gate that is passed when `need` of the nodes `of` are over. `known` is when others that
    count are over, which are finished. With `by_done` their holds need not be over."""

    need: int
    of: tuple[int, ...]
    known: tuple[int, ...] = ()
    by_done: bool = False


class Model(NamedTuple):
    """Everything one play needs; see the module.

    `behind_clear`, `behind_done`: for each node the nodes that wait for it, hold and all, or only
    for its work. `waits`: how many each still waits for. `earliest`: the minute before which a
    node is not ready. `closings`: component -> the node behind its last work.

    `counted`: gate -> how many of what is before it are enough; it stands in nobody's `behind`.
    `room`: by the number of a place's or jig's bit, of how many jobs at a time there is room.
    `taken`: bits of jigs that are taken, and until when; `with_jigs` are the tasks that have theirs
    already. `at_once`: tasks that must follow another soon, and so are taken up before all else.
    `finds`: what turns up; None: nothing. With `as_planned` each course is played without it too.
    """

    start: datetime
    today: tuple[Opening, ...]
    work_days: WorkDays
    clock: ShopClock
    tasks: tuple[str, ...]
    work: tuple[Work, ...]
    draws: tuple[int, ...]  # the tasks in an order that a change of the plan does not shuffle
    behind_clear: tuple[tuple[int, ...], ...]
    behind_done: tuple[tuple[int, ...], ...]
    waits: tuple[int, ...]
    earliest: tuple[int, ...]
    going: tuple[int, ...]  # under way
    closings: Mapping[str, int]
    settled: Mapping[str, int]  # components without work left: when their last hold is over
    attendance: Attendance
    pace: Pace
    delays: Delays
    counted: Mapping[int, Counted] = {}
    room: tuple[int, ...] = ()
    taken: tuple[tuple[int, int], ...] = ()
    with_jigs: tuple[int, ...] = ()
    at_once: frozenset[int] = frozenset()
    strays: float = 0.0  # at most this share of the tasks is taken up out of turn
    finds: Finds | None = None
    as_planned: bool = True
