"""What the lead wished of a plan for the day, and the values that the proposal is made of."""

from __future__ import annotations

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
    """People on a task from `start` to `end`. `finishes`: its likely hours are done by then."""

    task: str
    people: tuple[str, ...]
    start: datetime
    end: datetime
    finishes: bool


class NotPlaced(NamedTuple):
    """A task that can be worked on and found no place in the day, and why."""

    task: str
    why: str


class DayPlan(NamedTuple):
    """Who does what and when. It decides nothing: the lead does, and the checks are signed first.

    `value` is what the plan is worth by what goes first, `bound` what no plan can be worth more
    than; `gap` the share between them. `idle` are people with nothing to do all day. `remarks`
    say how the plan came about.
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

    @property
    def gap(self) -> float:
        """How much better the best plan might be at most, 0 to 1; 0 is proven best."""
        return (self.bound - self.value) / self.bound if self.bound else 0.0
