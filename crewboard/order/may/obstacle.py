"""One reason why people may not do a task, as data. Its words are in `words.py`."""

from datetime import datetime
from typing import Literal, NamedTuple

from crewboard.order.holds.shop_air import Outside

About = Literal["task", "people", "moment"]
# Whose named reason overrules it: nobody's, that of anyone in the crew, or a lead's alone.
YieldsTo = Literal["nobody", "anyone", "lead"]
# Of whom a reason speaks: of those named for the task, of those of the day, of the whole crew.
Among = Literal["named", "today", "crew"]


class Sort(NamedTuple):
    """What is common to the reasons of one code.

    `about` the moment: it could pass by itself today. It yields to a named person's reason, to a
    lead's only, or to nobody's: good practice asks, safety refuses.
    """

    about: About
    yields_to: YieldsTo = "nobody"


CODES: dict[str, Sort] = {
    # where the task stands in the order of work
    "finished": Sort("task"),
    "set-aside": Sort("task"),
    "under-way": Sort("task"),
    "waiting": Sort("task", "anyone"),
    "open-again": Sort("task", "anyone"),
    "held-again": Sort("task", "anyone"),
    "supply": Sort("task", "anyone"),
    "follows-late": Sort("task", "lead"),
    "unreadable": Sort("task", "lead"),
    "picture": Sort("task", "lead"),
    "kept": Sort("task", "lead"),
    "not-used": Sort("task"),
    # who is to do it
    "who": Sort("people"),
    "under-18": Sort("people"),
    "age": Sort("people"),
    "adult": Sort("people"),
    "watch": Sort("people"),
    "busy": Sort("people", "lead"),
    "alone": Sort("people", "anyone"),
    "certificate": Sort("people"),
    "paper": Sort("people", "lead"),
    "away": Sort("people", "anyone"),
    "people": Sort("people"),
    "signer": Sort("people"),
    "beside": Sort("people", "anyone"),
    "few": Sort("people", "anyone"),
    "many": Sort("people", "anyone"),
    "skill": Sort("people", "anyone"),
    "not-with-us": Sort("people", "anyone"),
    # when it is to be done
    "day-closed": Sort("moment"),
    "together": Sort("task"),
    "finished-without": Sort("moment", "lead"),
    "near": Sort("moment"),
    "place-closed": Sort("moment", "lead"),
    "place-taken": Sort("moment", "lead"),
    "clock": Sort("moment"),
    "no-closing": Sort("moment"),
    "too-late": Sort("moment"),
    "ends-late": Sort("moment", "lead"),
    "entry": Sort("moment", "lead"),
    "air": Sort("moment", "anyone"),
    "room": Sort("moment", "anyone"),
    "temporary": Sort("moment", "anyone"),
    "in-one-go": Sort("moment", "anyone"),
    "half-done": Sort("people", "anyone"),
    "unnamed": Sort("task", "lead"),
    "unopened": Sort("moment"),
    "unsigned": Sort("moment"),
    "waived-by-doer": Sort("moment"),
}


class Obstacle(NamedTuple):
    """One reason. Only the fields that the code speaks of are filled; ids throughout.

    `task` is the other task concerned (that is under way near, whose clock runs), `other` its
    hazard, `tasks` are all where there are several. `until` is when it passes by itself, None where
    that is not known; of work that would end too late `ends` is when that is. `needed` and `there`
    are numbers of people, or of jobs. `strict`: the work is dangerous, so that even what usually
    asks refuses.
    """

    code: str
    people: tuple[str, ...] = ()
    among: Among = "named"
    task: str = ""
    tasks: tuple[str, ...] = ()
    hazard: str = ""
    other: str = ""
    check: str = ""
    word: str = ""  # of the task's title or method, that points to `hazards`
    hazards: tuple[str, ...] = ()
    certificate: str = ""
    skill: str = ""
    clock: str = ""
    pieces: tuple[str, ...] = ()
    supplies: tuple[str, ...] = ()
    holds: tuple[str, ...] = ()
    files: tuple[str, ...] = ()
    until: datetime | None = None
    ends: datetime | None = None
    needed: int = 0
    there: int = 0
    strict: bool = False
    entry: str = ""  # the entry that it is about
    air: Outside | None = None  # what the last reading says against it

    @property
    def about(self) -> About:
        return CODES[self.code].about

    @property
    def yields_to(self) -> YieldsTo:
        return "nobody" if self.strict else CODES[self.code].yields_to

    @property
    def yields(self) -> bool:
        return self.yields_to != "nobody"
