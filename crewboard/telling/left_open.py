"""What is said first on a day's board: a past day that nobody closed."""

from crewboard.order.board import Board
from crewboard.order.safety.left_open import last_left_open, left_open_in_words
from crewboard.order.said import how_many
from crewboard.telling.line import Line


def left_open_lines(board: Board) -> list[Line]:
    """The latest past day that is not settled, and how many there are before it; mostly nothing."""
    left_open, earlier = last_left_open(board)
    if left_open is None:
        return []
    facts = left_open_in_words(board.plan, left_open)
    if earlier:
        facts.append(f"{how_many(earlier, 'earlier day')} too")
    return [Line(f"{'; '.join(facts)}.", "danger", 0, "LEFT OPEN:")]
