"""The lines over a work day's rows: who is here, a past day left open, what is so now."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crewboard.telling.day import left_open_lines, people_lines
from crewboard.telling.line import Line
from crewboard.telling.notices import NOT_OPENED, TO_SORT
from crewboard.terminal.widgets.edges import EdgeLine, Wording


class PeopleLine(EdgeLine):
    """Who is here, and who is expected."""

    def pieces(self) -> Iterable[Wording]:
        board = self.board_app.board
        key = "" if board.present else ": i"
        for line in people_lines(board):
            if line.word != NOT_OPENED:
                yield Wording(f"{line.word} {line.text}{key}".lstrip(), line.tone)
                key = ""


class LeftOpenLine(EdgeLine):
    """Before all else: a past day that nobody closed."""

    def pieces(self) -> Iterable[Wording]:
        for line in left_open_lines(self.board_app.board):
            yield Wording(line.word, line.tone, "close_day", bold=True)
            yield Wording("x closes it", "must", "close_day", key="x")
            yield Wording(line.text, line.tone)


class NoticeLine(EdgeLine):
    """The one of what is so now that stands at this place, where there are so many."""

    def __init__(self, place: int) -> None:
        super().__init__()
        self.place = place
        self._line: Line | None = None

    def show(self, notices: Sequence[Line]) -> None:
        self._line = notices[self.place] if self.place < len(notices) else None
        self.set_class(self._line is None, "-nothing")
        self.refresh()

    def pieces(self) -> Iterable[Wording]:
        if self._line is not None:
            yield Wording(self._line.word, self._line.tone, bold=True)
            yield Wording(self._line.text, self._line.tone)
            if self._line.word == TO_SORT:
                yield Wording("z sorts them", "must", "pictures", key="z")
