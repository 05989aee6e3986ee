"""Gates that are passed when enough of what is before them is over, as one course goes on."""

from __future__ import annotations

from bisect import insort
from typing import NamedTuple

from crewboard.order.forecast.model import Model


class Passing(NamedTuple):
    """When a gate is passed as far as is known now, and by which node. `surely`: nothing that is
    still to come can make that earlier."""

    gate: int
    minute: float
    by: int
    surely: bool


class Counts:
    """What was counted so far. Moments of nodes are handed in as they become known, in any order.

    `gates_of`: node -> the gates that count it.
    """

    __slots__ = ("_model", "_over", "_to_come", "gates_of")

    def __init__(self, model: Model) -> None:
        self._model = model
        self.gates_of: dict[int, list[int]] = {}
        self._over: dict[int, list[tuple[float, int]]] = {}
        self._to_come: dict[int, int] = {}
        for gate, counted in model.counted.items():
            self._over[gate] = sorted((float(minute), -1) for minute in counted.known)
            self._to_come[gate] = len(counted.of)
            for node in counted.of:
                self.gates_of.setdefault(node, []).append(gate)

    def known(self) -> list[Passing]:
        """The gates for which enough is finished already."""
        return [passing for gate in self._over if (passing := self._passing(gate))]

    def add(self, gate: int, node: int, done: float, clear: float) -> Passing | None:
        """Count a node that is over then; None where that is not enough yet."""
        moment = done if self._model.counted[gate].by_done else clear
        insort(self._over[gate], (moment, node))
        self._to_come[gate] -= 1
        return self._passing(gate)

    def _passing(self, gate: int) -> Passing | None:
        over, need = self._over[gate], self._model.counted[gate].need
        if len(over) < need:
            return None
        minute, by = over[need - 1]
        return Passing(gate, minute, by, not self._to_come[gate])
