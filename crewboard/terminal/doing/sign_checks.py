"""Sign safety checks: each is read and written by itself, under the name of who looked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import datetime

from crewboard.logbook.acts import CheckSigned
from crewboard.order.board import Board
from crewboard.order.safety.checks import Asked, checks_of, checks_of_the_day
from crewboard.order.safety.naming import could_be_named
from crewboard.order.safety.opening import unopened
from crewboard.order.safety.signatures import signatures
from crewboard.order.safety.signing import signers, who_signs
from crewboard.order.safety.waiving import may_waive
from crewboard.order.said import person, signed_by
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.checks import AskedOnce, ChecksDialog, Looked
from crewboard.terminal.dialogs.pick import Choice, PickOne, PickSeveral
from crewboard.terminal.doing.sign_in import sign_in
from crewboard.terminal.doing.which import TO_DO, named, which
from crewboard.terminal.meant import Meant


async def sign_checks(app: BoardApp, meant: Meant) -> bool:
    """The checks of the tasks that are meant, or without any of all work that goes on and of the
    shop; whether it was gone through."""
    tasks: tuple[str, ...] = ()
    if meant.tasks:
        tasks = await which(app, meant, "Check which", ("under way",), ("ready",), TO_DO)
        if not tasks:
            return False
    await sign_checks_of(app, tasks)
    return True


async def sign_checks_of(
    app: BoardApp, tasks: Sequence[str], people: Sequence[str] = (), intro: str = ""
) -> None:
    """The checks of these tasks, or without any of all work that goes on and of the shop."""
    title = f"Checks: {named(app.board, tasks)}" if tasks else "Checks"

    def asked(board: Board) -> list[Asked]:
        return _asked(board, tasks, people)

    def enough(board: Board) -> bool:
        """Whether all that stands before beginning is signed."""
        before = [a for task in tasks for a in checks_of(board, task, people, "before") if people]
        return bool(people) and not any(a.open for a in before) and not unopened(board)

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
    """Show checks and sign one after the other until left, or until it is enough.

    `at` is a moment of a past day for which they are signed; otherwise now.
    """
    who, last = "", None
    while True:
        board = _board(app, at)
        once = together(board, asked(board))
        dialog = ChecksDialog(title, board, once, intro=intro, signs=(app.by, who), after=last)
        looked = await app.push_screen_wait(dialog)
        if looked is None:
            return
        signer = await _sign(app, looked, at)
        if signer:
            who, last = signer, looked.check
        if enough(app.board):
            return


def _board(app: BoardApp, at: datetime | None) -> Board:
    return app.board if at is None else app.workbench.board(at)


def _asked(board: Board, tasks: Sequence[str], people: Sequence[str]) -> list[Asked]:
    """The shop is opened first; what closes it comes last."""
    opening, closing = checks_of_the_day(board, "before"), checks_of_the_day(board, "after")
    of = tasks or [s.task.id for s in board.in_state("under way")]
    of_work = [asked for task in of for asked in checks_of(board, task, people)]
    return [*opening, *of_work, *closing]


def together(board: Board, asked: Iterable[Asked]) -> list[AskedOnce]:
    """What is looked at once for all pieces of a series, each with their tasks. A check of a
    licensed trade is looked at, and signed, for each by itself."""
    groups: dict[tuple[str, ...], list[Asked]] = {}
    for one in asked:
        series = board.plan.tasks[one.task].series if one.task in board.plan.tasks else ""
        work = one.task if one.check.licensed or not series else series
        key = (one.hazard.id, one.check.id, one.check.when, one.who, work, one.answer)
        groups.setdefault(key, []).append(one)
    return [AskedOnce(of[0], tuple(one.task for one in of)) for of in groups.values()]


async def _sign(app: BoardApp, looked: Looked, at: datetime | None) -> str:
    """Ask what is still to be asked and write the signature; who signed, empty where nobody did."""
    why = ""
    if not looked.applies:
        head = f"Does not apply: {looked.check.text}"
        given = await app.push_screen_wait(AskLine(head, "why it does not apply, for the logbook"))
        if not given:
            return ""
        why = given
    if not _board(app, at).present and at is None:
        await sign_in(app)  # only who is here may sign
    who = looked.who if looked.applies else ""
    if not who:
        picked = await app.push_screen_wait(_who(_board(app, at), looked, app.by))
        who = picked or ""
    if not who:
        return ""
    asked = looked.check
    names: tuple[str, ...] = ()
    if asked.check.names and looked.applies:
        answer = await _whom_it_names(app, _board(app, at), asked)
        if answer is None:
            return ""
        names, why = answer
    tasks = ("",) if asked.check.every == "day" else looked.tasks or (asked.task,)
    signed = CheckSigned(asked.hazard.id, asked.check.id, who, "", looked.applies, why, asked.who)
    outcome = await app.keep([signed._replace(task=task, named=names) for task in tasks], at)
    if not outcome.kept:
        return ""
    by = signed_by(app.board.plan, who, outcome.entries[0].by)
    app.tell(f"signed by {by}; a signed check authorises nothing")
    return who


async def _whom_it_names(
    app: BoardApp, board: Board, asked: Asked
) -> tuple[tuple[str, ...], str] | None:
    """Whom the signing names, else why there is nobody; None when left."""
    able = could_be_named(board, asked.check)
    if not able:
        ask = AskLine(f"Nobody here has {asked.check.names}", "why nobody can be named")
        why = await app.push_screen_wait(ask)
        return ((), why) if why else None
    choices = [Choice(who, person(board.plan, who), "", "plain", who) for who in able]
    named = await app.push_screen_wait(PickSeveral(f"Who is it today? {asked.text}", choices))
    return (named, "") if named else None


def _who(board: Board, looked: Looked, by: str) -> PickOne:
    """Those here, those who may sign first, and among them who writes."""
    asked = looked.check
    may = signers(board, asked.hazard, asked.check, asked.who)
    if not looked.applies:
        doers = signatures(board).doers(board.at.date(), asked.task)
        crew, day = board.plan.crew, board.at.date()
        may = tuple(who for who in may if who not in doers and may_waive(crew.get(who), day))
    choices = [
        Choice(
            *(visit.who, person(board.plan, visit.who)),
            *(("may sign", "safe") if visit.who in may else ("may not sign this", "faint")),
            visit.who,
        )
        for visit in board.present
    ]
    choices.sort(key=lambda c: (c.id not in may, c.id != by))
    wants = who_signs(asked.check) if looked.applies else "a lead who does not do this work says so"
    nobody = "nobody is signed in: i signs people in"
    return PickOne("Who signs?", choices, intro=f"{wants[:1].upper()}{wants[1:]}.", empty=nobody)
