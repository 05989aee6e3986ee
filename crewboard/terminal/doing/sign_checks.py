"""Sign safety checks: mark them, say who signs, and they are written at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from crewboard.logbook.acts import CheckSigned
from crewboard.order.board import Board
from crewboard.order.safety.checks import Asked, checks_of, checks_of_the_day
from crewboard.order.safety.signing import signers, who_signs
from crewboard.order.said import how_many, listed, person, task_title
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.checks import ChecksDialog, Marked
from crewboard.terminal.dialogs.pick import Choice, PickSeveral
from crewboard.terminal.doing.sign_in import sign_in


async def sign_checks(
    app: BoardApp, task_id: str, people: Sequence[str] = (), intro: str = ""
) -> None:
    """The checks of the task, or without one of all work that goes on and of the shop."""
    title = f"Checks: {task_title(app.board.plan, task_id)}" if task_id else "Checks"

    def asked(board: Board) -> list[Asked]:
        return _asked(board, task_id, people)

    def enough(board: Board) -> bool:
        """Whether all that stands before beginning is signed."""
        return bool(people) and not any(a.open for a in checks_of(board, task_id, people, "before"))

    await sign_these(app, title, asked, enough=enough, intro=intro)


async def sign_these(
    app: BoardApp,
    title: str,
    asked: Callable[[Board], Sequence[Asked]],
    *,
    enough: Callable[[Board], bool] = lambda _: False,
    intro: str = "",
    at: datetime | None = None,
) -> None:
    """Show checks and sign what is marked, again and again until left, or until it is enough.

    `at` is a moment of a past day for which they are signed; otherwise now.
    """
    kept: tuple[Asked, ...] = ()
    while True:
        board = _board(app, at)
        dialog = ChecksDialog(title, board, asked(board), intro=intro, marked=kept)
        marked = await app.push_screen_wait(dialog)
        if marked is None:
            return
        kept = () if await _sign(app, marked, at) else marked.checks
        if enough(app.board):
            return


def _board(app: BoardApp, at: datetime | None) -> Board:
    return app.board if at is None else app.workbench.board(at)


def _asked(board: Board, task_id: str, people: Sequence[str]) -> list[Asked]:
    if task_id:
        return [*checks_of(board, task_id, people), *checks_of_the_day(board)]
    going = [s.task.id for s in board.in_state("under way")]
    of_work = [asked for task in going for asked in checks_of(board, task)]
    return [*of_work, *checks_of_the_day(board)]


async def _sign(app: BoardApp, marked: Marked, at: datetime | None) -> bool:
    """Ask who signs and write it; whether anything was written."""
    why = ""
    if not marked.applies:
        named = listed(a.check.id for a in marked.checks)
        ask = AskLine("Does not apply", f"why {named} does not apply here; it is kept")
        given = await app.push_screen_wait(ask)
        if not given:
            return False
        why = given
    if not _board(app, at).present and at is None:
        await sign_in(app)  # only who is here may sign
    who = await app.push_screen_wait(_who(_board(app, at), marked.checks))
    if not who:
        return False
    board = _board(app, at)
    theirs = tuple(asked for asked in marked.checks if _able(board, asked, who))
    # Where they may sign none of it, the refusal tells why.
    to_sign = marked._replace(checks=theirs or marked.checks)
    outcome = await app.keep(_signatures(board, to_sign, who, why), at)
    if not outcome.kept:
        return False
    written = len(outcome.entries)
    rest = len(marked.checks) - len(theirs)
    others = f"; {how_many(rest, 'check')} somebody else has to sign" if rest else ""
    app.tell(f"signed: {how_many(written, 'line')}{others}; a signed check authorises nothing")
    return True


def _able(board: Board, asked: Asked, people: Sequence[str]) -> list[str]:
    """Those of the people who may sign the check."""
    may = signers(board, asked.hazard, asked.check, asked.who)
    return [who for who in people if who in may]


def _who(board: Board, checks: Sequence[Asked]) -> PickSeveral:
    """Those here, and how many of the checks each may sign."""
    choices = []
    for visit in board.present:
        may = [a for a in checks if visit.who in signers(board, a.hazard, a.check, a.who)]
        if len(may) == len(checks):
            note, tone = "may sign", "safe"
        else:
            note, tone = f"may sign {len(may)} of {len(checks)}", "warning" if may else "faint"
        choices.append(Choice(visit.who, person(board.plan, visit.who), note, tone, visit.who))
    choices.sort(key=lambda c: ("safe", "warning", "faint").index(c.tone))
    wants = listed(dict.fromkeys(who_signs(a.check) for a in checks))
    nobody = "nobody is signed in: s signs people in"
    title = f"Who signs {how_many(len(checks), 'check')}?"
    return PickSeveral(title, choices, intro=f"{wants[:1].upper()}{wants[1:]}.", empty=nobody)


def _signatures(board: Board, marked: Marked, who: Sequence[str], why: str) -> list[CheckSigned]:
    """Everybody picked signs what they may; what none of them may is put down for the first, and
    refused with the reason."""
    acts = []
    for asked in marked.checks:
        hazard, check = asked.hazard, asked.check
        task = "" if check.every == "day" else asked.task
        for signer in _able(board, asked, who) or [who[0]]:
            signed = CheckSigned(hazard.id, check.id, signer, task, marked.applies, why)
            acts.append(signed._replace(concerns=asked.who))
    return acts
