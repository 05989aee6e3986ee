"""The keys that act on what the cursor is on, the same on every page: on a task, on the plan, on a
person."""

from __future__ import annotations

from textual.binding import Binding

from crewboard.logbook.acts import SignIn, SignOut
from crewboard.terminal.page import Page

OTHER_KEY = Binding(
    "o",
    "other",
    "other",
    id="other",
    tooltip="reopen, set aside, hours left, a near miss or an injury",
)
HOURS_KEY = Binding(
    "h", "hours", "hours", id="hours", tooltip="hours of the whole crew in one table"
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


class TaskKeys(Page):
    """A page on which `chosen_task` is the id of the task that the keys are for."""

    @property
    def chosen_task(self) -> str:
        """The id of the chosen task, empty where none is."""
        raise NotImplementedError

    @property
    def chosen_hold(self) -> str:
        """The id of the hold on or before the chosen task, empty where none is."""
        from crewboard.terminal.doing.hold import hold_on

        return hold_on(self.board_app.board, self.chosen_task)

    def action_look(self) -> None:
        from crewboard.terminal.doing.hold import look_at_hold

        self.board_app.run_worker(look_at_hold(self.board_app, self.chosen_hold))

    def action_why(self) -> None:
        if self.chosen_task:
            self.board_app.why(self.chosen_task)

    def action_then(self) -> None:
        if self.chosen_task:
            self.board_app.what_then(self.chosen_task)

    def action_begin(self) -> None:
        from crewboard.terminal.doing.begin import begin

        self.board_app.run_worker(begin(self.board_app, self.chosen_task))

    def action_finish(self) -> None:
        from crewboard.terminal.doing.finish import finish

        self.board_app.run_worker(finish(self.board_app, self.chosen_task))

    def action_checks(self) -> None:
        from crewboard.terminal.doing.sign_checks import sign_checks

        self.board_app.run_worker(sign_checks(self.board_app, self.chosen_task))

    def action_note(self) -> None:
        from crewboard.terminal.doing.other import note

        self.board_app.run_worker(note(self.board_app, self.chosen_task))

    def action_other(self) -> None:
        from crewboard.terminal.doing.other import other

        self.board_app.run_worker(other(self.board_app, self.chosen_task))

    def action_hours(self) -> None:
        self.board_app.run_worker(self._hours())

    async def _hours(self) -> None:
        from crewboard.terminal.doing.which_day import which_day
        from crewboard.terminal.screens.hours import HoursPage

        if day := await which_day(self.board_app):
            self.app.push_screen(HoursPage(day))


PLAN_KEYS: list[Binding] = [
    Binding("e", "edit", "edit", id="edit", tooltip="edit what the cursor is on"),
    Binding("a", "add", "add", id="add", tooltip="add a task, a part or a component"),
    Binding("x", "remove", "take out", show=False, id="remove", tooltip="take it out of the plan"),
]


class PlanKeys(Page):
    """A page on which `chosen` is the id of the component, part or task under the cursor."""

    @property
    def chosen(self) -> str:
        raise NotImplementedError

    def reveal(self, some_id: str) -> None:
        """Show what was just kept, where the page can."""

    def action_edit(self) -> None:
        if self.chosen:
            self.board_app.run_worker(self._edit(self.chosen))

    def action_add(self) -> None:
        self.board_app.run_worker(self._add(self.chosen))

    def action_remove(self) -> None:
        from crewboard.terminal.planning.edit import remove

        if self.chosen:
            self.board_app.run_worker(remove(self.board_app, self.chosen))

    async def _edit(self, some_id: str) -> None:
        from crewboard.terminal.planning.edit import edit

        if kept := await edit(self.board_app, some_id):
            self.reveal(kept)

    async def _add(self, near: str) -> None:
        from crewboard.terminal.planning.edit import add

        if kept := await add(self.board_app, near):
            self.reveal(kept)


PERSON_KEYS: list[Binding] = [
    Binding("e", "edit", "edit", id="edit", tooltip="edit the person"),
    Binding("c", "certificate", "certificate", id="certificate", tooltip="add or renew a paper"),
]


class PersonKeys(Page):
    """A page on which `chosen_person` is the id of the person that the keys are for."""

    @property
    def chosen_person(self) -> str:
        raise NotImplementedError

    def reveal(self, who: str) -> None:
        """Show the person, where the page can."""

    def action_in_or_out(self) -> None:
        app, who = self.board_app, self.chosen_person
        if not who:
            return
        person = app.board.plan.crew.get(who)
        name = person.name if person else who
        if any(visit.who == who for visit in app.board.present):
            app.record([SignOut(who)], then=lambda _: app.tell(f"signed out: {name}"))
        else:
            app.record([SignIn(who)], then=lambda _: app.tell(f"signed in: {name}"))

    def action_edit(self) -> None:
        if self.chosen_person:
            self.board_app.run_worker(self._edit(self.chosen_person))

    def action_certificate(self) -> None:
        from crewboard.terminal.planning.person_form import renew

        if self.chosen_person:
            self.board_app.run_worker(renew(self.board_app, self.chosen_person))

    async def _edit(self, who: str) -> None:
        from crewboard.terminal.planning.person_form import edit_person

        if kept := await edit_person(self.board_app, who):
            self.reveal(kept)
