"""Release, extend and start holds; write down what the thermometer says."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from crewboard.folder.plan_edits import Key
from crewboard.logbook.acts import Act, Extended, HoldStarted, Reading, Released
from crewboard.order.admit import Refusal
from crewboard.order.running import RunningHold
from crewboard.order.why import hold_in_words
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.forms.fields import Field, OneOf, Typed, YesNo
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.reading import moment, needed, number, span
from crewboard.terminal.planning.choices import RELEASES, kind_choices, order_choices
from crewboard.terminal.told import hold_title
from crewboard.workbench import Said

if TYPE_CHECKING:
    from crewboard.terminal.app import CrewboardApp


async def release(app: CrewboardApp, hold_id: str) -> None:
    """Let a hold go; before its time with the reason."""
    hold = _not_over(app, hold_id)
    if hold is None:
        return
    early = hold.until is not None and hold.stage == "running"
    label = "why it is let go early" if early else "what the look showed (may stay empty)"
    says = hold_in_words(app.board, hold)
    why = await app.push_screen_wait(AskLine("Release", label, says=says, needed=early))
    if why is not None:
        name = hold_title(app.board, hold)
        app.record([Released(hold_id, why)], then=lambda _: app.tell(f"released: {name}"))


async def extend(app: CrewboardApp, hold_id: str) -> None:
    """Make a hold longer, by a span or until a moment, with the reason."""
    hold = _not_over(app, hold_id)
    if hold is None:
        return
    fields: list[Field] = [
        Typed("lasts", "by how long", "", span, "2 days, 36 hours, 1 month"),
        Typed("until", "or until when", "", moment, "2026-05-09 12:00"),
        Typed("why", "why", "", needed, "still soft at the seam"),
    ]

    def keep(said: Mapping[Key, Any]) -> Sequence[Refusal]:
        act = Extended(hold_id, said.get("lasts"), said.get("until"), said.get("why", ""))
        return record_here(app, act)

    says = hold_in_words(app.board, hold)
    if await app.push_screen_wait(
        Form("Make the hold longer", fields, keep, whole=True, says=says)
    ):
        until = app.board.holds[hold_id].until
        app.tell(f"extended to {until:%d.%m. %H:%M}" if until else "extended")


async def start(app: CrewboardApp) -> None:
    """Start a hold by hand, on a task or on a component."""
    board = app.board
    fields: list[Field] = [
        OneOf("on", "on", "", lambda: order_choices(board), needed=True),
        OneOf("hold", "kind", "", kind_choices, needed=True),
        Typed("lasts", "lasts", "", span, "36 hours, 2 days, 1 month; empty: until released"),
        OneOf("release", "ends", "", lambda: RELEASES),
        YesNo("leave_alone", "leave alone", False),
        Typed("why", "why", "", hint="what has to set, arrive or be decided"),
    ]

    def keep(said: Mapping[Key, Any]) -> Sequence[Refusal]:
        on = said.get("on", "")
        return record_here(
            app,
            HoldStarted(
                said.get("hold", ""),
                on if on in board.plan.tasks else "",
                on if on in board.plan.components else "",
                said.get("lasts"),
                said.get("release", ""),
                bool(said.get("leave_alone")),
                said.get("why", ""),
            ),
        )

    if await app.push_screen_wait(Form("Start a hold", fields, keep, whole=True)):
        app.tell("the hold is running")


async def read_the_shop(app: CrewboardApp) -> None:
    """Write down temperature and humidity; holds with conditions go by them."""
    imperial = app.board.plan.vehicle.units == "imperial"
    fields: list[Field] = [
        Typed("warm", "°F" if imperial else "°C", "", number, "65" if imperial else "18.5"),
        Typed("humidity", "humidity %", "", number, "60"),
        Typed("note", "note", "", hint="where it was read"),
    ]

    def keep(said: Mapping[Key, Any]) -> Sequence[Refusal]:
        warm = said.get("warm")
        celsius = round((warm - 32) / 1.8, 1) if imperial and warm is not None else warm
        return record_here(app, Reading(celsius, said.get("humidity"), said.get("note", "")))

    if await app.push_screen_wait(Form("Shop reading", fields, keep, whole=True)):
        app.tell("written down")


def record_here(app: CrewboardApp, act: Act) -> Sequence[Refusal]:
    """Write the act; what stands against it goes back to the form, where nothing is lost."""
    now = app.now()
    outcome = app.workbench.record([Said(act, now)], by=app.by, now=now)
    app.look_now()
    return outcome.refused


def _not_over(app: CrewboardApp, hold_id: str) -> RunningHold | None:
    hold = app.board.holds.get(hold_id)
    if hold is not None and not hold.stops_work:
        app.tell("that hold is over already", warning=True)
        return None
    return hold
