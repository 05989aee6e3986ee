"""What has to follow other work soon, as rows and lines: on the work day before all else."""

from crewboard.order.board import Board
from crewboard.order.said import day_and_time, listed, piece_name, quoted_title, when
from crewboard.order.within import MustFollow, must_follow
from crewboard.order.within_words import again_in_words, by_in_words
from crewboard.telling.line import Tone
from crewboard.telling.row import Row

_FEW = 4  # pieces of a series named before the rest is counted


def must_follow_rows(board: Board) -> list[Row]:
    """A row for each task whose time runs or is over, the soonest first; of a series one row for
    those that run, and one for those too late."""
    return [_row(board, together) for together in _together(board)]


def must_follow_lines(board: Board) -> list[str]:
    """The same as sentences: ""Prime: Rails 1 and 2" by 15:40: 4 hours after ..."."""
    return [f"{title(board, some)} {by_in_words(board, some[0])}" for some in _together(board)]


def title(board: Board, together: list[MustFollow]) -> str:
    """The title in quotes; of several of a series with their pieces."""
    task = board.plan.tasks[together[0].task]
    if len(together) == 1:
        return f'"{task.title}"'
    pieces = [piece_name(board.plan, p) for f in together for p in board.plan.tasks[f.task].pieces]
    more = len(pieces) - _FEW
    named = listed([*pieces[:_FEW], *([f"{more} more"] if more > 0 else [])])
    return f'"{board.plan.series[task.series].task.title}": {named}'


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
        title(board, together).strip('"') if len(together) == 1 else title(board, together),
        f"{'since' if first.late else 'by'} {when(first.by, board.at)}",
    )
    below = [
        f"{first.span} after {quoted_title(board.plan, first.after)}, "
        f"finished {day_and_time(first.finished)}"
    ]
    if first.late:
        below.append(again_in_words(board, first))
    row_id = f"check:{first.task}:must-follow"
    return Row(row_id, cells, tone, tuple(below), find=first.task, handle=first.task)
