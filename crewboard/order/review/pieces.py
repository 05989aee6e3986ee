"""Questions about pieces, spares, jigs and the same work on several pieces."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.order.ahead.calendar_path import CalendarPath
from crewboard.order.ahead.effort import hours_left, most_hands
from crewboard.order.board import Board
from crewboard.order.review.question import Question
from crewboard.order.said import how_many, listed, pieces_in_words
from crewboard.plan.series import Series


def about_pieces(board: Board, path: CalendarPath) -> Iterator[Question]:
    yield from _kept_for_ever(board)
    for series in board.plan.series.values():
        yield from _places(board, series)
    yield from _enough(board, path)
    yield from _spares(board)
    yield from _jigs(board)
    yield from _in_one_go(board, path)


def _kept_for_ever(board: Board) -> Iterator[Question]:
    """Work that is still to be done to pieces that are kept for ever."""
    plan = board.plan
    kept = {piece.id for piece in plan.pieces.values() if piece.keep}
    if not kept:
        return
    ahead: dict[str, list[str]] = {}
    for standing in board.standings.values():
        if not standing.work_done and standing.state != "set aside":
            task = standing.task
            ahead.setdefault(task.series or task.id, []).extend(kept.intersection(task.pieces))
    for task_id, pieces in ahead.items():
        if pieces:
            title = plan.all_written()[task_id].title
            names = pieces_in_words(plan, [name for name in plan.pieces if name in pieces])
            says = f'"{title}" is done to what is kept for ever: {names}'
            do = "say in its method what must stay untouched, or leave these pieces out"
            key = "each" if task_id in plan.series else "pieces"
            yield Question("kept for ever", "task", task_id, says, do, key)


def _places(board: Board, series: Series) -> Iterator[Question]:
    if not series.places:
        yield Question(
            "work on no piece",
            "task",
            series.id,
            f'"{series.task.title}" is done to spares alone, so nothing waits for it',
            "name the pieces that the vehicle has, or say spares = true where the spares are made",
            "each",
        )
    gate = board.order.before.get(f"{series.id}>", ())
    left = [task for task in gate if task not in board.not_asked]
    done = sum(board[task].work_done for task in left)
    if len(left) < series.places and done < series.places:
        lost = [board.not_asked[task].why for task in gate if task in board.not_asked]
        yield Question(
            "too few pieces",
            "task",
            series.id,
            f'"{series.task.title}" is to be done to {how_many(series.places, "piece")}, and '
            f"{len(left)} are left: {listed(lost)}",
            "let a spare take its place (use-spare), or have it made anew (fail --again)",
            "each",
        )


def _enough(board: Board, path: CalendarPath) -> Iterator[Question]:
    plan = board.plan
    for name in dict.fromkeys(plan.tasks[task].series or task for task in path.work):
        task = plan.written(name)
        for before, enough in task.enough.items() if task else ():
            series = plan.series.get(before)
            if task and series and enough > series.places:
                yield Question(
                    "more than there are",
                    "task",
                    task.id,
                    f'{enough} of "{series.task.title}" are enough for "{task.title}", and there '
                    f"are {how_many(series.places, 'piece')}: it would wait for ever",
                    f"write at most {series.places}",
                    "enough",
                )


def _spares(board: Board) -> Iterator[Question]:
    """Spares that nobody makes before they are needed, of pieces that are worked on."""
    plan = board.plan
    worked_on = {piece for series in plan.series.values() for piece in series.members}
    made = {p for series in plan.series.values() if series.task.spares for p in series.members}
    idle = [
        piece
        for piece in plan.pieces.values()
        if piece.spare and piece.id in worked_on and piece.id not in made
        if piece.id not in board.history.stands_for
    ]
    for series in plan.series.values():
        names = [piece.name for piece in idle if piece.id in series.members]
        idle = [piece for piece in idle if piece.id not in series.members]
        if names:
            yield Question(
                "spares nobody makes",
                "task",
                series.id,
                f"nobody makes {listed(names)} before it is needed: no task is done to spares too",
                "write spares = true in the tasks by which they are made, or plan without spares",
                "each",
            )


def _jigs(board: Board) -> Iterator[Question]:
    used = {jig for task in board.plan.tasks.values() for jig in task.uses}
    for jig in board.plan.vehicle.jigs.values():
        if jig.id not in used:
            yield Question(
                "jig nothing uses",
                "vehicle",
                jig.id,
                f"no task uses the jig {jig.name}",
                f'write uses = ["{jig.id}"] in the task that needs it, or remove it',
                "jigs",
            )


def _in_one_go(board: Board, path: CalendarPath) -> Iterator[Question]:
    """Work that must not be left half done, and that no day is long enough for."""
    days = board.plan.vehicle.work_days
    longest = max([days.usual.length, *(own.length for _, own in days.also if own is not None)])
    crew = sum(v.with_us_on(board.at.date()) for v in board.plan.crew.values())
    for name in path.work:
        task = board.plan.tasks[name]
        if task.in_one_go and board[name].state not in ("set aside", "under way"):
            hands = max(1, min(most_hands(task), crew))
            hours = hours_left(board[name], path.usual) / hands
            if hours > longest:
                yield Question(
                    "in one go, and too long",
                    "task",
                    name,
                    f'"{task.title}" must not be left half done, and takes '
                    f"{how_many(hands, 'person')} {hours:.0f} hours: no work day is so long",
                    "let more people do it, open the shop for longer, or make several tasks of it",
                    "in_one_go",
                )
