"""Why the pieces of a series stand where they stand, and what finishing them frees."""

from crewboard.order.board import Board
from crewboard.order.reasons.why import roots
from crewboard.order.within import must_follow
from crewboard.order.within_words import by_in_words
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.row import STATE_TONE
from crewboard.telling.series import pieces_of, series_lines, series_title
from crewboard.telling.why import frees_together


def series_sheet(board: Board, series: str) -> list[Line]:
    """What is known of a series, and below it why each piece stands where it stands."""
    sheet = series_lines(board, series)
    return [sheet[0]._replace(handle=series), *sheet[1:], GAP, *why_of_series(board, series)]


def why_of_series(board: Board, series: str) -> list[Line]:
    """Each piece in short, those for which the same is said together. Raises KeyError for what is
    no series."""
    told: dict[tuple[str, str], list[str]] = {}
    for task in board.plan.series[series].members.values():
        told.setdefault((board[task].state, _in_short(board, task)), []).append(task)
    lines = [title(f'Why: "{series_title(board, series)}"')]
    for (word, reason), tasks in told.items():
        text = f"{word}: {reason}" if reason else word
        handle = tasks[0] if len(tasks) == 1 else ""
        tone = STATE_TONE[board[tasks[0]].state]
        lines.append(Line(text, tone, 2, f"{pieces_of(board, tasks)}:", handle=handle))
    return lines


def _in_short(board: Board, task_id: str) -> str:
    """What it waits for in the end, or why it is not to be done."""
    standing = board[task_id]
    if standing.state == "set aside":
        return standing.aside
    if (follow := must_follow(board).get(task_id)) is not None:
        return by_in_words(board, follow)
    if standing.work_done and task_id in board.not_asked:
        return board.not_asked[task_id].why
    causes = [] if standing.state in ("ready", "finished") else roots(board, task_id)
    causes = [cause for cause in causes if cause.id != task_id]
    more = f" (and {len(causes) - 1} more)" if len(causes) > 1 else ""
    return f"{causes[0].says}{more}" if causes else ""


def then_of_series(board: Board, series: str) -> list[Line]:
    """What finishing all that is still to do of it frees."""
    members = board.plan.series[series].members.values()
    to_do = [
        task for task in members if not board[task].work_done and board[task].state != "set aside"
    ]
    if not to_do:
        return [Line("All of its pieces are finished.")]
    return [
        title(f"When all of it is finished: {pieces_of(board, to_do)}"),
        Line(frees_together(board, to_do), indent=2),
    ]
