"""What has to follow, in words."""

from collections.abc import Iterator

from crewboard.order.board import Board
from crewboard.order.said import day_and_time, listed, quoted_title, when
from crewboard.order.within import MustFollow, followed_by, must_follow

_FEW = 3  # tasks named before the rest is counted


def by_in_words(board: Board, follow: MustFollow) -> str:
    """ "by 15:40: 4 hours after "Blast: Panel 1"", or "too late since 15:40: ..."."""
    until = when(follow.by, board.at)
    after = f"{follow.span} after {quoted_title(board.plan, follow.after)}"
    return f"too late since {until}: {after}" if follow.late else f"by {until}: {after}"


def begin_by_in_words(board: Board, follow: MustFollow) -> str:
    """The whole sentence: until when it has to be begun, or what has to be done again."""
    after = quoted_title(board.plan, follow.after)
    finished = f"finished {day_and_time(follow.finished)}"
    if not follow.late:
        return f"to be begun by {day_and_time(follow.by)}: {follow.span} after {after} ({finished})"
    sentence = (
        f"too late since {day_and_time(follow.by)}: it had to be begun within {follow.span} after "
        f"{after} ({finished})"
    )
    if follow.late == (follow.after,):
        return f"{sentence}, which has to be done again (reopen it)"
    return f"{sentence}; {again_in_words(board, follow)}"


def again_in_words(board: Board, follow: MustFollow) -> str:
    """ ""Blast: Panel 1" has to be done again (reopen it)"."""
    titles = [quoted_title(board.plan, task) for task in follow.late[:_FEW]]
    more = len(follow.late) - len(titles)
    named = listed([*titles, *([f"{more} more"] if more else [])])
    has, it = ("has", "it") if len(follow.late) == 1 else ("have", "them")
    return f"{named} {has} to be done again (reopen {it})"


def followed_in_words(board: Board, task_id: str) -> Iterator[str]:
    """What has to follow a task: with the moment where it is finished and the time runs, else how
    long after it."""
    running = must_follow(board)
    for task, span in followed_by(board.plan, task_id):
        if board[task.id].work_done or board[task.id].state in ("set aside", "under way"):
            continue
        follow = running.get(task.id)
        if follow is not None and follow.after == task_id:
            yield f"{quoted_title(board.plan, task.id)} {by_in_words(board, follow)}"
        elif not board[task_id].work_done:
            yield f"{quoted_title(board.plan, task.id)} has to be begun within {span} after it"
