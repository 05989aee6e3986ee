"""From the board to the remaining job in arrays."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crewboard.order.ahead.calendar_path import CalendarPath, calendar_path
from crewboard.order.ahead.effort import hours_left
from crewboard.order.ahead.waits import free_from
from crewboard.order.ahead.work_time import DAY
from crewboard.order.board import Board, Standing
from crewboard.order.forecast.attendance import attendance
from crewboard.order.forecast.delays import delays
from crewboard.order.forecast.graph import Graph
from crewboard.order.forecast.model import Attendance, Delays, Model, Pace, Work
from crewboard.order.forecast.pace import pace
from crewboard.order.forecast.pert_table import table_number
from crewboard.order.forecast.unknown import of_unknown
from crewboard.order.forecast.who_may import Crew
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.order.supplies import expected_by
from crewboard.order.within import comes_after
from crewboard.plan.hold import KINDS, Hold
from crewboard.plan.plan import Plan
from crewboard.plan.task import Estimate, Task

# Of how many people a task can make use where the plan does not say: a second pair of hands.
HANDS = 2
# A supply that is not ordered and has no lead time: days, as unsure as that sounds.
UNKNOWN_LEAD = 21
# A crew does not always take up what is most pressing: at most this share of the tasks is taken up
# whenever somebody likes (common sense, no source).
STRAYS = 0.5


def remaining(
    board: Board,
    *,
    crew_as: Crew | None = None,
    attendance_as: Attendance | None = None,
    pace_as: Pace | None = None,
    delays_as: Delays | None = None,
    strays: float = STRAYS,
) -> Model:
    """The job that is left at the board's moment.

    The crew, and what the logbook tells of attendance, pace and delays, can be replaced by others.
    """
    path = calendar_path(board)
    crew = crew_as or Crew(board)
    tasks = _by_latest_start(board, path)
    number = {name: place for place, name in enumerate(tasks)}
    passed = [n for n in board.order.sequence if n not in number and _passes(board, path, n)]
    number |= {name: len(tasks) + place for place, name in enumerate(passed)}
    graph = Graph(board, path, number)
    room = _Room(board, tasks)
    supplies = {s: n for n, s in enumerate(board.plan.supplies)}
    alone = WaitWhileHeld(board.plan, tasks, board.order)
    unknown = of_unknown(board.plan)
    work = tuple(
        _work(board, path, crew, board[name], room, alone, supplies, unknown) for name in tasks
    )
    in_files = [number[n] for n in board.standings if n in number and number[n] < len(tasks)]
    return Model(
        board.at,
        board.openings,
        board.plan.vehicle.work_days,
        board.plan.clock,
        tuple(tasks),
        work,
        tuple(in_files),
        graph.clear,
        graph.done,
        graph.waits,
        graph.earliest,
        tuple(n for n, name in enumerate(tasks) if board[name].state == "under way"),
        graph.closings,
        graph.settled,
        attendance_as or attendance(board, crew.order),
        pace_as or pace(board),
        delays_as or delays(board),
        graph.counted,
        room.numbers,
        tuple(room.taken(path)),
        tuple(n for n, name in enumerate(tasks) if room.has_jigs(name)),
        frozenset(n for n, task in enumerate(_plans(board, tasks)) if _follows(board, task)),
        strays,
    )


def _plans(board: Board, tasks: Iterable[str]) -> Iterable[Task]:
    return (board.plan.tasks[name] for name in tasks)


def _passes(board: Board, path: CalendarPath, node: str) -> bool:
    """Gates, tasks set aside and what was finished before something earlier was opened again take
    no time, but the order runs through them."""
    return path.passes_on(node) or board[node].state == "set aside"


def _by_latest_start(board: Board, path: CalendarPath) -> list[str]:
    """The tasks that need work, by the latest start rule; the order of the files breaks ties."""
    names = [n for n in board.standings if n in path.work and board[n].state != "set aside"]
    return sorted(names, key=lambda n: path.time.latest_start(path.latest[n], path.work[n]))


def _work(
    board: Board,
    path: CalendarPath,
    crew: Crew,
    standing: Standing,
    room: _Room,
    alone: WaitWhileHeld,
    supplies: dict[str, int],
    unknown: Estimate,
) -> Work:
    task, hold = standing.task, standing.task.hold
    estimate = task.estimate or unknown
    overran = standing.ask_left or (standing.left is None and standing.hours >= path.usual)
    course = board.history.courses.get(task.id)
    said = course is not None and course.left is not None
    least = crew.least(task)
    orders, deliveries = _supplies(board, standing, supplies)
    return Work(
        estimate.low * 60,
        (estimate.high - estimate.low) * 60,
        table_number(*estimate),
        standing.hours * 60,
        hours_left(standing, path.usual) * 60 if said or overran else None,
        least,
        max(least, task.most_people or HANDS),
        crew.allowed(task),
        crew.covers(task),
        room.of_place(task),
        free_from(board, path.time, standing, supplies=False),
        hold.lasts if hold else None,
        hold is not None and hold.lasts is None,
        hold is not None and board.rules.will_ask(hold),
        alone.by(task),
        orders,
        deliveries,
        overran,
        room.of_jigs(task),
        task.in_one_go,
    )


def _supplies(
    board: Board, standing: Standing, supplies: dict[str, int]
) -> tuple[tuple[tuple[int, int], ...], tuple[tuple[int, int], ...]]:
    """(number, lead time) of what nobody has ordered; (number, minutes till due) of the rest."""
    orders: list[tuple[int, int]] = []
    deliveries: list[tuple[int, int]] = []
    today = board.at.date()
    for supply_id in standing.short_of:
        account = board.stock[supply_id]
        day = expected_by(board.plan, account, today)
        days = (day - today).days if day is not None else UNKNOWN_LEAD
        wait = (supplies[supply_id], max(0, days) * DAY)
        (orders if account.unordered else deliveries).append(wait)
    return tuple(orders), tuple(deliveries)


def _follows(board: Board, task: Task) -> bool:
    """Whether the task has to follow any other soon."""
    return any(comes_after(board.plan, task, named) for named in task.within)


class _Room:
    """Places and jigs as bits, and of how many jobs at a time each has room: a place of one, where
    the plan does not say."""

    def __init__(self, board: Board, tasks: Sequence[str]) -> None:
        self._taken = board.readiness.taken
        self._tasks = frozenset(tasks)
        plans = [board.plan.tasks[name] for name in tasks]
        vehicle = board.plan.vehicle
        places = dict.fromkeys(task.place for task in plans if task.place)
        jigs = dict.fromkeys(jig for task in plans for jig in task.uses)
        self._places = {place: 1 << n for n, place in enumerate(places)}
        self._jigs = {jig: 1 << n for n, jig in enumerate(jigs, len(places))}
        self.numbers = (
            *(vehicle.shop.room.get(place, 1) for place in places),
            *(vehicle.jigs[jig].number for jig in jigs),
        )

    def of_place(self, task: Task) -> int:
        return self._places.get(task.place, 0)

    def of_jigs(self, task: Task) -> int:
        return sum(self._jigs[jig] for jig in dict.fromkeys(task.uses))

    def has_jigs(self, task: str) -> bool:
        """Whether the task has the jigs that it uses already."""
        return any(task in by for by in self._taken.values())

    def taken(self, path: CalendarPath) -> Iterable[tuple[int, int]]:
        """The bits of jigs that the holds of finished work occupy, and until when. What was set
        aside while it had one is left out, like its work."""
        for jig, by in self._taken.items():
            for task in by:
                over = path.held_until(task)
                if over and task not in self._tasks and jig in self._jigs:
                    yield self._jigs[jig], over


class WaitWhileHeld:
    """Which of the remaining tasks must wait while a task's hold runs that wants its component, or
    the pieces that it was done to, left alone. Those of one component are gathered once, however
    many such tasks it has."""

    def __init__(self, plan: Plan, tasks: Sequence[str], order: OrderOfWork) -> None:
        self._plan = plan
        self._inside: dict[str, list[int]] = {}  # component -> its own remaining tasks
        self._during: dict[str, set[int]] = {}  # task -> those for which its hold need not be over
        self._known: dict[str, tuple[int, ...]] = {}
        self._to_piece: dict[str, list[int]] = {}  # piece -> the remaining tasks done to it
        for number, name in enumerate(tasks):
            self._inside.setdefault(plan.tasks[name].component, []).append(number)
            for piece in plan.tasks[name].pieces:
                self._to_piece.setdefault(piece, []).append(number)
            for earlier in order.during.get(name, ()):
                self._during.setdefault(earlier, set()).add(number)

    def by(self, task: Task) -> tuple[int, ...]:
        """Their numbers; the task itself, whose work is over by then, may be among them."""
        if task.hold is None:
            return ()
        all_inside = self._around(task, task.hold)
        allowed = self._during.get(task.id)
        return tuple(n for n in all_inside if n not in allowed) if allowed else all_inside

    def _around(self, task: Task, hold: Hold) -> tuple[int, ...]:
        if hold.leave_alone and task.component in self._plan.components:
            return self._with_parts(task.component)
        if KINDS[hold.kind].awaited or not task.pieces:
            return ()
        return tuple({n: None for piece in task.pieces for n in self._to_piece[piece]})

    def _with_parts(self, component: str) -> tuple[int, ...]:
        if component not in self._known:
            parts = self._plan.with_parts(component)
            numbers = sorted(n for part in parts for n in self._inside.get(part, ()))
            self._known[component] = tuple(numbers)
        return self._known[component]
