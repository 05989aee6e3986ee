"""Holds that nobody needs to look at any more: work behind them was begun after their time.

Whoever began it has looked. Only a hold that the plan lets end by itself is answered so.
"""

from collections.abc import Mapping
from datetime import datetime

from crewboard.order.history import History
from crewboard.order.holds.running import StandingHold
from crewboard.order.sequence.graph import OrderOfWork


class LastBegun:
    """When work was begun behind each task and gate, gates seen through; worked out once."""

    def __init__(self, order: OrderOfWork, history: History) -> None:
        self._order = order
        self._at = {
            task: course.begun.at
            for task, course in history.courses.items()
            if course.begun is not None and task in order.tasks
        }
        self._behind: Mapping[str, datetime] | None = None

    def since(self, hold: StandingHold) -> bool:
        """Whether work right behind the hold was begun after its time; not what may be worked
        during it."""
        if hold.until is None or hold.task not in self._order.behind or not self._at:
            return False
        if self._behind is None:
            self._behind = self._last_behind()
        return self._behind.get(hold.task, datetime.min) >= hold.until

    def _last_behind(self) -> dict[str, datetime]:
        """For each node the last begin of a task right behind it."""
        order, last = self._order, dict[str, datetime]()
        apart = [task for task in self._at if task in order.during]
        for node in reversed(order.sequence):
            begins = [
                last.get(b, datetime.min) if b not in order.tasks else self._at[b]
                for b in order.behind[node]
                if b not in order.tasks or (b in self._at and b not in order.during)
            ]
            if begins:
                last[node] = max(begins)
        for task in apart:  # behind some of what comes before it only when their holds are over
            for earlier in order.tasks_right_before(task):
                if earlier not in order.during[task]:
                    last[earlier] = max(self._at[task], last.get(earlier, datetime.min))
        return last
