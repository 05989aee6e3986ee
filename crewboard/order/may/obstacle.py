"""One reason why people may not do a task, as data. Its words are in `words.py`."""

from datetime import datetime
from typing import Literal, NamedTuple

from crewboard.order.holds.shop_air import Outside

About = Literal["task", "people", "moment"]
# Of whom a reason speaks: of those named for the task, of those of the day, of the whole crew.
Among = Literal["named", "today", "crew"]


class Sort(NamedTuple):
    """What is common to the reasons of one code.

    `about` the moment: it could pass by itself today. `yields` to a named person's reason: good
    practice asks, safety refuses.
    """

    about: About
    yields: bool = False


CODES: dict[str, Sort] = {
    # where the task stands in the order of work
    "finished": Sort("task"),
    "set-aside": Sort("task"),
    "under-way": Sort("task"),
    "waiting": Sort("task", yields=True),
    "held": Sort("task", yields=True),
    "open-again": Sort("task", yields=True),
    "held-again": Sort("task", yields=True),
    "supply": Sort("task", yields=True),
    # who is to do it
    "who": Sort("people"),
    "under-18": Sort("people"),
    "certificate": Sort("people"),
    "away": Sort("people"),
    "people": Sort("people"),
    "signer": Sort("people"),
    "beside": Sort("people", yields=True),
    "few": Sort("people", yields=True),
    "many": Sort("people", yields=True),
    "skill": Sort("people", yields=True),
    "not-with-us": Sort("people", yields=True),
    # when it is to be done
    "day-closed": Sort("moment"),
    "near": Sort("moment"),
    "clock": Sort("moment"),
    "too-late": Sort("moment"),
    "entry": Sort("moment", yields=True),
    "air": Sort("moment", yields=True),
    "unsigned": Sort("moment"),
}


class Obstacle(NamedTuple):
    """One reason. Only the fields that the code speaks of are filled; ids throughout.

    `task` is the other task concerned (that is under way near, whose clock runs), `other` its
    hazard. `until` is when it passes by itself, None where that is not known. `needed` and `there`
    are numbers of people. `strict`: the work is dangerous, so that even what usually asks refuses.
    """

    code: str
    people: tuple[str, ...] = ()
    among: Among = "named"
    task: str = ""
    hazard: str = ""
    other: str = ""
    check: str = ""
    certificate: str = ""
    skill: str = ""
    clock: str = ""
    supplies: tuple[str, ...] = ()
    holds: tuple[str, ...] = ()
    until: datetime | None = None
    needed: int = 0
    there: int = 0
    strict: bool = False
    air: Outside | None = None  # what the last reading says against it

    @property
    def about(self) -> About:
        return CODES[self.code].about

    @property
    def yields(self) -> bool:
        return CODES[self.code].yields and not self.strict
