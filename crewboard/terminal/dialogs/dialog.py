"""What all dialogs have in common: a box over the page, a title, the keys at its foot."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import ClassVar, TypeVar, cast

from textual.app import ComposeResult
from textual.await_complete import AwaitComplete
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.types import CSSPathType
from textual.widget import Widget
from textual.widgets import Static

from crewboard.legible import legible
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.widgets.edges import TinyNotice

T = TypeVar("T")


class Dialog(ModalScreen[T | None]):
    """A question. Esc answers None."""

    CSS_PATH: ClassVar[CSSPathType | None] = str(Path(__file__).with_name("dialog.tcss"))
    keys: ClassVar[str] = "Enter accept   Esc leave"
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "leave", show=False)]

    def __init__(self, title: str, *, wide: bool = False) -> None:
        super().__init__()
        self.asks = title
        self._wide = wide
        self._answered = False

    @property
    def board_app(self) -> BoardApp:
        return cast("BoardApp", self.app)

    def compose(self) -> ComposeResult:
        with Vertical(id="box", classes="-broad" if self._wide else "") as box:
            box.border_title = Content(legible(self.asks))
            yield from self.inside()
            yield Static(Content(self.foot()), id="foot")
        yield TinyNotice()

    def inside(self) -> Iterable[Widget]:
        """What stands in the box."""
        raise NotImplementedError

    def foot(self) -> str:
        """The keys, as the last line of the box."""
        return self.keys

    def dismiss(self, result: T | None = None) -> AwaitComplete:
        """Answer, once: keys typed on while the box goes away say nothing more."""
        if self._answered or not self.is_current:  # what is popped is whatever lies on top
            return AwaitComplete()
        self._answered = True
        return super().dismiss(result)

    def action_leave(self) -> None:
        self.dismiss(None)
