"""How the screens end without having been left, and when they stay though something went wrong."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime

from rich.text import Text
from textual.actions import ActionParseResult
from textual.dom import DOMNode
from textual.worker import WorkerFailed

from crewboard.terminal.as_opened import CHANGED
from crewboard.terminal.broken_off import broken_off, ended_from_outside
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.page import Page
from crewboard.terminal.recording import RecordingApp
from crewboard.workbench import Workbench


class EndingApp(RecordingApp):
    """An app that says in one sentence why it ends, and throws nothing away that was typed."""

    def __init__(
        self, workbench: Workbench, clock: Callable[[], datetime], by: str, *, plain: bool
    ) -> None:
        super().__init__(workbench, clock, by, plain=plain)
        self.is_changed: Callable[[], bool] = lambda: False  # whether files of the program were
        self._broke_off = False

    async def run_action(
        self,
        action: str | ActionParseResult,
        default_namespace: DOMNode | None = None,
        namespaces: Mapping[str, DOMNode] | None = None,
    ) -> bool:
        """Do what a key stands for; where the program was changed meanwhile, say so and stay."""
        try:
            return await super().run_action(action, default_namespace, namespaces)
        except Exception:
            if not self._stays_though_changed():
                raise
            return True

    def _handle_exception(self, error: Exception) -> None:
        if not (isinstance(error, WorkerFailed) and self._stays_though_changed()):
            super()._handle_exception(error)

    def _stays_though_changed(self) -> bool:
        """Whether a fault comes of a changed program, as is told then. What is typed and could not
        be saved any more has to go into a file: then the screens end."""
        stays = self.is_changed() and not self._unkept()
        if stays:
            self.tell(CHANGED, warning=True)
        return stays

    def _fatal_error(self) -> None:
        """A fault of ours: one sentence, where the toolkit would print all of its inside."""
        if not self._broke_off:
            self._broke_off = True
            fault = self._exception or RuntimeError("unknown")
            self.panic(Text(broken_off(fault, self._unkept(), changed=self.is_changed())))

    def end_from_outside(self, number: int) -> None:
        """A signal asks the screens to end: at once, but nothing that was typed is thrown away."""
        if self.return_value is None:  # a terminal that is gone signals it, and closes too
            self.exit(128 + number, message=Text(ended_from_outside(number, self._unkept())))

    def _unkept(self) -> list[str]:
        """What was typed on any screen and is not written yet."""
        return [
            line
            for screen in self.screen_stack
            if isinstance(screen, Page | Dialog)
            for line in screen.unkept()
        ]
