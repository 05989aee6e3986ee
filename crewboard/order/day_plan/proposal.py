"""What the lead wished of a plan for the day, and the values that the proposal is made of."""

from collections.abc import Mapping
from datetime import datetime, time
from typing import Literal, NamedTuple

By = Literal["solver", "plain rule"]


class Fixed(NamedTuple):
    """A part of the plan that the lead has fixed.

    The task is done on the day; `people` are on it (others may join, unless `only`); it begins at
    `start` where one is given.
    """

    task: str
    people: tuple[str, ...] = ()
    start: time | None = None
    only: bool = False


class Wish(NamedTuple):
    """`people` are those to plan for; empty for who is here, else who is expected.

    `fixed` parts stay as they are; tasks in `left_out` are not planned; `apart` are pairs of a
    person and a task that do not go together. Times are planned in blocks of `block` minutes.
    """

    people: tuple[str, ...] = ()
    fixed: tuple[Fixed, ...] = ()
    left_out: tuple[str, ...] = ()
    apart: tuple[tuple[str, str], ...] = ()
    block: int = 30


class Placed(NamedTuple):
    """People on a task from `start` to `end`. `finishes`: its likely hours are done by then.

    `people` are all of them. Of these `watch` do not work but watch, those who do so last until
    `watched_until` where the danger is watched for a while after the work; `learning` learn there
    beside somebody who can. `looks` are the ids of the holds that somebody has to look at and
    release first: the lead does, and until then it is only planned. Breaks in it are nobody's work.
    """

    task: str
    people: tuple[str, ...]
    start: datetime
    end: datetime
    finishes: bool
    watch: tuple[str, ...] = ()
    watched_until: datetime | None = None
    learning: tuple[str, ...] = ()
    looks: tuple[str, ...] = ()


class SmallJob(NamedTuple):
    """Something of the shop's own list for people who are left: sweep, sort screws."""

    what: str
    people: tuple[str, ...]
    start: datetime
    end: datetime


class Pause(NamedTuple):
    """A break of this day: nobody works, whoever watches a danger goes on watching."""

    start: datetime
    end: datetime
    name: str


class Otherwise(NamedTuple):
    """What is otherwise than in the plan that was running, of one task; of a small job `what` says
    which, and `task` is empty.

    From `since` on `joined` are on it too and `left` are on it no longer. `before` is how it stood
    there (None: it did not), `now` how it stands (None: it does not any more). Who learns is among
    `joined`, and in the `learning` of `now`.
    """

    task: str
    since: datetime
    joined: tuple[str, ...]
    left: tuple[str, ...]
    before: Placed | SmallJob | None
    now: Placed | SmallJob | None
    what: str = ""


class NotPlaced(NamedTuple):
    """A task that can be worked on and found no place in the day, and why.

    `code` is the sort of reason: "may" (these people may not do it, or not now), "waits", "taken"
    (without the work on `tasks` it would have a place), "room" (it would still have one), "time",
    "soon", "fixed".
    """

    task: str
    why: str
    code: str = ""
    tasks: tuple[str, ...] = ()


class DayPlan(NamedTuple):
    """Who does what and when. It decides nothing: the lead does, and the checks are signed first.

    `value` is what the plan is worth by what goes first, `bound` what no plan can be worth more
    than; `gap` the share between them. `idle` are people with nothing to do all day. `remarks`
    say how the plan came about. `small` are small jobs for whoever is left, `pauses` the breaks of
    the day from `opens` on, `hours` from when till when those are here who are not here all of it.
    `changes` against the plan that was running, in the order of the day.
    """

    opens: datetime
    closes: datetime
    people: tuple[str, ...]
    placed: tuple[Placed, ...]
    not_placed: tuple[NotPlaced, ...]
    idle: tuple[str, ...]
    by: By
    value: int
    bound: int
    remarks: tuple[str, ...] = ()
    small: tuple[SmallJob, ...] = ()
    pauses: tuple[Pause, ...] = ()
    hours: Mapping[str, tuple[datetime, datetime]] = {}
    changes: tuple[Otherwise, ...] = ()

    @property
    def gap(self) -> float:
        """How much better the best plan might be at most, 0 to 1; 0 is proven best."""
        return (self.bound - self.value) / self.bound if self.bound else 0.0
