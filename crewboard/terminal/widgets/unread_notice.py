"""Under the top line of every page while something cannot be read: which file, what follows."""

from textual.content import Content
from textual.widgets import Static

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.telling.unreadable import unreadable_lines


class UnreadNotice(Static):
    """A few lines at most: `check` tells the rest."""

    DEFAULT_CSS = """
    UnreadNotice {
        height: auto; max-height: 4; padding: 0 1;
        color: $tone-danger; background: $tone-danger 15%;
    }
    """

    def show(self, board: Board) -> None:
        lines = unreadable_lines(board)
        self.display = bool(lines)
        self.update(Content("\n".join(legible(f"{line.word} {line.text}") for line in lines)))
