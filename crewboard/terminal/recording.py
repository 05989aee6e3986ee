"""Writing acts from a screen, what is asked when they are refused, and saving them elsewhere."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from datetime import datetime
from typing import NamedTuple

from crewboard.folder.disk.new_file import write_new
from crewboard.logbook.acts import Act
from crewboard.terminal.board_app import BoardApp, Then
from crewboard.workbench import Outcome, Said, Workbench


class Attempt:
    """Acts that are to be written; a reason may be added before they are tried again.

    A `Said` among them has a moment of its own, or corrects an entry.
    """

    def __init__(self, acts: tuple[Act | Said, ...], at: datetime | None, by: str) -> None:
        self.acts, self.at, self.by = acts, at, by
        self.reason = ""

    def to_write(self, now: datetime) -> list[Said]:
        """The acts, each with its moment, and with the reason where one was given."""
        acts = [a if isinstance(a, Said) else Said(a, self.at or now) for a in self.acts]
        return [act._replace(despite=self.reason or act.despite) for act in acts]

    def write(self, workbench: Workbench, now: datetime) -> Outcome:
        return workbench.record(self.to_write(now), by=self.by, now=now)

    def give_reason(self, reason: str, by: str) -> None:
        self.reason, self.by = reason, by or self.by


class RecordingApp(BoardApp):
    """An app over a workbench that writes, and asks where something is refused."""

    def record(
        self,
        acts: Sequence[Act | Said],
        at: datetime | None = None,
        *,
        by: str = "",
        then: Then | None = None,
    ) -> Outcome:
        attempt = Attempt(tuple(acts), at, by or self.by)
        return self.do(lambda: attempt.write(self.workbench, self.now()), then, attempt)

    async def keep(
        self, acts: Sequence[Act | Said], at: datetime | None = None, *, by: str = ""
    ) -> Outcome:
        attempt = Attempt(tuple(acts), at, by or self.by)

        def write() -> Outcome:
            return attempt.write(self.workbench, self.now())

        outcome = write()
        self.look_now()
        return outcome if outcome.kept else await answered(self, outcome, write, None, attempt)

    def do(
        self,
        operation: Callable[[], Outcome],
        then: Then | None = None,
        attempt: Attempt | None = None,
    ) -> Outcome:
        outcome = operation()
        self.look_now()
        if outcome.kept:
            if then is not None:
                then(outcome)
        else:
            self.run_worker(answered(self, outcome, operation, then, attempt))
        return outcome

    def action_undo(self) -> None:
        """Take back the last thing written in this sitting."""
        what = self._done_last()
        outcome = self.workbench.undo(by=self.by, now=self.now())
        self.look_now()
        if outcome.kept:
            self.tell(f"undone: {what}")
        else:
            self.tell("; ".join(str(r) for r in outcome.refused), warning=True)

    def _done_last(self) -> str:
        """What an undo takes back, as the logbook tells it: "Ada Marsh signed in, and 2 more"."""
        from crewboard.telling.entry_words import words_of

        if not self.workbench.done:
            return ""
        done = self.workbench.done[-1]
        if not done.entries:
            return done.says
        more = f", and {len(done.entries) - 1} more" if len(done.entries) > 1 else ""
        return f"{words_of(self.board).of(done.entries[0][1])}{more}"


async def answered(
    app: BoardApp,
    outcome: Outcome,
    operation: Callable[[], Outcome],
    then: Callable[[Outcome], None] | None,
    attempt: Attempt | None,
) -> Outcome:
    """Show the refusal, do as is answered, until it is kept or left; the last outcome."""
    from crewboard.terminal.dialogs.choose import crew_choices
    from crewboard.terminal.dialogs.refusal import RefusalDialog

    while not outcome.kept:
        people = crew_choices(app.board)
        if any(refusal.lead for refusal in outcome.refused):
            crew, today = app.board.plan.crew, app.board.at.date()
            people = [c for c in people if crew[c.id].leads_on(today)] or people
        by = app.by if any(choice.id == app.by for choice in people) else ""
        answer = await app.push_screen_wait(RefusalDialog(outcome.refused, people, by))
        if answer is None:
            return outcome
        if answer.elsewhere:
            await _save_elsewhere(app, attempt)
            continue
        if answer.reason and attempt is not None:
            attempt.give_reason(answer.reason, answer.by)
        outcome = operation()
        app.look_now()
    if then is not None:
        then(outcome)
    return outcome


async def _save_elsewhere(app: BoardApp, attempt: Attempt | None) -> None:
    """Write what was typed to another place, in the words of a day's file."""
    from crewboard.terminal.dialogs.ask import AskLine
    from crewboard.terminal.recording import save

    if attempt is None:
        app.tell("only entries of the logbook can be saved elsewhere", warning=True)
        return
    asked = AskLine("Save elsewhere", "the path of a file that does not exist yet")
    path = await app.push_screen_wait(asked)
    if path:
        now = app.now()
        saved = save(path, attempt.to_write(now), attempt.by, app.workbench.on_the_wall(now))
        app.tell(saved.sentence, warning=not saved.kept)


class Saved(NamedTuple):
    """Whether it was kept, and a sentence that says so."""

    kept: bool
    sentence: str


def save(path: str, acts: Sequence[Said], by: str, put_down: datetime) -> Saved:
    """Write the entries as the day's file would hold them into a new file at `path`."""
    from crewboard.folder.read.day_file import entry_fields
    from crewboard.folder.toml.append import SystemDice, entry_line, new_day, new_id
    from crewboard.logbook.entry import Entry, written_down

    taken: set[str] = set()
    lines: list[str] = []
    for act in acts:
        entry_id = new_id(SystemDice(), taken)
        taken.add(entry_id)
        written = written_down(act.at, put_down)
        entry = Entry(entry_id, act.at, act.insisted, by, written, act.replaces)
        lines.append(entry_line(entry_id, entry_fields(entry)))
    text = new_day(acts[0].file_day).decode() + "".join(f"{line}\n" for line in lines)
    try:
        write_new(os.path.expanduser(path), text)
    except FileExistsError:
        return Saved(False, f"{path} exists already; nothing was written over it")
    except (OSError, ValueError) as error:
        return Saved(False, f"{path} cannot be written: {error}")
    return Saved(True, f"saved, to be folded in when the drive is well: {path}")
