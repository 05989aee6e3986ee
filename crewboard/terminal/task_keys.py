"""The keys that act on a chosen task, the same on every page that has one."""

from __future__ import annotations

from typing import ClassVar, cast

from textual.binding import Binding

from crewboard.terminal.board_app import BoardApp

OTHER_KEY = Binding(
    "o",
    "other",
    "other",
    id="other",
    tooltip="reopen, set aside, hours left, a near miss or an injury",
)
TASK_KEYS: list[Binding] = [
    Binding("b", "begin", "begin", id="begin", tooltip="begin the task: pick who works on it"),
    Binding("f", "finish", "finish", id="finish", tooltip="finish the task; its hold starts"),
    Binding("c", "checks", "check", id="checks", tooltip="sign the safety checks of the task"),
    Binding("l", "look", "look", id="look", tooltip="look at a hold: release or extend it"),
    Binding("w", "why", "why", id="why", tooltip="why the task stands where it stands"),
    Binding("t", "then", "then", id="then", tooltip="what then: what finishing it lets go"),
    OTHER_KEY,
    Binding("n", "note", "note", id="note", tooltip="write a note, on the task or on the day"),
]


class TaskKeys:
    """Mixed into a page: `chosen_task` is the id of the task that the keys are for."""

    app: ClassVar[property]

    @property
    def chosen_task(self) -> str:
        """The id of the chosen task, empty where none is."""
        raise NotImplementedError

    @property
    def _app(self) -> BoardApp:
        return cast("BoardApp", self.app)

    @property
    def chosen_hold(self) -> str:
        """The id of the hold on or before the chosen task, empty where none is."""
        from crewboard.terminal.doing.hold import hold_on

        return hold_on(self._app.board, self.chosen_task)

    def action_look(self) -> None:
        from crewboard.terminal.doing.hold import look_at_hold

        self._app.run_worker(look_at_hold(self._app, self.chosen_hold))

    def action_why(self) -> None:
        if self.chosen_task:
            self._app.why(self.chosen_task)

    def action_then(self) -> None:
        if self.chosen_task:
            self._app.what_then(self.chosen_task)

    def action_begin(self) -> None:
        from crewboard.terminal.doing.begin import begin

        self._app.run_worker(begin(self._app, self.chosen_task))

    def action_finish(self) -> None:
        from crewboard.terminal.doing.finish import finish

        self._app.run_worker(finish(self._app, self.chosen_task))

    def action_checks(self) -> None:
        from crewboard.terminal.doing.sign_checks import sign_checks

        self._app.run_worker(sign_checks(self._app, self.chosen_task))

    def action_note(self) -> None:
        from crewboard.terminal.doing.other import note

        self._app.run_worker(note(self._app, self.chosen_task))

    def action_other(self) -> None:
        from crewboard.terminal.doing.other import other

        self._app.run_worker(other(self._app, self.chosen_task))
