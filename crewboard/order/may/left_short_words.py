"""The word that is said at once where work goes on with too few people."""

from collections.abc import Callable, Sequence
from datetime import datetime

from crewboard.logbook.acts import Begun, HoursLeft, OpenUntil, SignIn, SignOut, TakenBack
from crewboard.logbook.entry import Said
from crewboard.order.board import Board
from crewboard.order.may.ends_late_news import ends_late_in_words
from crewboard.order.may.left_short import LeftShort, left_short
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.said import listed, person, quoted_title


def left_short_in_words(board: Board) -> list[str]:
    """A sentence for each that is lacking, with what is to be done; mostly nothing."""
    return list(dict.fromkeys(as_sentence(board, short) for short in left_short(board)))


class LeftShortNews:
    """What goes on with too few people since some lines were written, and did not before; and what
    no longer ends in time, where they say when the shop closes or how much is still to do."""

    def __init__(self, lines: Sequence[Said], board: Callable[[datetime], Board]) -> None:
        about_people = (SignIn, SignOut, Begun, TakenBack)
        moments = [o.at for o in lines if isinstance(o.act, about_people) or o.replaces]
        self.at = max(moments, default=None)
        about_time = [o.at for o in lines if isinstance(o.act, OpenUntil | HoursLeft)]
        self.timed_at = max(about_time, default=None)
        self.before = left_short_in_words(board(self.at)) if self.at else []

    def since(self, board: Callable[[datetime], Board]) -> tuple[str, ...]:
        now = left_short_in_words(board(self.at)) if self.at else []
        late = ends_late_in_words(board(self.timed_at)) if self.timed_at else ()
        return (*(words for words in now if words not in self.before), *late)


def as_sentence(board: Board, short: LeftShort) -> str:
    """'"Weld the bracket": no fire watcher is there. Stop it, or let somebody take over'."""
    lack = short.lacks
    if lack.code == "alone":
        return _alone(board, lack)
    says = _SAYS[lack.code](board, lack)
    return f"{quoted_title(board.plan, short.task)}: {says}. Stop it, or let somebody take over"


def _names(board: Board, lack: Obstacle) -> str:
    return listed(person(board.plan, who) for who in lack.people)


def _alone(board: Board, lack: Obstacle) -> str:
    return (
        f"{_names(board, lack)} is alone in the shop now: nothing that needs two goes on, and the "
        "checks of working alone come before anything else"
    )


def _people(board: Board, lack: Obstacle) -> str:
    hazard = board.plan.hazards[lack.hazard]
    left = "nobody of them is left" if not lack.there else f"only {lack.there} left"
    return f"{hazard.short} needs {lack.needed} people, {left}"


def _watch(board: Board, lack: Obstacle) -> str:
    return f"no {board.plan.hazards[lack.hazard].watch} is there"


def _adult(board: Board, lack: Obstacle) -> str:
    are = "is" if len(lack.people) == 1 else "are"
    return f"{_names(board, lack)} {are} without the adult who was to stay beside"


def _certificate(_board: Board, lack: Obstacle) -> str:
    return f'nobody there holds the certificate "{lack.certificate}"'


def _beside(board: Board, lack: Obstacle) -> str:
    need = board.plan.crew[lack.people[0]].needs_beside
    other = person(board.plan, need) if need in board.plan.crew else f"somebody with {need}"
    return f"{_names(board, lack)} works only with {other} beside them, who is not there"


_SAYS: dict[str, Callable[[Board, Obstacle], str]] = {
    "people": _people,
    "watch": _watch,
    "adult": _adult,
    "certificate": _certificate,
    "beside": _beside,
}
