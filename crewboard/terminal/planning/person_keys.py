"""The keys that act on a person, the same on every page that shows one."""

from __future__ import annotations

from typing import ClassVar, cast

from textual.binding import Binding

from crewboard.logbook.acts import SignIn, SignOut
from crewboard.terminal.board_app import BoardApp

PERSON_KEYS: list[Binding] = [
    Binding("e", "edit", "edit", id="edit", tooltip="edit the person"),
    Binding("c", "certificate", "certificate", id="certificate", tooltip="add or renew a paper"),
]


class PersonKeys:
    """Mixed into a page: `chosen_person` is the id of the person that the keys are for."""

    app: ClassVar[property]

    @property
    def chosen_person(self) -> str:
        raise NotImplementedError

    @property
    def _whole(self) -> BoardApp:
        return cast("BoardApp", self.app)

    def reveal(self, who: str) -> None:
        """Show the person, where the page can."""

    def action_in_or_out(self) -> None:
        app, who = self._whole, self.chosen_person
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
            self._whole.run_worker(self._edit(self.chosen_person))

    def action_certificate(self) -> None:
        from crewboard.terminal.planning.person_form import renew

        if self.chosen_person:
            self._whole.run_worker(renew(self._whole, self.chosen_person))

    async def _edit(self, who: str) -> None:
        from crewboard.terminal.planning.person_form import edit_person

        if kept := await edit_person(self._whole, who):
            self.reveal(kept)
