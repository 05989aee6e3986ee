"""Look at a hold, release it, make it longer, or start one by hand: a delivery waited for, a
decision, something that has to dry."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.folder.edit.plan_edits import Key
from crewboard.logbook.acts import Extended, HoldStarted, Released
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import hold_title, quoted_hold
from crewboard.order.reckoning.released import bend_on
from crewboard.order.said import day_and_time, how_long
from crewboard.telling.holds import hold_lines
from crewboard.telling.line import GAP, Line
from crewboard.telling.on_hold import together_title
from crewboard.telling.series import member_name
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine, AskSpan
from crewboard.terminal.dialogs.choose import your_name
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.dialogs.numbered import PickNumbered
from crewboard.terminal.dialogs.pick import Choice, PickOne, PickSeveral
from crewboard.terminal.doing.entry_form import record_here
from crewboard.terminal.doing.release_bend import release_bend
from crewboard.terminal.doing.which import named
from crewboard.terminal.forms.fields import Field, Typed, YesNo
from crewboard.terminal.forms.form import Form
from crewboard.terminal.forms.picked import OneOf
from crewboard.terminal.forms.reading import span
from crewboard.terminal.planning.choices import RELEASES, kind_choices, order_choices, piece_choices
from crewboard.terminal.widgets.prose import Prose


class HoldDialog(Dialog[str]):
    """A hold to read, or several on pieces of one series; answers "release" or "edit", None when
    left."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("v", "answer('release')", "release", show=False),
        Binding("e", "answer('edit')", "more time", show=False),
        Binding("enter", "leave", "OK", show=False),
    ]

    def __init__(self, board: Board, holds: Sequence[StandingHold]) -> None:
        title = together_title(board, holds)
        super().__init__(f'Hold: "{title}"' if holds[0].task else f"Hold: {title}")
        self.board, self.holds = board, holds

    def inside(self) -> Iterable[Widget]:
        lines: list[Line] = []
        several = len(self.holds) > 1
        for hold in self.holds:
            lines += [*([GAP] if lines else []), *hold_lines(self.board, hold, named=several)]
        yield Prose(lines)

    @property
    def _stop_work(self) -> bool:
        return any(hold.stops_work for hold in self.holds)

    @property
    def _not_released(self) -> bool:
        return any(hold.released_at is None for hold in self.holds)

    def foot(self) -> str:
        if self._stop_work:
            running = any(hold.stage == "running" for hold in self.holds)
            early = " early" if running else " after a look"
            return f"v release{early}   e edit: more time   Esc cancel"
        return "e edit: more time   Esc cancel" if self._not_released else "Enter OK"

    def action_answer(self, word: str) -> None:
        still_tacky = word == "edit" and self._not_released
        if self._stop_work or still_tacky:
            self.dismiss(word)


async def look_at_hold(app: BoardApp, *hold_ids: str) -> None:
    """Show a hold, or one that is picked, and do what is answered; of several on pieces of one
    series it is asked then which are meant."""
    ids = [some_id for some_id in hold_ids if some_id] or [await _choose(app) or ""]
    holds = [app.board.holds[some_id] for some_id in ids if some_id in app.board.holds]
    if not holds:
        return
    word = await app.push_screen_wait(HoldDialog(app.board, holds))
    if word is not None and not app.by:  # whoever changes a hold answers for it by name
        await your_name(app)
    if word is not None and len(holds) > 1:
        holds = await which_holds(app, holds)
    if word == "release" and holds:
        await release(app, *holds)
    elif word == "edit" and holds:
        await extend(app, *holds)


async def which_holds(app: BoardApp, holds: Sequence[StandingHold]) -> list[StandingHold]:
    """Which of the holds on several pieces are meant."""
    names = {hold.id: member_name(app.board, hold.task) for hold in holds}
    choices = [Choice(hold.id, names[hold.id], _note(app.board, hold)) for hold in holds]
    picked = await app.push_screen_wait(PickSeveral(f"Which? {_named(app.board, holds)}", choices))
    return [hold for hold in holds if hold.id in (picked or ())]


def _named(board: Board, holds: Sequence[StandingHold]) -> str:
    if len(holds) == 1:
        return quoted_hold(board.plan, holds[0])
    return named(board, [hold.task for hold in holds])


async def release(app: BoardApp, *holds: StandingHold) -> None:
    """Release the holds, with one word on all; early needs the reason. Of a bend it is asked what
    that came to, of several one after the other. Somebody answers for it by name."""
    if not app.by:
        await your_name(app)
    early = any(hold.stage == "running" for hold in holds)
    label = "why it is released early, for the logbook" if early else "what you found (optional)"
    intro = ""
    ends = [hold.until for hold in holds if hold.until is not None]
    unread = next((hold.unread for hold in holds if hold.unread), "")
    if early and ends:
        intro = f"Its time runs until {day_and_time(max(ends))}."
    elif unread:
        intro = f"Nobody knows until when it runs: {unread}."
    bends = [(hold, bend) for hold in holds if (bend := bend_on(app.board, hold)) is not None]
    if bends:
        for hold, bend in bends:
            if not await release_bend(app, hold, bend, intro):
                return
        return
    name, refused = _named(app.board, holds), False
    if all(hold.kind == "approval" for hold in holds):
        answers = [
            Choice("yes", "approved", "what waits for it goes on"),
            Choice("no", "refused", "what waits for it goes on waiting"),
        ]
        answer = await app.push_screen_wait(PickNumbered(f"What is the answer? {name}", answers))
        if answer is None:
            return
        early, refused = False, answer == "no"
        label = "why it was refused" if refused else "in which words (optional)"
    title = f"{'Refused' if refused else 'Release'}: {name}"
    ask = AskLine(title, label, intro=intro, needed=early or refused)
    why = await app.push_screen_wait(ask)
    acts = [Released(hold.id, why or "", refused) for hold in holds]
    if why is not None and (await app.keep(acts)).kept:
        app.tell(f"{'refused' if refused else 'released'}: {name}")


async def extend(app: BoardApp, *holds: StandingHold) -> None:
    """Make the holds longer, with the reason. Somebody answers for it by name."""
    if not app.by:
        await your_name(app)
    name = _named(app.board, holds)
    title = f"Extend: {name}"
    span = await app.push_screen_wait(AskSpan(title, "by how long"))
    if span is None:
        return
    why = await app.push_screen_wait(AskLine(title, "why it is made longer, for the logbook"))
    if why and (await app.keep([Extended(hold.id, span, None, why) for hold in holds])).kept:
        later = app.board.holds.get(holds[0].id)
        end = f" to {day_and_time(later.until)}" if later and later.until else ""
        app.tell(f"extended{end}: {name}")


def hold_on(board: Board, some_id: str) -> str:
    """The id of the hold that keeps a task where it is, else of one on the task or component
    itself, also when its time is lately over; empty where there is none."""
    standing = board.standings.get(some_id)
    if standing is not None and standing.holds:
        return standing.holds[0]
    on = (h.id for h in _not_released(board) if some_id in (h.task, h.component, *h.pieces))
    return next(on, "")


def _not_released(board: Board) -> list[StandingHold]:
    """What runs, waits for a look or is lately over: all that can be made longer."""
    holds = [*board.stopping(), *board.lately_over()]
    return [hold for hold in holds if hold.released_at is None]


async def _choose(app: BoardApp) -> str | None:
    board = app.board
    choices = [
        Choice(
            hold.id,
            hold_title(board.plan, hold),
            _note(board, hold),
            {"due": "must", "running": "caution", "over": "faint"}[hold.stage],
        )
        for hold in _not_released(board)
    ]
    if len(choices) == 1:
        return choices[0].id
    return await app.push_screen_wait(PickOne("Which hold?", choices, empty="no hold is running"))


def _note(board: Board, hold: StandingHold) -> str:
    if hold.stage != "running":
        return "due for a look" if hold.stage == "due" else "its time is over"
    if hold.unread:
        return "its end is not known"
    return f"{how_long(hold.until - board.at)} to go" if hold.until else "until released"


def _all_choices(board: Board) -> list[Choice]:
    """All that a hold can be put on; the pieces last, where there are any."""
    pieces = piece_choices(board)
    return [*order_choices(board), *([Choice("", "Pieces"), *pieces] if pieces else ())]


async def start_hold(app: BoardApp) -> None:
    """Start a hold by hand, on a task, on a component or on a piece."""
    board = app.board
    fields: list[Field] = [
        OneOf("on", "on", "", lambda: _all_choices(board), needed=True),
        OneOf("hold", "kind", "", kind_choices, needed=True),
        Typed("lasts", "lasts", "", span, "36 hours, 2 days, 1 month; empty: until released"),
        OneOf("release", "ends", "", lambda: RELEASES),
        YesNo("leave_alone", "leave alone", False),
        Typed("why", "why", "", hint="what has to set, arrive or be decided"),
    ]

    def keep(answers: Mapping[Key, Any]) -> Sequence[Refusal]:
        on = answers["on"]
        return record_here(
            app,
            HoldStarted(
                answers["hold"],
                on if on in board.plan.tasks else "",
                on if on in board.plan.components else "",
                answers.get("lasts"),
                answers.get("release", ""),
                bool(answers.get("leave_alone")),
                answers.get("why", ""),
                on if on in board.plan.pieces else "",
            ),
        )

    if await app.push_screen_wait(Form("Start a hold", fields, keep, whole=True)):
        app.tell("the hold is running")
