"""What all dialogs have in common: a box over the page, a title, the keys at its foot; and the two
plainest of them, a panel to read and a question of yes or no."""

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
from textual.widgets import Input, Static

from crewboard.legible import legible
from crewboard.telling.line import Line
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.widgets.edges import TinyNotice
from crewboard.terminal.widgets.prose import Prose

T = TypeVar("T")


class Dialog(ModalScreen[T | None]):
    """A question. Esc answers None."""

    CSS_PATH: ClassVar[CSSPathType | None] = str(Path(__file__).with_name("dialog.tcss"))
    keys: ClassVar[str] = "Enter OK   Esc cancel"
    # What F1 says beside the keys at the foot, where a key wants more than its word.
    more_keys: ClassVar[tuple[tuple[str, str], ...]] = ()
    typed_in: ClassVar[bool] = False  # letters are text here, capitals too
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "cancel", show=False),
        Binding("f1", "help", "help", show=False, priority=True),
    ]

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

    def on_mount(self) -> None:
        if self._stands:
            self.opened()

    def on_resize(self) -> None:
        if self._stands:
            self.fit()

    @property
    def _stands(self) -> bool:
        """False where it was closed while it opened: then nothing was ever put into its box."""
        return self.is_attached and bool(self.query("#foot"))

    def opened(self) -> None:
        """Called once all that is inside the box stands there."""

    def fit(self) -> None:
        """Called whenever the window has another size."""

    def foot(self) -> str:
        """The keys, as the last line of the box."""
        return self.keys

    def unkept(self) -> list[str]:
        """What was typed here and is not written yet, in lines."""
        typed = [line.value for line in self.query(Input) if line.value.strip()]
        return [f"{self.asks}:", *typed] if typed else []

    def dismiss(self, result: T | None = None) -> AwaitComplete:
        """Answer, once: keys typed on while the box goes away say nothing more."""
        if self._answered or not self.is_current:  # what is popped is whatever lies on top
            return AwaitComplete()
        self._answered = True
        return super().dismiss(result)

    def action_leave(self) -> None:
        self.dismiss(None)

    def action_help(self) -> None:
        """Say what the keys of the dialog do."""
        from crewboard.terminal.explained import dialog_help

        self.app.push_screen(Panel("Keys", dialog_help(self.foot(), self.more_keys)))

    def leave_unkept(self, sentence: str) -> None:
        """Leave what is not saved yet, where that is meant."""
        self.run_worker(self._leave_where_meant(sentence), exclusive=True)

    async def _leave_where_meant(self, sentence: str) -> None:
        sure = Confirm("Throw it away?", [sentence], yes="throw away")
        if await self.app.push_screen_wait(sure):
            self.dismiss(None)


class Panel(Dialog[None]):
    """Lines to read and scroll; Enter or Esc closes."""

    keys: ClassVar[str] = "arrows, PgDn scroll   Enter OK"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "leave", "OK", show=False),
    ]

    def __init__(self, title: str, lines: Iterable[Line]) -> None:
        super().__init__(title, wide=True)
        self.lines = tuple(lines)

    def inside(self) -> Iterable[Widget]:
        yield Prose(self.lines)

    def action_help(self) -> None:
        """What is read needs no more than its foot."""


class Confirm(Dialog[bool]):
    """Answers True for Enter, None when left. `yes` is what Enter does, in a word or two."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "yes", "yes", show=False),
    ]

    def __init__(self, title: str, lines: Iterable[Line | str], *, yes: str = "OK") -> None:
        super().__init__(title)
        self.lines = [Line(line) if isinstance(line, str) else line for line in lines]
        self.yes = yes

    def inside(self) -> Iterable[Widget]:
        yield Prose(self.lines)

    def foot(self) -> str:
        return f"Enter {self.yes}   Esc cancel"

    def action_yes(self) -> None:
        self.dismiss(True)
