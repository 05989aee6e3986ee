"""What goes first: the work whose waiting would make the whole vehicle latest.

Holds run while nobody is there. So a short task that starts a long hold on the longest chain comes
before a long one that nothing waits for: each task that can be worked on is asked how much later
the vehicle would be if it waited for the next work day.
"""

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any, NamedTuple

from crewboard.order.ahead.calendar_path import CalendarPath, calendar_path
from crewboard.order.ahead.effort import crew_on, hours_left
from crewboard.order.board import Board
from crewboard.order.holds.words import outside_in_words
from crewboard.order.may.day import PeopleOfTheDay
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.reasons.onward import counts_behind, lets_go
from crewboard.order.said import day_in_words, how_long, how_many
from crewboard.order.sequence.passing import LaidOver
from crewboard.order.within import MustFollow, must_follow
from crewboard.order.within_words import by_in_words
from crewboard.plan.duration import Duration
from crewboard.plan.hold import KINDS
from crewboard.plan.task import Task


class First(NamedTuple):
    """One task that can be worked on, and why it comes where it comes.

    `delay`: how much later the whole vehicle would be if the task waited for the next work day.
    `behind` counts the unfinished tasks that wait behind it, `lets_go` are the ids of those that
    its finish lets go (after its hold, where it has one). `finish_today`: its hold should run till
    the crew meets again, and the day is long enough. `slack` is working time; `for_date` that
    waiting would break a fixed date. `follow` says that it has to be begun soon after other work,
    and until when. `against` is why nobody who is here or expected may do it now,
    `not_today` the same in words; both are empty where somebody may.
    """

    task: str
    delay: timedelta
    behind: int
    lets_go: tuple[str, ...]
    finish_today: bool
    slack: timedelta
    for_date: bool
    says: str
    against: tuple[Obstacle, ...] = ()
    not_today: str = ""
    follow: MustFollow | None = None


def what_goes_first(board: Board, path: CalendarPath | None = None) -> list[First]:
    """The tasks ready or under way, the most pressing first; below them what nobody may do now.

    By `RULES`: what has to follow other work soon, then the delay, then fixed dates that waiting
    would break, then what waits behind, then slack, then the order of the files. `path` where it
    was worked out before for this board.
    """
    path = path or calendar_path(board)
    candidates = [s.task for s in board.in_state("ready", "under way")]
    behind = counts_behind(board)
    delays = _Delays(path)
    people = PeopleOfTheDay(board)
    following = must_follow(board)
    found = []
    for task in candidates:
        delay, for_date = delays.of(task)
        against = people.against(task)
        today = not against and _should_end_today(board, path, task, behind[task.id])
        first = First(
            task.id,
            timedelta(minutes=delay),
            behind[task.id],
            lets_go(board, task.id),
            today,
            timedelta(minutes=path.slack(task.id)),
            for_date,
            "",
            against,
            _not_today(board, against),
            following.get(task.id),
        )
        found.append(first._replace(says=_says(board, task, first)))
    return sorted(found, key=lambda first: [rule(first) for rule in RULES])


Rule = Callable[[First], Any]  # what it gives can be sorted: the least stands first
# The first rule that tells two tasks apart decides; where none does, the order of the files.
RULES: list[Rule] = [
    lambda first: bool(first.against),
    lambda first: first.follow.by if first.follow else datetime.max,
    lambda first: -first.delay,
    lambda first: not first.for_date,
    lambda first: -first.behind,
    lambda first: first.slack,
]


def _not_today(board: Board, against: tuple[Obstacle, ...]) -> str:
    if not against:
        return ""
    from crewboard.order.may.short import not_today

    return not_today(board, against)


class _Delays:
    """How much later the vehicle gets when one task waits for the next work day."""

    def __init__(self, path: CalendarPath) -> None:
        self.path = path
        time = path.time
        self.next_day = time.next_day(time.open_from(time.now))
        self.place = {node: number for number, node in enumerate(path.board.order.sequence)}
        self._known: dict[tuple[tuple[str, ...], int, int, int, int], int] = {}
        during = path.board.order.during
        self._behind_during: dict[str, list[str]] = {}
        for task in during:
            for each in path.board.order.tasks_right_before(task):
                self._behind_during.setdefault(each, []).append(task)

    def of(self, task: Task) -> tuple[int, bool]:
        """Minutes of delay, and whether waiting would break a fixed date that can be kept."""
        path = self.path
        _, done, clear = path.placed(task.id, self.next_day)
        if done <= path.latest[task.id]:
            return 0, False
        late = path.slack(task.id) >= 0
        if task.id in self._behind_during:
            end = self._pushed(task.id, done, clear)
        else:
            # Of what less than all is enough for, it matters by when it would else be over.
            before = (path.done[task.id], path.clear[task.id]) if path.quorums else (0, 0)
            key = (path.board.order.behind[task.id], done, clear, *before)
            if key not in self._known:
                self._known[key] = self._pushed(task.id, done, clear)
            end = self._known[key]
        delay = max(0, end - path.end)
        return delay, late and delay == 0

    def _pushed(self, task: str, done_at: int, clear_at: int) -> int:
        """The vehicle's finish when a task ends then: only what moves is worked out again."""
        from heapq import heappop, heappush

        path, order = self.path, self.path.board.order
        done = LaidOver(path.done)
        clear = LaidOver(path.clear)
        done[task], clear[task] = done_at, clear_at
        end = max(path.end, clear_at)
        ahead: list[tuple[int, str]] = []
        asked: set[str] = set()

        def ask(node: str) -> None:
            for each in (*order.behind[node], *self._behind_during.get(node, ())):
                if each not in asked:
                    asked.add(each)
                    heappush(ahead, (self.place[each], each))

        ask(task)
        while ahead:
            node = heappop(ahead)[1]
            if node in path.work:
                _, finish, over = path.placed(node, path.ready_at(node, done, clear))
            elif path.passes_on(node):
                finish, over = path.passed_at(node, done, clear)
            else:
                continue
            if finish > path.done[node] or over > path.clear[node]:
                done[node], clear[node] = finish, over
                end = max(end, over)
                ask(node)
        return end


def _should_end_today(board: Board, path: CalendarPath, task: Task, behind: int) -> bool:
    """A hold that others wait for could run from today on instead of from the next work day."""
    if task.hold is None or task.hold.lasts is None or not behind or not board.openings:
        return False
    if _stopped(board, task):
        return False
    time = path.time
    opening = time.day_from(time.now)
    if time.opens[opening] >= 1440:
        return False
    today = time.closes[opening] - max(time.now, time.opens[opening])
    standing = board[task.id]
    people = max(crew_on(standing), task.most_people or 1)
    left = hours_left(standing, path.usual)
    return left / people * 60 <= today


def _stopped(board: Board, task: Task) -> str:
    """What the last reading has against the clock of the hold that its finish would start."""
    conditions = task.hold.conditions if task.hold is not None else None
    air = board.rules.air.outside(conditions, board.at) if conditions else None
    return outside_in_words(air, board.plan.vehicle.units) if air is not None else ""


def _says(board: Board, task: Task, first: First) -> str:
    parts = []
    if first.follow is not None and not first.follow.late:
        parts.append(f"to be begun {by_in_words(board, first.follow)}")
    if task.hold is not None:
        span = _as_adjective(task.hold.lasts) if task.hold.lasts else ""
        what = f"{span} {KINDS[task.hold.kind].noun}".lstrip()
        stopped = _stopped(board, task)
        still = f", whose clock stands still: {stopped}" if stopped else ""
        parts.append(f"starts {_article(what)} {what}{still}")
    if first.behind:
        waits = "waits" if first.behind == 1 else "wait"
        parts.append(f"{how_many(first.behind, 'task')} {waits} behind it")
    elif task.hold is None:
        parts.append("nothing waits behind it")
    if first.for_date and task.due is not None:
        parts.append(f"must be finished by {day_in_words(task.due)}")
    elif first.for_date:
        parts.append("a fixed date behind it would be missed")
    if first.delay:
        parts.append(f"waiting makes the vehicle {how_long(first.delay)} later")
    return "; ".join(parts)


def _as_adjective(span: Duration) -> str:
    """ "36 hours" as it stands before a noun: "36-hour"."""
    return "-".join(word.removesuffix("s") for word in str(span).split())


def _article(word: str) -> str:
    return "an" if word[0] in "aeiou8" or word.startswith(("11 ", "18 ")) else "a"
