"""What is done with a task less often: reopen it, set it aside, say what is left, an accident."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from crewboard.folder.edit.plan_edits import Key
from crewboard.logbook.acts import HoursLeft, Incident, Reopened, SetAside
from crewboard.order.refusal import Refusal
from crewboard.order.said import task_title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.forms.fields import Field, Typed, YesNo
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.picked import OneOf, SomeOf
from crewboard.terminal.forms.reading import hours, needed
from crewboard.terminal.forms.recorded import record_here
from crewboard.terminal.people import crew_choices
from crewboard.terminal.planning.choices import place_choices


async def other(app: BoardApp, task_id: str) -> None:
    """Offer what fits the task as it stands, and do what is picked."""
    choices = [*_for_task(app, task_id), Choice("incident", "near miss or injury", "write it down")]
    match await app.push_screen_wait(PickOne("Other", choices)):
        case "reopen":
            await _reopen(app, task_id)
        case "aside":
            await _set_aside(app, task_id)
        case "back":
            if (await app.keep([SetAside(task_id, back=True)])).kept:
                app.tell("taken up again")
        case "left":
            await _hours_left(app, task_id)
        case "incident":
            await _incident(app, task_id)


def _for_task(app: BoardApp, task_id: str) -> list[Choice]:
    if task_id not in app.board.standings:
        return []
    standing = app.board[task_id]
    if standing.work_done:
        return [Choice("reopen", "reopen", "it has to be worked on again")]
    if standing.state == "set aside":
        return [Choice("back", "take up again", "it was set aside")]
    return [
        Choice("left", "hours left", "a new estimate of what is to do"),
        Choice("aside", "set aside", "not to be done for now"),
    ]


async def _reopen(app: BoardApp, task_id: str) -> None:
    title = task_title(app.board.plan, task_id)
    why = await app.push_screen_wait(
        AskLine(f"Reopen: {title}", "why; what its finish started is void", needed=False)
    )
    if why is not None and (await app.keep([Reopened(task_id, why)])).kept:
        app.tell(f"reopened: {title}")


async def _set_aside(app: BoardApp, task_id: str) -> None:
    title = task_title(app.board.plan, task_id)
    why = await app.push_screen_wait(AskLine(f"Set aside: {title}", "why"))
    if why and (await app.keep([SetAside(task_id, why)])).kept:
        app.tell(f"set aside: {title}")


async def _hours_left(app: BoardApp, task_id: str) -> None:
    fields: list[Field] = [
        Typed("hours", "person-hours", "", hours, "still to do, such as 6"),
        Typed("why", "why", "", hint="two more sills are soft"),
    ]

    def keep(said: Mapping[Key, Any]) -> Sequence[Refusal]:
        return record_here(app, HoursLeft(task_id, said["hours"], said.get("why", "")))

    title = task_title(app.board.plan, task_id)
    if await app.push_screen_wait(Form(f"Hours left: {title}", fields, keep, whole=True)):
        app.tell("kept in the logbook")


async def _incident(app: BoardApp, task_id: str) -> None:
    board = app.board
    fields: list[Field] = [
        Typed("what", "what happened", "", needed),
        YesNo("injury", "somebody hurt", False),
        OneOf("place", "place", "", lambda: place_choices(board)),
        SomeOf("who", "whom it concerns", (), lambda: crew_choices(board)),
        SomeOf("seen_by", "seen by", (), lambda: crew_choices(board)),
        Typed("done", "what was done", ""),
    ]

    def keep(said: Mapping[Key, Any]) -> Sequence[Refusal]:
        act = Incident(
            said["what"],
            bool(said.get("injury")),
            said.get("place", ""),
            task_id,
            said.get("who", ()),
            said.get("seen_by", ()),
            said.get("done", ""),
        )
        return record_here(app, act)

    emergency = board.plan.vehicle.shop.emergency
    says = f"First help and call: {emergency}." if emergency else "First help; then write it down."
    form = Form("Near miss or injury", fields, keep, whole=True, says=says)
    if await app.push_screen_wait(form):
        app.tell("kept in the logbook")
