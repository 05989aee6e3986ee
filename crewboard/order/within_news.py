"""What has to follow soon, said at once: when the work before it is finished, and when that is
begun so late that the day may be over first."""

from collections.abc import Callable, Iterator, Sequence
from datetime import datetime, timedelta

from crewboard.logbook.acts import Begun, Finished
from crewboard.logbook.entry import Said
from crewboard.order.board import Board
from crewboard.order.said import quoted_title, when
from crewboard.order.within import followed_by
from crewboard.order.within_words import followed_in_words


def following_news(lines: Sequence[Said], board: Callable[[datetime], Board]) -> tuple[str, ...]:
    """A sentence for each task that has to follow what these lines begin or finish."""
    finished = {one.act.task: one.at for one in lines if isinstance(one.act, Finished)}
    news: dict[str, None] = {}
    if finished:
        last = board(max(finished.values()))
        news |= dict.fromkeys(followed_in_words(last, tuple(finished)))
    for one in lines:
        if isinstance(one.act, Begun):
            news |= dict.fromkeys(_too_late_today(board(one.at), one.act))
    return tuple(news)


def _too_late_today(board: Board, begun: Begun) -> Iterator[str]:
    """Work that is done by its likely hours too near to closing for what has to follow it before
    the shop opens again."""
    left = board[begun.task].left
    if left is None or not board.openings:
        return
    closes = datetime.combine(board.at.date(), board.openings[-1].closes)
    done = board.at + timedelta(hours=left / max(1, len(begun.crew)))
    opens = board.plan.vehicle.work_days.next_after(board.at)
    for task, span in followed_by(board.plan, begun.task):
        needs = timedelta(hours=(board[task.id].left or 0) / (task.most_people or 1))
        in_time = opens is not None and opens <= board.plan.clock.add(done, span)
        if board[task.id].begun is None and done + needs > closes and not in_time:
            yield (
                f"{quoted_title(board.plan, task.id)} has to be begun within {span} after it; by "
                f"its likely hours it is done at {when(done, board.at)}, and the shop closes at "
                f"{closes:%H:%M}"
            )
