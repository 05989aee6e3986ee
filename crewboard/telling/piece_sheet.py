"""The sheet of one piece: what became of it, what the plan says of it, the work and holds on it."""

from collections.abc import Iterable, Iterator

from crewboard.logbook.acts import PieceFailed
from crewboard.logbook.fields import named_by
from crewboard.order.board import Board, Standing
from crewboard.order.reasons.why import hold_in_words
from crewboard.order.said import component_name, day_and_time, person
from crewboard.plan.piece import Piece
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.reckoned_of import reckoned_lines
from crewboard.telling.row import STATE_TONE

KEPT = "kept for ever"
_ENTRIES = 40  # the latest entries shown of a piece's history


def piece_lines(board: Board, piece: Piece, work: Iterable[Standing]) -> list[Line]:
    """What is known of one piece, the work on it last."""
    lines = [title(piece.name), *became_of(board, piece), *fact_lines(board, piece)]
    return [*lines, *work_lines(work), *reckoned_lines(board, "piece", piece.id)]


def piece_sheet(board: Board, piece_id: str, now: Iterable[Line] = ()) -> list[Line]:
    """The whole sheet of a piece; `now` says what the record makes of it. Raises KeyError for an
    unknown one."""
    piece = board.plan.pieces[piece_id]
    work = [board[task.id] for task in board.plan.tasks_of(piece_id)]
    lines = [title(piece.name)._replace(handle=piece.id), *became_of(board, piece), GAP]
    lines += fact_lines(board, piece)
    lines += _chapter("As it is now", now)
    lines += _chapter("What is done to it", work_lines(work))
    lines += _chapter("Holds on it", _holds(board, piece_id))
    lines += reckoned_lines(board, "piece", piece_id)
    lines += _chapter("Pictures", map(Line, piece.pictures))
    return [*lines, *_chapter("In the logbook", list(_history(board, piece_id))[-_ENTRIES:])]


def became_of(board: Board, piece: Piece) -> Iterator[Line]:
    """That it failed, that a spare took its place, or whose place it took."""
    history = board.history
    failed = history.failed.get(piece.id)
    if failed is not None and isinstance(failed.act, PieceFailed):
        why = f": {failed.act.why}" if failed.act.why else ""
        yield Line(f"{day_and_time(failed.at)}{why}", "warning", 0, "failed")
    for spare, place in history.stands_for.items():
        if place == piece.id:
            yield Line(_name(board, spare), "faint", 0, "its place was taken by")
        elif spare == piece.id:
            yield Line(_name(board, place), "strong", 0, "took the place of")
    if piece.spare and piece.id not in history.stands_for:
        yield Line("beside those that the vehicle has", "faint", 0, "a spare")
    if piece.keep:
        yield Line("never cut, stripped or painted over", "caution", 0, f"{KEPT}:")
    if piece.live is not None and (piece.runs_from or piece.runs_to or piece.serves):
        word = "live: it carries something" if piece.live else "dead: it carries nothing"
        yield Line(word, "warning" if piece.live else "faint")


def _name(board: Board, piece_id: str) -> str:
    piece = board.plan.pieces.get(piece_id)
    return piece.name if piece else piece_id


def fact_lines(board: Board, piece: Piece) -> Iterator[Line]:
    """What the plan says of a piece, a line each."""
    found = [piece.as_found, board.plan.vehicle.time_in_words(piece.period)]
    facts = (
        ("on", component_name(board.plan, piece.component)),
        ("kind", piece.kind),
        ("material", piece.material),
        ("size", piece.size),
        ("place", piece.place),
        ("as found", ", ".join(filter(None, found)) if found != ["unknown", ""] else ""),
        ("condition", piece.condition),
        ("intended", piece.intended),
        ("why", piece.why),
        ("runs", runs_in_words(piece)),
        ("for", piece.serves),
    )
    for word, text in facts:
        if text.strip():
            yield Line(text.strip(), "faint", 0, f"{word}:")


def work_lines(work: Iterable[Standing]) -> Iterator[Line]:
    """The tasks that are done to it, each with how far it is."""
    for standing in work:
        hours = f", {standing.hours:g} h" if standing.hours else ""
        finished = f", {day_and_time(standing.finished)}" if standing.finished else ""
        aside = f": {standing.aside}" if standing.aside else ""
        text = f"{standing.task.title}{finished}{hours}{aside}"
        yield Line(text, STATE_TONE[standing.state], 0, standing.state)


def _holds(board: Board, piece_id: str) -> Iterator[Line]:
    for hold in board.stopping():
        if piece_id in hold.pieces:
            yield Line(hold_in_words(board, hold), "must" if hold.stage == "due" else "caution")


def _history(board: Board, piece_id: str) -> Iterator[Line]:
    from crewboard.telling.entry_words import MOST_OF_A_TEXT, EntryWords

    words = EntryWords(board.plan, board.logbook, most=MOST_OF_A_TEXT)
    tasks = {task.id for task in board.plan.tasks_of(piece_id)}
    entries = (*board.logbook.counting(), *board.logbook.record())
    for entry in sorted(entries, key=lambda entry: entry.at):
        if entry.at > board.at:
            break
        if any(
            named.id in tasks if named.thing == "task" else named.id == piece_id
            for named in named_by(entry.act)
            if named.thing in ("task", "piece")
        ):
            by = f" ({person(board.plan, entry.by)})" if entry.by else ""
            yield Line(words.of(entry) + by, "faint", 0, f"{day_and_time(entry.at)}:")


def _chapter(heading: str, lines: Iterable[Line]) -> list[Line]:
    inside = [line._replace(indent=line.indent + 2) for line in lines]
    return [GAP, title(heading), *inside] if inside else []


def runs_in_words(piece: Piece) -> str:
    """ "from the switchboard to the tail lamp" """
    ends = (("from", piece.runs_from), ("to", piece.runs_to))
    return " ".join(f"{word} {end}" for word, end in ends if end)
