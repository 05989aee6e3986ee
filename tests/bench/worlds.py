"""Kinds of invented worlds, most of which differ from what the forecast supposes.

Every number in them is invented, and none is drawn in the way in which the forecast draws it.
"""

from __future__ import annotations

from typing import Literal, NamedTuple


class World(NamedTuple):
    """What is other than in the plain world.

    `found`: hours of work found on the way for each hour of the plan as first written. `groups`:
    people come in groups (see `invented_people`). `practice`: hours fall with the tasks done.
    """

    name: str
    says: str
    tail: Literal["", "log-normal", "pareto"] = ""
    groups: bool = False
    practice: bool = False
    found: float = 0.0

    @property
    def rate(self) -> float:
        """Hours found for each hour finished, found work included, which brings found work too."""
        return self.found / (1 + self.found)


WORLDS = (
    World("plain", "as the forecast supposes, but for how people pick their work"),
    World("heavy", "hours log-normal with 0.8, deliveries with 0.6", tail="log-normal"),
    World("pareto", "some tasks take many times their hours (Pareto, 2.5)", tail="pareto"),
    World("groups", "winters, holidays, days for few, people who leave and join", groups=True),
    World("practice", "hours fall to about half by practice", practice=True),
    World("found 20", "a fifth more work is found on the way", found=0.2),
    World("found 45", "nearly half as much again is found on the way", found=0.45),
    World("all", "all of it together, with 30 % found", "log-normal", True, True, 0.3),
)
KINDS = {world.name: world for world in WORLDS}
