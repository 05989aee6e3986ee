"""Where a task can stand, in the words that people read; the board works it out
(`order/board.py`). Here because a kind of entry says in which of these states it is offered.
"""

from typing import Literal

State = Literal[
    "under way", "ready", "on hold", "needs supplies", "waiting", "finished", "set aside"
]
# Work that cannot begin: a hold is on it, it has not all its supplies, or something comes first.
NOT_YET: tuple[State, ...] = ("on hold", "needs supplies", "waiting")
STATES: tuple[State, ...] = ("under way", "ready", *NOT_YET, "finished", "set aside")
