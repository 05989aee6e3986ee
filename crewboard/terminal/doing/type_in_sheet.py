"""Type in a morning sheet that was filled by hand: all of it is kept, or nothing."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

from crewboard.logbook.acts import Act
from crewboard.logbook.entry import Said
from crewboard.order.admit.refusal import Refusal
from crewboard.order.said import day_in_words, how_many
from crewboard.telling.filled_sheet import Filled, FromSheet, read_sheet, work_begun
from crewboard.telling.line import Line
from crewboard.telling.morning_parts import MorningRow
from crewboard.telling.sheet_to_fill import (
    Boards,
    checks_to_fill,
    known_at,
    printed_at,
    rows_to_fill,
)
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.choose import crew_choices
from crewboard.terminal.dialogs.filled_sheet import Against, FilledSheet
from crewboard.terminal.dialogs.refusal import RefusalDialog
from crewboard.terminal.doing.ages import ask_ages
from crewboard.terminal.doing.sheet_draft import SheetDraft
from crewboard.terminal.doing.which_day import ask_day


async def type_in_sheet(app: BoardApp, day: date | None = None) -> bool:
    """Ask of which day the sheet is, unless that is known, and put its form; whether it was
    kept."""
    day = day or await ask_day(app, title="The sheet of which day?")
    if day is None:
        return False
    draft = SheetDraft(app, day)
    typed = await draft.offered()
    if typed is None:
        return False
    sheet = _TypedIn(app, day)
    form = FilledSheet(
        f"The filled sheet of {day_in_words(day)}",
        rows_to_fill(sheet.boards()),
        sheet.checks,
        sheet.keep,
        typed,
        draft.keep,
    )
    is_kept = await app.push_screen_wait(form) is True
    if is_kept:
        draft.keep({})
    return is_kept


class _TypedIn:
    """One sheet on its way into the logbook, with the reasons that were given for its entries."""

    def __init__(self, app: BoardApp, day: date) -> None:
        self.app, self.day = app, day
        self._reasons: dict[tuple[Act, datetime], tuple[str, str]] = {}

    def boards(self) -> Boards:
        """As of when the sheet was printed, and as its day is known now."""
        board, at = self.app.board, self.app.workbench.board
        return Boards(at(printed_at(board, self.day)), at(known_at(board, self.day)))

    def checks(self, filled: Sequence[Filled]) -> list[MorningRow]:
        """The checks of the jobs that were begun."""
        begun = work_begun(read_sheet(self.app.board, self.day, filled).entries)
        return checks_to_fill(self.boards().known, begun) if begun else []

    async def keep(self, filled: Sequence[Filled]) -> Against | None:
        """Keep all of it; what stands against it where it is not."""
        sheet = read_sheet(self.app.board, self.day, filled)
        if sheet.wrong:
            first = sheet.wrong[0]
            return Against((Line(first.sentence, "danger"),), first.place, first.key)
        while True:
            lines = [self._with_reason(entry.said) for entry in sheet.entries]
            outcome = self.app.workbench.record(lines, by=self.app.by, now=self.app.now())
            self.app.look_now()
            if outcome.kept:
                await self._kept(sheet.entries, outcome.remarks)
                return None
            refused = None if outcome.line is None else sheet.entries[outcome.line]
            if refused is None or not await self._insisted(refused, outcome.refused):
                place = None if refused is None else refused.place
                return Against(tuple(_in_lines(refused, outcome.refused)), place)

    def _with_reason(self, said: Said) -> Said:
        reason, by = self._reasons.get((said.act, said.at), ("", ""))
        return said._replace(despite=reason, by=by or said.by)

    async def _insisted(self, entry: FromSheet, refused: Sequence[Refusal]) -> bool:
        """What hardly can be is kept with a reason that somebody answers for."""
        key = entry.said.act, entry.said.at
        if key in self._reasons or not all(refusal.yields for refusal in refused):
            self._reasons.pop(key, None)
            return False
        board = self.app.board
        people = crew_choices(board)
        if any(refusal.lead for refusal in refused):
            people = [c for c in people if board.plan.crew[c.id].leads_on(self.day)] or people
        answer = await self.app.push_screen_wait(RefusalDialog(refused, people, self.app.by))
        if answer is None or not answer.reason:
            return False
        self._reasons[key] = answer.reason, answer.by
        return True

    async def _kept(self, entries: Sequence[FromSheet], remarks: Sequence[str]) -> None:
        came = [visit.who for visit in self.boards().known.history.visits]
        await ask_ages(self.app, dict.fromkeys(came))
        kept = f"saved: {how_many(len(entries), 'entry', 'entries')} of {day_in_words(self.day)}"
        self.app.tell("; ".join([kept, *remarks]), warning=bool(remarks))


def _in_lines(entry: FromSheet | None, refused: Sequence[Refusal]) -> list[Line]:
    lines: list[Line] = []
    when = f"at {entry.said.at:%H:%M}:" if entry is not None else ""
    for refusal in refused:
        lines.append(Line(refusal.says, "danger", 0, when))
        if refusal.mend:
            lines.append(Line(refusal.mend, "must", 2, "What to do:"))
    return lines
