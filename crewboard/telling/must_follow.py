"""What has to follow other work soon, as rows and lines: on the work day before all else."""

from crewboard.order.board import Board
from crewboard.order.said import day_and_time, quoted_title, titled, when
from crewboard.order.within import MustFollow, must_follow
from crewboard.order.within_words import again_in_words, by_in_words
from crewboard.telling.line import Tone
from crewboard.telling.row import Row


def must_follow_rows(board: Board) -> list[Row]:
    """A row for each task whose time runs or is over, the soonest first; of a series one row for
    those that run, and one for those too late."""
    return [_row(board, together) for together in _together(board)]


def must_follow_lines(board: Board) -> list[str]:
    """The same as sentences: ""Prime: Rails 1 and 2" by 15:40: 4 hours after ..."."""
    return [f"{_titled(board, some)} {by_in_words(board, some[0])}" for some in _together(board)]


def _titled(board: Board, together: list[MustFollow]) -> str:
    return titled(board.plan, [follow.task for follow in together])


def _together(board: Board) -> list[list[MustFollow]]:
    groups: dict[tuple[str, bool], list[MustFollow]] = {}
    for follow in must_follow(board).values():
        written = board.plan.tasks[follow.task].series or follow.task
        groups.setdefault((written, bool(follow.late)), []).append(follow)
    return list(groups.values())


def _row(board: Board, together: list[MustFollow]) -> Row:
    first = together[0]
    tone: Tone = "danger" if first.late else "must"
    cells = (
        "too late" if first.late else "must follow",
        _titled(board, together).strip('"'),
        f"{'since' if first.late else 'by'} {when(first.by, board.at)}",
    )
    below = [
        f"{first.span} after {quoted_title(board.plan, first.after)}, "
        f"finished {day_and_time(first.finished)}"
    ]
    if first.late:
        late = dict.fromkeys(task for follow in together for task in follow.late)
        below.append(again_in_words(board, tuple(late)))
    return Row(
        f"check:{first.task}:must-follow",
        cells,
        tone,
        tuple(below),
        find=first.task,
        handle=first.task,
        tasks=tuple(follow.task for follow in together),
    )
