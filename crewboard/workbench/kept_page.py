"""The page on the wall, made anew whenever the board changed."""

import os
from collections.abc import Callable

from crewboard.order.board import Board


class KeptPage:
    """A page at `path`, of which `page` makes the text; `mark` is by what it is known to be ours.

    That it cannot be written never hinders anything: it is said once, and again once it could be
    written in between.
    """

    def __init__(self, path: str, page: Callable[[Board], str], mark: str) -> None:
        self.path, self._page, self._mark = os.path.abspath(path), page, mark
        self._told = False

    def put_up(self, board: Board) -> str:
        """Write the page of this board; what hinders it in a sentence the first time, else
        nothing."""
        from crewboard.folder.disk.own_page import put_page

        try:
            put_page(self.path, self._page(board), self._mark)
        except FileExistsError:
            return self._once(f"{self.path} is no page for the wall, and was left as it is")
        except (OSError, ValueError) as error:
            why = getattr(error, "strerror", None) or str(error)
            return self._once(f"the page for the wall could not be written: {self.path}: {why}")
        self._told = False
        return ""

    def _once(self, sentence: str) -> str:
        told, self._told = self._told, True
        return "" if told else sentence
