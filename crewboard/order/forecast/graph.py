"""The order of work between numbered nodes, for the forecast."""

from __future__ import annotations

from crewboard.order.ahead.calendar_path import CalendarPath
from crewboard.order.ahead.quorum import Quorum
from crewboard.order.ahead.waits import free_from
from crewboard.order.board import Board
from crewboard.order.forecast.model import Counted
from crewboard.order.sequence.links import closing


class Graph:
    """The order of work between numbered nodes, with what is finished already settled.

    Beside the nodes that have names there is one for each gate of which less than all is enough
    and that is seen through by work which may go on while holds before it run.
    """

    def __init__(self, board: Board, path: CalendarPath, number: dict[str, int]) -> None:
        self._board, self._path, self._number = board, path, number
        self._clear: list[list[int]] = [[] for _ in number]
        self._done: list[list[int]] = [[] for _ in number]
        self._waits = [0] * len(number)
        self._earliest = [0] * len(number)
        self.counted: dict[int, Counted] = {}
        for name, node in number.items():
            self._add(name, node)
        self.clear = tuple(map(tuple, self._clear))
        self.done = tuple(map(tuple, self._done))
        self.waits = tuple(self._waits)
        self.earliest = tuple(self._earliest)
        left = _components_with_work(board, path)
        self.closings = {c: number[closing(c)] for c in board.plan.components if c in left}
        self.settled = {c: path.clear[closing(c)] for c in board.plan.components if c not in left}

    def _add(self, name: str, node: int) -> None:
        board, path = self._board, self._path
        if path.passes_on(name):
            self._not_before(node, path.held_until(name))
        if name in path.quorums:
            self._count(node, path.quorums[name], by_done=False)
        elif (allowed := board.order.during.get(name)) is not None:
            self._add_during(name, node, allowed)
        else:
            for earlier in board.order.before[name]:
                self._link(earlier, node, by_done=False)
        if name in board.standings and board[name].state == "set aside":
            self._not_before(node, free_from(board, path.time, board[name], supplies=False))

    def _add_during(self, name: str, node: int, allowed: frozenset[str]) -> None:
        """Work that goes on while holds before it run: gates are seen through."""
        board, path = self._board, self._path
        for earlier in board.order.right_before(name, path.quorums):
            if earlier in board.plan.tasks:
                self._link(earlier, node, by_done=earlier in allowed)
                continue
            if earlier not in allowed:
                self._not_before(node, path.held_until(earlier))
            if (quorum := path.quorums.get(earlier)) is not None:
                gate = self._new()
                self._count(gate, quorum, by_done=allowed.issuperset(quorum.of))
                self._clear[gate].append(node)
                self._waits[node] += 1

    def _link(self, earlier: str, node: int, *, by_done: bool) -> None:
        if earlier in self._number:
            side = self._done if by_done else self._clear
            side[self._number[earlier]].append(node)
            self._waits[node] += 1
        elif not by_done:
            self._not_before(node, self._path.clear[earlier])

    def _count(self, node: int, quorum: Quorum, *, by_done: bool) -> None:
        """Have the gate wait for so many of these; where all are finished it is known till when."""
        over = self._path.done if by_done else self._path.clear
        of = tuple(self._number[one] for one in quorum.of if one in self._number)
        known = tuple(over[one] for one in quorum.of if one not in self._number)
        if of and quorum.need:
            self.counted[node] = Counted(quorum.need, of, known, by_done)
            self._waits[node] = len(of)
        else:
            self._not_before(node, quorum.passed_at(over))

    def _new(self) -> int:
        for lists in (self._clear, self._done):
            lists.append([])
        for numbers in (self._waits, self._earliest):
            numbers.append(0)
        return len(self._waits) - 1

    def _not_before(self, node: int, minute: int) -> None:
        self._earliest[node] = max(self._earliest[node], minute)


def _components_with_work(board: Board, path: CalendarPath) -> set[str]:
    components: set[str] = set()
    for name in path.work:
        above = board.plan.tasks[name].component
        while above in board.plan.components and above not in components:
            components.add(above)
            above = board.plan.components[above].part_of
    return components
