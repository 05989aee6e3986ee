"""The checks of a task in one list, and the full text of the one that is looked at: each is read,
and signed, by itself."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from time import monotonic
from typing import ClassVar, NamedTuple

from textual import events
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from crewboard.legible import legible
from crewboard.order.board import Board
from crewboard.order.safety.checks import Asked
from crewboard.order.safety.signing import signers, who_signs
from crewboard.order.said import person
from crewboard.telling.row import Row, heading
from crewboard.telling.safety import AUTHORISES_NOTHING, check_state, check_state_shortly
from crewboard.telling.series import pieces_of
from crewboard.terminal.cells import wrapped
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.widgets.rows import Column, RowList

_STATE = 34  # cells that the state of a check takes at most
_WITH_STATE = 90  # cells of a window with room for who signed beside the names of the checks
_INSIDE = 8  # cells of the window beside the text of a dialog
_AROUND = 10  # lines of the window beside the list and the text of a check
_SIGNED = re.compile(r" (?=\d)")  # before when, and by whom, it was signed
_TEXT = 4  # lines that the text of a check takes as a rule


class AskedOnce(NamedTuple):
    """A check that is looked at once for all of these tasks, the pieces of a series."""

    check: Asked
    tasks: tuple[str, ...] = ()


class Looked(NamedTuple):
    """The check that is to be signed, whether it applies, who is to sign it (somebody to be picked
    where `who` is empty), and for which tasks."""

    check: Asked
    applies: bool = True
    who: str = ""
    tasks: tuple[str, ...] = ()


class ChecksDialog(Dialog[Looked]):
    """Answers the check that is to be signed, None when left. The first of those in `signs` who
    may signs it."""

    # A key that comes sooner after a text has appeared was meant for the one before it: a key held
    # down signs one check, not all.
    READ_S: ClassVar[float] = 0.3
    more_keys: ClassVar[tuple[tuple[str, str], ...]] = (
        ("Enter", "sign, as s does: the check that stands above in full, and no other"),
        ("y", "somebody else signs: pick who"),
        (
            "g",
            "the bench card of its hazard: what kills, what to wear, what to do then",
        ),
        ("arrows", "to another check"),
    )
    taken: ClassVar[dict[str, str]] = {
        "s": "sign",
        "enter": "sign",
        "y": "your_name",
        "delete": "waive",
        "g": "talk",
        "up": "up",
        "down": "down",
    }

    def __init__(
        self,
        title: str,
        board: Board,
        asked: Sequence[AskedOnce],
        *,
        intro: str = "",
        signs: Sequence[str] = (),
        after: Asked | None = None,
    ) -> None:
        super().__init__(title, wide=True)
        self.board, self.once = board, tuple(asked)
        self.asked = tuple(one.check for one in asked)
        self.intro, self.signs, self.after = intro, tuple(signs), after
        self._appeared = 0.0

    def inside(self) -> Iterable[Widget]:
        if self.intro:
            yield Static(Content(legible(self.intro)), classes="intro")
        yield Static("", id="check")
        yield RowList((Column(_STATE), Column()), self._rows(), empty="no checks are asked for")
        yield Static(Content(AUTHORISES_NOTHING), classes="label", id="caution")

    def opened(self) -> None:
        self.fit()
        self.query_one(RowList).go_to(self._next())
        self._show()

    def fit(self) -> None:
        rows = self.query_one(RowList)
        state = max((len(row.cells[0]) for row in rows.rows if row.id), default=0)
        rows.columns = (Column(min(_STATE, state)), Column())
        intro = len(wrapped(self.intro, self.app.size.width - _INSIDE)) + 1 if self.intro else 0
        around = _AROUND + _TEXT + intro
        rows.styles.height = max(1, min(len(rows.rows), self.app.size.height - around))

    def _next(self) -> str:
        """The first check to be signed behind the one signed last, else the first of all."""
        still = [number for number, asked in enumerate(self.asked) if asked.open]
        last = self._place_of_last()
        return str(next((number for number in still if number > last), still[0] if still else ""))

    def _place_of_last(self) -> int:
        if self.after is None:
            return -1
        same = (
            number
            for number, asked in enumerate(self.asked)
            if (asked.hazard.id, asked.check, asked.task, asked.who)
            == (self.after.hazard.id, self.after.check, self.after.task, self.after.who)
        )
        return next(same, -1)

    @property
    def at(self) -> Asked | None:
        """The check that is looked at."""
        at = self.query_one(RowList).at
        return self.asked[int(at)] if at else None

    def _rows(self) -> list[Row]:
        rows: list[Row] = []
        head = ""
        for number, asked in enumerate(self.asked):
            group = f"{asked.check.when.capitalize()} the work"
            group = group if asked.task else f"The shop: {group.lower()}"
            if group != head:
                head = group
                rows.append(heading(group))
            state, tone = check_state_shortly(self.board, asked)
            of = f" for {person(self.board.plan, asked.who)}" if asked.who else ""
            hazard = f"{asked.hazard.short}: " if asked.task else ""  # the heading names the shop
            name = f"{hazard}{asked.check.short}{of}{self._of_which(number)}"
            if self.app.size.width < _WITH_STATE:  # when and who behind the name, if there is room
                state, *signed = _SIGNED.split(state, maxsplit=1)
                name = "  ".join([name, *signed])
            rows.append(Row(str(number), (state, name), tone))
        return rows

    def _of_which(self, number: int) -> str:
        """ ", Panes 1-3", where the checks of more than one task are put."""
        tasks = [task for task in self.once[number].tasks if task in self.board.plan.tasks]
        if not tasks or len({asked.task for asked in self.asked if asked.task} | {*tasks}) < 2:
            return ""
        pieces = pieces_of(self.board, tasks)
        return f", {pieces if pieces else self.board.plan.tasks[tasks[0]].title}"

    def _show(self) -> None:
        """The full text of the check under the cursor, and what can be done with it."""
        self._appeared = monotonic()
        asked = self.at
        if asked is None:
            return
        of = f", for {person(self.board.plan, asked.who)}" if asked.who else ""
        signs = "" if asked.check.signs == "anyone" else f" ({who_signs(asked.check)})"
        reason = f" Reason: {asked.why}" if asked.why else ""
        stands = check_state(self.board, asked)[0]
        state = "" if asked.open else f" {stands[:1].upper()}{stands[1:]}."
        of += self._of_which(self.asked.index(asked))
        text = f"{asked.hazard.name}{of}: {asked.text}{signs}{state}{reason}"
        self.query_one("#check", Static).update(Content(legible(text)))
        self.query_one("#foot", Static).update(Content(legible(self.foot())))

    def foot(self) -> str:
        asked = self.at if self._appeared else None  # the keys are told before there is a list
        name = person(self.board.plan, self._signer(asked)) if asked else ""
        waive = "Del does not apply   " if asked is None or asked.check.waivable else ""
        as_name = f" as {name}" if name else ""
        return f"s, Enter sign{as_name}   y other name   g card   {waive}Esc cancel"

    def _signer(self, asked: Asked) -> str:
        may = signers(self.board, asked.hazard, asked.check, asked.who)
        return next((who for who in self.signs if who in may), "")

    def on_key(self, event: events.Key) -> None:
        """These keys are taken here, in the order of typing: bindings would come in later."""
        rows = self.query_one(RowList)
        acts: dict[str, Callable[[], None]] = {
            "sign": partial(self._answer, applies=True),
            "your_name": partial(self._answer, applies=True, pick=True),
            "waive": partial(self._answer, applies=False),
            "talk": self._card,
            "up": partial(rows.action_step, -1),
            "down": partial(rows.action_step, 1),
        }
        if (act := acts.get(self.taken.get(event.key, ""))) is not None:
            act()
            event.stop()
            event.prevent_default()

    def _card(self) -> None:
        """What the hazard of the check under the cursor can do, on one card."""
        from crewboard.terminal.doing.cards import show_cards

        if (asked := self.at) is not None:
            show_cards(self.board_app, self.board, [asked.hazard])

    def _answer(self, *, applies: bool, pick: bool = False) -> None:
        asked = self.at
        if asked is None:
            return
        if monotonic() - self._appeared < self.READ_S:
            self.app.bell()  # nobody has read it yet; a key held down never gets further
            self._appeared = monotonic()
        elif applies or asked.check.waivable:
            tasks = self.once[self.asked.index(asked)].tasks
            self.dismiss(Looked(asked, applies, "" if pick else self._signer(asked), tasks))
        else:
            sentence = "this check always applies: look, and sign it when it is so"
            self.query_one("#foot", Static).update(Content(sentence))

    def on_row_list_moved(self, event: RowList.Moved) -> None:
        event.stop()
        self._show()

    def on_row_list_opened(self, event: RowList.Opened) -> None:
        event.stop()  # a click only looks
