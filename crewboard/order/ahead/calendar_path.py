"""The critical path in calendar time: when everything can and must happen, waiting included.

Work happens while the shop is open; holds run through the days without work. The forward and the
backward pass are those of the critical path method (Kelley and Walker 1959), with the waits as
lags between a finish and the starts behind it. No crew is rationed here: the dates are the
earliest there can be. A task that is set aside takes no time; what stands behind one is `blocked`.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime, timedelta
from functools import lru_cache
from typing import NamedTuple

from crewboard.order.ahead.effort import usual_hours, working_minutes
from crewboard.order.ahead.quorum import quorums
from crewboard.order.ahead.waits import HoldLengths, free_from, hold_over
from crewboard.order.ahead.work_time import DAY, WorkTime
from crewboard.order.board import Board


class Times(NamedTuple):
    """Earliest and latest moments of a task or component.

    `clear` is when its hold is over too, at the earliest. `slack` is working time: nought or less
    and any delay delays the vehicle, or breaks a date.
    """

    start: datetime
    finish: datetime
    clear: datetime
    latest_start: datetime
    latest_finish: datetime
    slack: timedelta

    @property
    def critical(self) -> bool:
        return self.slack <= timedelta()


class CalendarPath:
    """Earliest and latest times of everything still to do; see `calendar_path`.

    The dictionaries go from node (task or gate) to minutes of `time`.
    """

    __slots__ = (
        "blocked",
        "board",
        "clear",
        "done",
        "end",
        "free",
        "latest",
        "latest_clear",
        "lengths",
        "quorums",
        "start",
        "time",
        "usual",
        "work",
    )

    def __init__(self, board: Board) -> None:
        self.board = board
        self.time = WorkTime(board.plan.vehicle.work_days, board.at, board.openings)
        self.lengths = HoldLengths(board.plan.clock, self.time)
        self.usual = usual_hours(board.plan)
        self.quorums = quorums(board)
        self.start: dict[str, int] = {}
        self.done: dict[str, int] = {}  # finished
        self.clear: dict[str, int] = {}  # and its hold over
        self.work: dict[str, int] = {}  # working minutes to go
        self.free: dict[str, int] = {}  # before when it cannot begin, whatever comes before
        self.blocked: set[str] = set()
        self._forward()
        self.end = max(self.clear.values(), default=self.time.now)
        self.latest: dict[str, int] = {}  # latest finish
        self.latest_clear: dict[str, int] = {}
        self._backward()

    # --- forward -------------------------------------------------------------------------------

    def _forward(self) -> None:
        board, time = self.board, self.time
        before, clear, done = board.order.before, self.clear, self.done
        blocked = self.blocked
        for node in board.order.sequence:
            if self._is_blocked(node, before[node]):
                blocked.add(node)
            if self.passes_on(node):
                done[node], clear[node] = self.passed_at(node, done, clear)
            elif (standing := board[node]).work_done:
                done[node], clear[node] = 0, self.held_until(node)
            else:
                if standing.state == "set aside":
                    blocked.add(node)
                self.work[node] = working_minutes(standing, self.usual)
                self.free[node] = free_from(board, time, standing)
                ready = self.ready_at(node, done, clear)
                start, finish, over = self.placed(node, ready)
                self.start[node], done[node], clear[node] = start, finish, over

    def _is_blocked(self, node: str, before: Sequence[str]) -> bool:
        quorum = self.quorums.get(node)
        if quorum is None:
            return bool(self.blocked) and not self.blocked.isdisjoint(before)
        return quorum.short or len({*quorum.of} - self.blocked) < quorum.need

    def passes_on(self, node: str) -> bool:
        """Whether it takes no time, but what comes before it stands before what is behind it: a
        gate, or work that was finished before something earlier was opened again."""
        standing = self.board.standings.get(node)
        return standing is None or (standing.work_done and bool(standing.open_again))

    def passed_at(
        self, node: str, done: Mapping[str, int], clear: Mapping[str, int]
    ) -> tuple[int, int]:
        """When a node that only passes on is done, and when no hold before or on it runs."""
        held, quorum = self.held_until(node), self.quorums.get(node)
        if quorum is not None:
            return quorum.passed_at(done), max(held, quorum.passed_at(clear))
        before = self.board.order.before[node]
        return max([done[b] for b in before], default=0), max([held, *(clear[b] for b in before)])

    def held_until(self, node: str) -> int:
        """When the holds on a task or closing gate let go, as far as can be known now; else 0."""
        holds = self.board.readiness.holds.behind.get(node, ())
        return max([hold_over(self.time, hold) for hold in holds], default=0)

    def ready_at(self, task: str, done: Mapping[str, int], clear: Mapping[str, int]) -> int:
        """When the work before a task lets it begin."""
        order = self.board.order
        allowed = order.during.get(task)
        if allowed is None:
            return max([clear[b] for b in order.before[task]], default=0)
        earlier = order.right_before(task, self.quorums)
        shut = [self.quorums[e] for e in earlier if e in self.quorums]
        seen = [e for e in earlier if e in order.tasks]
        over = {
            one: done[one] if one in allowed else clear[one]
            for one in (*seen, *(one for quorum in shut for one in quorum.of))
        }
        ends = [over[e] for e in seen] + [quorum.passed_at(over) for quorum in shut]
        gates = [self.held_until(e) for e in earlier if e not in order.tasks and e not in allowed]
        return max(ends + gates, default=0)

    def placed(self, task: str, ready: int) -> tuple[int, int, int]:
        """Start, finish and end of the hold of a task that may begin at `ready`."""
        standing = self.board.standings[task]
        earliest = max(ready, self.free[task])
        if standing.state == "set aside":
            return earliest, earliest, earliest
        if standing.begun is None or earliest > self.time.now:
            earliest = self.time.open_from(earliest)
        finish = self.time.finish(earliest, self.work[task])
        hold = standing.task.hold
        if hold is None:
            return min(earliest, finish), finish, finish
        over = self.lengths.ends(hold, finish, look=self.board.rules.will_ask(hold))
        return min(earliest, finish), finish, over

    # --- backward ------------------------------------------------------------------------------

    def _backward(self) -> None:
        order = self.board.order
        latest_clear = self.latest_clear
        latest_start: dict[str, int] = {}
        by_done: dict[str, int] = {}  # limits from the tasks that may begin during its hold
        by_clear: dict[str, int] = {}  # and from their other predecessors
        bound: dict[str, frozenset[str]] = {}  # gate -> whom it needs to be passed in time
        for node in reversed(order.sequence):
            over = by_clear.pop(node, self.end)
            for follower in order.behind[node]:
                if follower in bound and node not in bound[follower]:
                    continue
                if follower in latest_start:
                    if follower not in order.during:
                        over = min(over, latest_start[follower])
                elif self.passes_on(follower):
                    over = min(over, latest_clear[follower])
            if node not in self.work:
                latest_clear[node] = min(over, by_done.pop(node, over))
                if quorum := self.quorums.get(node):
                    bound[node] = quorum.bound(self.clear, latest_clear[node])
                continue
            latest_clear[node] = over
            self.latest[node] = self._latest_finish(node, over, by_done.pop(node, self.end))
            begin = self.time.latest_start(self.latest[node], self.work[node])
            latest_start[node] = begin
            allowed = order.during.get(node)
            if allowed is not None:
                for earlier in self._bound_by(node, begin):
                    limits = by_done if earlier in allowed else by_clear
                    limits[earlier] = min(begin, limits.get(earlier, begin))

    def _bound_by(self, task: str, begin: int) -> Iterator[str]:
        """The tasks right before one that goes on while holds before it run, without which it
        could not begin by then."""
        order, allowed = self.board.order, self.board.order.during[task]
        for earlier in order.right_before(task, self.quorums):
            if earlier in order.tasks:
                yield earlier
            elif quorum := self.quorums.get(earlier):
                over = self.done if allowed.issuperset(quorum.of) else self.clear
                yield from quorum.bound(over, begin)

    def _latest_finish(self, node: str, over: int, done: int) -> int:
        """By when a task must be finished, its hold being over by `over`."""
        standing = self.board.standings[node]
        by = over
        hold = standing.task.hold
        if hold is not None and standing.state != "set aside":
            look = self.board.rules.will_ask(hold)
            by = self.lengths.latest_finish(hold, over, look=look)
        if standing.task.due is not None:
            day = (standing.task.due - self.time.base.date()).days
            by = min(by, (day + 1) * DAY)
        return min(by, done)

    # --- answers -------------------------------------------------------------------------------

    @property
    def finish(self) -> datetime:
        """When the whole vehicle is finished at the earliest, its holds over."""
        return self.time.moment(self.end)

    def slack(self, task: str) -> int:
        """Working minutes by which the task may be later."""
        return self.time.worked_by(self.latest[task]) - self.time.worked_by(self.done[task])

    def of_task(self, task: str) -> Times | None:
        """The times of a task, None where its work is done. Raises KeyError if unknown."""
        if self.board.standings[task].work_done:
            return None
        moment = self.time.moment
        return Times(
            moment(self.start[task]),
            moment(self.done[task]),
            moment(self.clear[task]),
            moment(self.time.latest_start(self.latest[task], self.work[task])),
            moment(self.latest[task]),
            timedelta(minutes=self.slack(task)),
        )

    def of_component(self, component: str) -> Times | None:
        """The times of a component with its parts, None where no work is left in it.

        Its slack is the least of its tasks'.
        """
        parts = self.board.plan.with_parts(component)
        inside = [t for t in self.work if self.board.plan.tasks[t].component in parts]
        if not inside:
            return None
        moment = self.time.moment
        return Times(
            moment(min(self.start[t] for t in inside)),
            moment(max(self.done[t] for t in inside)),
            moment(max(self.clear[t] for t in inside)),
            min(times.latest_start for t in inside if (times := self.of_task(t))),
            moment(max(self.latest[t] for t in inside)),
            timedelta(minutes=min(self.slack(t) for t in inside)),
        )

    def critical(self) -> list[str]:
        """The tasks without slack, in an order in which they can be worked."""
        sequence = self.board.order.sequence
        return [node for node in sequence if node in self.work and self.slack(node) <= 0]

    def chain(self) -> list[str]:
        """The longest chain of work and waiting, first to last: each begins when the one before
        it lets it. Empty when no work is left."""
        last = max(self.work, key=lambda task: self.clear[task], default=None)
        chain: list[str] = []
        while last is not None:
            chain.append(last)
            last = self._holding_back(last)
        return chain[::-1]

    def _holding_back(self, task: str) -> str | None:
        """The unfinished task before it that is clear last; None where none comes into it."""
        allowed = self.board.order.during.get(task, frozenset())
        order = self.board.order
        earlier = order.right_before(task, self.quorums)
        near = {
            e: self.done[e] if e in allowed else self.clear[e] for e in earlier if e in order.tasks
        }
        for gate in (e for e in earlier if e in self.quorums):
            of = {e: self.done[e] if e in allowed else self.clear[e] for e in self.quorums[gate].of}
            by = self.quorums[gate].passed_at(of)
            near |= {e: moment for e, moment in of.items() if moment <= by}
        over = {e: moment for e, moment in near.items() if e in self.work}
        if not over or max(over.values()) < self.free[task]:
            return None
        return max(over, key=lambda task_id: over[task_id])

    def late_for_due(self) -> list[str]:
        """Tasks that cannot be finished by their date."""
        return [
            task
            for task in self.work
            if (due := self.board.plan.tasks[task].due) is not None
            and self.time.moment(self.done[task]).date() > due
        ]


@lru_cache(maxsize=2)
def calendar_path(board: Board) -> CalendarPath:
    """Earliest and latest start and finish, slack, for all that is still to do."""
    return CalendarPath(board)
