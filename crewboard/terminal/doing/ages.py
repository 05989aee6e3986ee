"""Ask once whether people are 18 or older, and keep the answer in crew.toml."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.folder.edit.plan_edits import Change, PlanEdit
from crewboard.order.may.people import ages_unsaid
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice, PickSeveral
from crewboard.terminal.planning.written import change_here


async def ask_ages(app: BoardApp, people: Iterable[str]) -> None:
    """Ask for those of the people of whom nobody has said it. Who leaves the question is asked
    again: an age that was not said counts for nothing where work is dangerous."""
    unsaid = ages_unsaid(app.board, people)
    if not unsaid:
        return
    intro = "Mark them. Asked once and saved in crew.toml; whoever stays unmarked is under 18."
    choices = [Choice(who, app.board.plan.crew[who].name) for who in unsaid]
    title = "Who of them is 18 or older?" if len(unsaid) > 1 else "Is this person 18 or older?"
    adults = await app.push_screen_wait(PickSeveral(title, choices, intro=intro, none_too=True))
    if adults is None:
        return
    edits: list[PlanEdit] = [Change("person", who, {"adult": who in adults}) for who in unsaid]
    refused = change_here(app, edits, "who is 18 or older")
    if refused:
        app.tell("; ".join(map(str, refused)), warning=True)
