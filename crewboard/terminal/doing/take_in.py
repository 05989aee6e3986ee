"""Take the files of a phone or camera in, from the screens."""

from __future__ import annotations

import os
from asyncio import to_thread

from crewboard.on_this_computer import remember, remembered
from crewboard.order.said import how_many
from crewboard.telling.line import Line
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.dialog import Confirm, Panel
from crewboard.workbench.taking_in import TakenIn, bring_in, write_down

_FROM = "take in"


async def take_in(app: BoardApp) -> bool:
    """Ask from where, copy what is new there, and say what was passed over; whether anything was
    taken in. The folder asked last on this computer stands ready."""
    path = await app.push_screen_wait(
        AskLine(
            "Take in pictures and recordings",
            "from which folder, or which file",
            value=remembered(_FROM),
            intro="Copies are made; the files themselves stay where they are.",
            hint="the path of a folder of the phone, camera or stick",
            check=_there,
        )
    )
    if path is None:
        return False
    remember(_FROM, path)
    taken = await _taken(app, path, large=False)
    long = [passed for passed in taken.passed_over if passed.large]
    if long and await _wanted(app, len(long)):
        more = await _taken(app, path, large=True)
        entries = (*taken.outcome.entries, *more.outcome.entries)
        taken = TakenIn(more.outcome._replace(entries=entries), more.passed_over)
    await _tell(app, taken)
    return bool(taken.outcome.entries)


def _there(path: str) -> str | None:
    return None if os.path.lexists(os.path.expanduser(path)) else "there is no such folder or file"


async def _taken(app: BoardApp, path: str, *, large: bool) -> TakenIn:
    """Copied beside the screens, which go on; written down by them."""
    app.tell("copying ...")
    bench, source, year = app.workbench, os.path.expanduser(path), app.now().year
    files = await to_thread(bring_in, bench, [source], year, large=large)
    now = app.now()
    taken = write_down(bench, files, by=app.by, at=now, now=now)
    app.look_now()
    return taken


async def _wanted(app: BoardApp, count: int) -> bool:
    """Whether files that are so large are taken in too."""
    them = "it" if count == 1 else "them"
    sentence = f"{how_many(count, 'file')} of 500 MB or more: is there room for {them}?"
    ask = Confirm("Large files", [sentence], yes=f"take {them} in")
    return await app.push_screen_wait(ask) is True


async def _tell(app: BoardApp, taken: TakenIn) -> None:
    """A notice where all went well; else a page to read, so that nothing goes by unseen."""
    kept = f"{how_many(len(taken.outcome.entries), 'file')} taken in"
    here = sum(bool(passed.here) for passed in taken.passed_over)
    again = f"; {how_many(here, 'file')} taken in before" if here else ""
    amiss = [passed for passed in taken.passed_over if not passed.here]
    if not amiss and taken.outcome.kept:
        app.tell(f"{kept}{again}")
        return
    lines = [Line(f"{kept}{again}.")]
    lines += [Line(str(refusal), "danger") for refusal in taken.outcome.refused]
    lines += [Line(passed.why, "plain", 0, f"{os.path.basename(passed.path)}:") for passed in amiss]
    app.tell(kept)
    await app.push_screen_wait(Panel("Not taken in", lines))
