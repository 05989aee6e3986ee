"""What the book says of an answer that was kept: for what, the answer, what it came from."""

from collections.abc import Iterator

from crewboard.logbook.acts import Reckoned
from crewboard.logbook.entry import Entry
from crewboard.order.board import Board
from crewboard.order.said import component_name, day_in_words, how_many, piece_name, quoted_title
from crewboard.telling.book.statement import Sentence, said_by
from crewboard.trade.kind import is_a_bend


def reckoned_sentence(board: Board, entry: Entry) -> Sentence:
    """The answer as it was kept, whatever would be reckoned today."""
    act = entry.act
    assert isinstance(act, Reckoned)
    rests = "; ".join(_rests_on(act))
    before = _before(board, act)
    parts = (
        f"{act.answer}, reckoned{_for(board, act)}",
        f" from {rests}" if rests else "",
        f", {act.way}" if act.way else "",
        f" ({act.note})" if act.note else "",
        f"; it stands for the answer of {day_in_words(before.at.date())}" if before else "",
    )
    behind = (entry.id, before.id) if before else (entry.id,)
    names = tuple(filter(None, (act.piece, act.component)))
    word = act.about.replace("-", " ")
    return Sentence("".join(parts), behind, "", word, said_by(board, entry), names)


def _before(board: Board, act: Reckoned) -> Entry | None:
    """The answer in whose place it stands, where that still counts."""
    if not act.before:
        return None
    return next((entry for entry in board.logbook.record() if entry.id == act.before), None)


def _for(board: Board, act: Reckoned) -> str:
    plan = board.plan
    if act.task:
        return f" for {quoted_title(plan, act.task)}"
    if act.piece or act.component:
        name = piece_name(plan, act.piece) if act.piece else component_name(plan, act.component)
        return f" for {name}"
    return ""


def _rests_on(act: Reckoned) -> Iterator[str]:
    """What was given, and how many of the shop's own bends it went by."""
    yield from act.given
    bends = sum(map(is_a_bend, act.known))
    if bends:
        yield f"{how_many(bends, 'bend')} of the shop's own"
