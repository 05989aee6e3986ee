"""What is said at once when lines are kept: clocks that stop or go on, work that goes on with too
few people or has to be followed soon, what is kept for ever there, the first-aider who has gone."""

from collections.abc import Callable, Sequence
from datetime import datetime

from crewboard.logbook.acts import Reading, SignOut
from crewboard.logbook.entry import Said
from crewboard.order.board import Board
from crewboard.order.holds.clock_news import clock_news
from crewboard.order.left_alone import kept_at_begin
from crewboard.order.may.left_short_words import LeftShortNews
from crewboard.order.within_news import following_news


class News:
    """Made before the lines are written, told after. `board` gives the board of a moment, with what
    is kept by then."""

    def __init__(self, lines: Sequence[Said], board: Callable[[datetime], Board]) -> None:
        self.lines, self.board = lines, board
        read = [one.at for one in lines if isinstance(one.act, Reading)]
        self.before = board(max(read)) if read else None
        self.short = LeftShortNews(lines, board)

    def told(self) -> tuple[str, ...]:
        """A sentence for each."""
        before = self.before
        return (
            *(clock_news(before, self.board(before.at)) if before is not None else ()),
            *self._who_is_missed(),
            *self.short.since(self.board),
            *following_news(self.lines, self.board),
            *kept_at_begin(self.lines, self.board),
        )

    def _who_is_missed(self) -> tuple[str, ...]:
        """The word that somebody's leaving calls for: the first-aider of the day has gone."""
        left = [one for one in self.lines if isinstance(one.act, SignOut)]
        if not left:
            return ()
        from crewboard.order.safety.opening import first_aid, without_first_aider

        board = self.board(max(one.at for one in left))
        gone = first_aid(board).gone
        named = any(isinstance(one.act, SignOut) and one.act.who in gone for one in left)
        word = without_first_aider(board) if named else ""
        return (word,) if word else ()
