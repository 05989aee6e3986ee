"""The lines over a work day's rows: who is here, a past day left open, what is so now."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crewboard.telling.day import left_open_lines, people_lines
from crewboard.telling.line import Line
from crewboard.telling.notices import NOT_OPENED, TO_SORT
from crewboard.terminal.cells import cell_len
from crewboard.terminal.widgets.edges import EdgeLine, Wording


class PeopleLine(EdgeLine):
    """Who is here, and who is expected."""

    def pieces(self) -> Iterable[Wording]:
        told = list(self._told(shortly=False))
        if 1 + sum(cell_len(piece.text) + 2 for piece in told) > self.size.width:
            told = list(self._told(shortly=True))
        room = self.size.width - 2
        for piece in told:
            text = with_the_rest_counted(piece.text, room)
            if cell_len(text) <= room:
                yield piece._replace(text=text)
            room -= cell_len(text) + 2

    def _told(self, *, shortly: bool) -> Iterable[Wording]:
        board = self.board_app.board
        key = "" if board.present else ": i"
        for line in people_lines(board, shortly=shortly):
            if line.word != NOT_OPENED:
                yield Wording(f"{line.word} {line.text}{key}".lstrip(), line.tone)
                key = ""


def with_the_rest_counted(text: str, room: int, gap: str = ", ") -> str:
    """A list in at most so many cells, as it is or with what finds no room counted: "Ada, Ben,
    +3 more"; as it is where not even its first fits."""
    if cell_len(text) <= room:
        return text
    items = (text.replace(" and ", gap) if gap == ", " else text).split(gap)
    for shown in range(len(items) - 1, 0, -1):
        counted = gap.join((*items[:shown], f"+{len(items) - shown} more"))
        if cell_len(counted) <= room:
            return counted
    return text


class LeftOpenLine(EdgeLine):
    """Before all else: a past day that nobody closed."""

    def pieces(self) -> Iterable[Wording]:
        for line in left_open_lines(self.board_app.board):
            yield Wording(line.word, line.tone, "close_day", bold=True)
            yield Wording("x closes it", "must", "close_day", key="x")
            yield Wording(line.text, line.tone)  # cut where it does not fit: x tells all


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
