"""Finish tasks: when, with what note, which clock that starts; then it is written."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import datetime
from typing import NamedTuple

from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from crewboard.logbook.acts import Finished
from crewboard.order.board import Board
from crewboard.order.holds.words import course_in_words, starts_in_words
from crewboard.order.safety.checks import Asked, checks_of, hazards_of
from crewboard.order.safety.finished_without import who_did_it
from crewboard.order.said import component_name, day_and_time, how_many, listed
from crewboard.order.within_words import would_follow_in_words
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.plan.hazard import When
from crewboard.telling.line import Line
from crewboard.telling.why import frees_together
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.choose import crew_choices
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.dialogs.pick import PickSeveral
from crewboard.terminal.doing.entry_form import moments
from crewboard.terminal.doing.old_piece import place_old_pieces
from crewboard.terminal.doing.sign_checks import sign_these
from crewboard.terminal.doing.which import named, which
from crewboard.terminal.meant import Meant
from crewboard.terminal.widgets.prose import Prose


class FinishedAt(NamedTuple):
    """When the work was finished, and what is to be noted with it; when it began, where nobody had
    written that."""

    at: datetime
    note: str
    began: datetime | None = None


class FinishDialog(Dialog[FinishedAt]):
    """`tells` gives the lines for a moment: which hold starts then, and what it stops.

    With `began` it asks when the work began, and reads what is typed by that.
    """

    AUTO_FOCUS = "#at"

    def __init__(
        self,
        title: str,
        now: datetime,
        tells: Callable[[datetime], Sequence[Line]],
        began: Callable[[str], datetime] | None = None,
    ) -> None:
        super().__init__(title)
        self.now, self.tells, self.began = now, tells, began

    def inside(self) -> Iterable[Widget]:
        yield Prose(self.tells(self.now))
        yield Static(Content("finished at (hours:minutes, today)"), classes="label")
        yield Input(f"{self.now:%H:%M}", id="at", select_on_focus=True)
        if self.began is not None:
            yield Static(Content("it began at (nobody wrote that)"), classes="label")
            yield Input(id="began", placeholder="09:30, or 2026-05-02 09:30")
        yield Static(Content("note"), classes="label")
        yield Input(id="note", placeholder="anything worth noting")
        yield Static("", classes="wrong", id="wrong")

    def foot(self) -> str:
        return "Enter finish   Tab next   Esc cancel"

    def on_input_changed(self, event: Input.Changed) -> None:
        if event.input.id == "at" and (at := moment_on(self.now, event.value)) is not None:
            self.query_one(Prose).tell(self.tells(at))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        at = moment_on(self.now, self.query_one("#at", Input).value)
        wrong = self.query_one("#wrong", Static)
        if at is None:
            wrong.update(Content("write a time such as 15:40"))
        elif at > self.now:
            wrong.update(Content("that is later than it is now"))
        else:
            self._done(at, wrong)

    def _done(self, at: datetime, wrong: Static) -> None:
        began = None
        typed = self.query_one("#began", Input).value.strip() if self.began is not None else ""
        if self.began is not None and typed:
            try:
                began = self.began(typed)
            except Unread as unread:
                wrong.update(Content(str(unread)))
                return
        self.dismiss(FinishedAt(at, self.query_one("#note", Input).value.strip(), began))


def moment_on(now: datetime, text: str) -> datetime | None:
    """The time of day, such as "15:40" or "15.40", on the day of `now`; None where it is none.

    The present minute means now, to the second.
    """
    try:
        clock = as_typed.clock(text)
    except Unread:
        return None
    at = datetime.combine(now.date(), clock)
    return now if at == now.replace(second=0, microsecond=0) else at


async def finish(app: BoardApp, meant: Meant) -> bool:
    """Finish the tasks that are meant, all at one moment; whether it was kept."""
    tasks = await which(app, meant, "Finish which", ("under way",), ("ready",))
    if not tasks:
        return False
    people: tuple[str, ...] = ()
    began = None
    unbegun = {task for task in tasks if app.board[task].begun is None}
    if unbegun:
        picked = await app.push_screen_wait(_who_did_it(app.board, sorted(unbegun)))
        if picked is None:
            return False
        people, began = picked, moments(app.board, app.now().date())

    def tells(at: datetime) -> list[Line]:
        return list(_tells(app.board, tasks, at))

    dialog = FinishDialog(f"Finish: {named(app.board, tasks)}", app.now(), tells, began)
    done = await app.push_screen_wait(dialog)
    if done is None:
        return False
    acts = [Finished(task, None, done.note) for task in tasks]
    acts = [
        act._replace(crew=people, began=done.began) if act.task in unbegun else act for act in acts
    ]
    outcome = await app.keep(acts, done.at)
    if outcome.kept:
        await _sign_after(app, tasks)
        await place_old_pieces(app, tasks)
        held = "".join(dict.fromkeys(_held(app.board, task) for task in tasks))
        finished = f"finished: {named(app.board, tasks)}{held}"
        app.tell("; ".join([finished, *outcome.remarks]), warning=bool(outcome.remarks))
    return outcome.kept


def _who_did_it(board: Board, tasks: Sequence[str]) -> PickSeveral:
    """Nobody wrote that they began: who did it is asked, with whoever has hours on them marked."""
    hours = [who for task in tasks for who in who_did_it(board.logbook, task, board.at)]
    return PickSeveral(
        f"Who did it? {named(board, tasks)}",
        crew_choices(board),
        marked=hours,
        intro="Nobody wrote that it began. Who is not known is left unmarked.",
        none_too=True,
    )


def _held(board: Board, task_id: str) -> str:
    """What the finish started, and when that ends."""
    hold = next((board.holds[hold_id] for hold_id in board[task_id].holds), None)
    return f"; {course_in_words(board.plan, hold, board.at)}" if hold is not None else ""


async def _sign_after(app: BoardApp, tasks: Sequence[str]) -> None:
    """Put the checks that come after the work, while the people are still at it."""

    def after(board: Board) -> list[Asked]:
        return [asked for task in tasks for asked in checks_of(board, task, when="after")]

    def all_signed(board: Board) -> bool:
        return not any(asked.open for asked in after(board))

    if not all_signed(app.board):
        title = f"After the work: {named(app.board, tasks)}"
        await sign_these(app, title, after, enough=all_signed)


def _clocks(board: Board, task_id: str, at: datetime) -> Iterator[Line]:
    """The protective clocks that run from the end of the work."""
    for hazard in hazards_of(board, task_id, board[task_id].crew):
        for clock in hazard.clocks:
            rule = hazard.ruling(clock)
            if rule is None or rule.span is None:
                continue
            until = board.plan.clock.add(at, rule.span)
            end = f"{until:%H:%M}" if until.date() == at.date() else day_and_time(until)
            clock_text = f"{clock.kind}, {rule.amount}, until {end}"
            if clock.starts:
                clock_text += f'; it counts from when "{clock.starts}" is signed'
            yield Line(clock_text, "warning", 0, "This starts a clock:")


def _tells(board: Board, tasks: Sequence[str], at: datetime) -> Iterator[Line]:
    """What the finish starts and frees. Several tasks are told together, what they have in common
    once; which of them a line is about is said where it is not all of them."""
    told: dict[Line, list[str]] = {}
    for task in tasks:
        for line in _starts(board, task, at):
            told.setdefault(line, []).append(task)
    if not any(board.plan.tasks[task].hold for task in tasks):
        yield Line("No hold follows.")
    for line, of in told.items():
        some = f" ({named(board, of)})" if len(of) < len(tasks) else ""
        yield line._replace(text=f"{line.text}{some}")
    for sentence in would_follow_in_words(board, tasks, at):
        yield Line(sentence, "must", 0, "Must follow:")
    yield Line(frees_together(board, tasks), "plain", 0, "Then:")
    before = _open(board, tasks, "before")
    if before:
        titles = listed(dict.fromkeys(asked.check.short for asked in before))
        yield Line(f"{titles}: they came before the work", "warning", 0, "Not signed:")
    after = _open(board, tasks, "after")
    if after:
        titles = listed(dict.fromkeys(asked.check.short for asked in after))
        to_sign = f"{how_many(len(after), 'check')} after the work to sign: {titles}"
        yield Line(to_sign, "must", 0, "Must do:")
    if not all(board[task].hours for task in tasks):
        yield Line("no hours were logged on it yet: h logs them", "faint")
    yield Line("")


def _starts(board: Board, task_id: str, at: datetime) -> Iterator[Line]:
    """The hold and the clocks that the finish of one task starts."""
    task = board.plan.tasks[task_id]
    if task.hold is not None:
        yield Line(starts_in_words(board, task_id, at), "caution", 0, "This starts a clock:")
        if task.hold.leave_alone:
            component = component_name(board.plan, task.component)
            yield Line(f"{component}, until it is over", "danger", 0, "Leave alone:")
    yield from _clocks(board, task_id, at)


def _open(board: Board, tasks: Sequence[str], moment: When) -> list[Asked]:
    asked = (one for task in tasks for one in checks_of(board, task, when=moment))
    return [one for one in asked if one.open]
