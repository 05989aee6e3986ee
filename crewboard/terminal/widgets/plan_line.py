"""One line of the plan that was taken over: what should be begun now, and what comes next."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.order.day_plan.taken_over import Turn
from crewboard.order.said import how_many, short_names
from crewboard.telling.by_plan import NEXT, NOW, by_plan, title_of
from crewboard.terminal.cells import cell_len, shortened
from crewboard.terminal.widgets.edges import EdgeLine, Wording

_NAMES = (60, 40, 32, 26, 20, 16)  # cells of a title where not all find room, the longest first


class PlanLine(EdgeLine):
    """Who should begin what, by first names; what finds no room is counted."""

    def show(self, board: Board) -> int:
        """Show the line where there is something to say; how many lines that takes."""
        nothing = not any(by_plan(board))
        self.set_class(nothing, "-nothing")
        self.refresh()
        return int(not nothing)

    def pieces(self) -> Iterable[Wording]:
        told = by_plan(self.board_app.board)
        room = self.size.width - 2
        if told.now:
            room -= cell_len(NOW) + 4
            half = room if not told.coming else room // 2
            words = self._fitted(told.now, half, timed=False)
            if words is None:
                words = f"{how_many(len(told.now), 'task')} to begin"
            yield Wording(NOW, "must", bold=True)
            yield Wording(words, "must")
            room -= cell_len(words)
        if told.coming:
            room -= cell_len(NEXT) + 2
            words = self._fitted(told.coming, room, timed=True)
            yield Wording(NEXT, "faint", bold=True)
            yield Wording(words or self._turn(told.coming[0], _NAMES[-1], timed=True), "faint")

    def _fitted(self, turns: Sequence[Turn], room: int, *, timed: bool) -> str | None:
        """As many of the turns as find room, with titles as long as that allows, and the rest
        counted; None where not even the first does."""
        best: tuple[int, str] | None = None
        for cells in _NAMES:
            for count in range(len(turns), 0, -1):
                items = [self._turn(turn, cells, timed=timed) for turn in turns[:count]]
                left = len(turns) - count
                text = "; ".join([*items, *([f"+{left} more"] if left else [])])
                if cell_len(text) <= room:
                    if best is None or count > best[0]:
                        best = count, text
                    break
        return best[1] if best is not None else None

    def _turn(self, turn: Turn, cells: int, *, timed: bool) -> str:
        board = self.board_app.board
        plain = self.board_app.plain
        title = shortened(legible(title_of(board, turn)), cells, plain=plain)
        names = ", ".join(legible(name) for name in short_names(board.plan, turn.people))
        return f"{f'{turn.start:%H:%M} ' if timed else ''}{title} ({names})"
