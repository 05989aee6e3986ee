"""Writing acts from a screen, and what is asked when they are refused."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from crewboard.logbook.acts import Act
from crewboard.workbench import Outcome, Said, Workbench

if TYPE_CHECKING:
    from crewboard.terminal.app import CrewboardApp


class Attempt:
    """Acts that are to be written; a reason may be added before they are tried again.

    A `Said` among them has a moment of its own, or corrects an entry.
    """

    def __init__(self, acts: tuple[Act | Said, ...], at: datetime | None, by: str) -> None:
        self.acts, self.at, self.by = acts, at, by

    def said(self, now: datetime) -> list[Said]:
        """The acts, each with its moment."""
        return [a if isinstance(a, Said) else Said(a, self.at or now) for a in self.acts]

    def write(self, workbench: Workbench, now: datetime) -> Outcome:
        return workbench.record(self.said(now), by=self.by, now=now)

    def give_reason(self, reason: str, by: str) -> None:
        self.acts = tuple(with_reason(act, reason) for act in self.acts)
        self.by = by or self.by


def with_reason(act: Act | Said, reason: str) -> Act | Said:
    """The act with the reason for which it is written although something stands against it."""
    if isinstance(act, Said):
        return act._replace(act=cast("Act", with_reason(act.act, reason)))
    fields = cast("NamedTuple", act)._fields
    for name in ("despite", "why"):
        if name in fields:
            return cast("Act", cast("Any", act)._replace(**{name: reason}))
    return act


async def answered(
    app: CrewboardApp,
    outcome: Outcome,
    operation: Callable[[], Outcome],
    then: Callable[[Outcome], None] | None,
    attempt: Attempt | None,
) -> Outcome:
    """Show the refusal, do as is answered, until it is kept or left; the last outcome."""
    from crewboard.terminal.dialogs.refusal import RefusalDialog
    from crewboard.terminal.people import crew_choices

    while not outcome.kept:
        people = crew_choices(app.board)
        answer = await app.push_screen_wait(RefusalDialog(outcome.refused, people, app.by))
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


async def _save_elsewhere(app: CrewboardApp, attempt: Attempt | None) -> None:
    """Write what was typed to another place, in the words of a day's file."""
    from crewboard.terminal.dialogs.ask import AskLine
    from crewboard.terminal.elsewhere import save

    if attempt is None:
        app.tell("only entries of the logbook can be saved elsewhere", warning=True)
        return
    asked = AskLine("Save elsewhere", "the path of a file that does not exist yet")
    path = await app.push_screen_wait(asked)
    if path:
        said = save(path, attempt, app.now())
        app.tell(said.sentence, warning=not said.kept)
