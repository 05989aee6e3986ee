"""`crewboard wall`: a page for a tablet or television on the wall, kept up to date when asked."""

from __future__ import annotations

import os

from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import AT, DIR, moment, open_bench
from crewboard.command.typed import Call, Command, Option
from crewboard.folder.disk.wall_asked import ask_for_wall, wall_asked
from crewboard.paper.wall import WALL_PAGE, wall_page
from crewboard.wall_clock import shop_now
from crewboard.workbench.kept_page import KeptPage

KEEP = Option("keep", "keep the page for the wall in this .html file, new after each entry", "FILE")


def _wall(call: Call) -> Exit:
    bench = open_bench(call)
    if call.given("no-more"):
        return _no_more(call)
    board = bench.board(moment(call, bench.plan))
    if not call.given("keep"):
        call.out.text(wall_page(board))
        return Exit.FINE
    page = kept_page(call.option("keep"))
    if sentence := page.put_up(board):
        raise Refused(sentence, "name another file")
    _remember(call, page.path)
    call.out.talk(f"written to {page.path}; made anew after each entry on this computer")
    return Exit.FINE


def _no_more(call: Call) -> Exit:
    path = wall_asked(call.word("DIR"))
    if path:
        _remember(call, "")
        call.out.talk(f"{path} is kept no more; the file stays")
    else:
        call.out.talk("no page for the wall was kept on this computer")
    return Exit.FINE


def _remember(call: Call, path: str) -> None:
    try:
        ask_for_wall(call.word("DIR"), path)
    except OSError as error:
        why = error.strerror or str(error)
        raise Refused(f"what to keep could not be remembered in the folder: {why}") from None


def kept_page(path: str) -> KeptPage:
    """The page to keep at a path. Raises `WrongCall` for one that is none of a page."""
    if not path.lower().endswith((".html", ".htm")):
        raise WrongCall(f'"{path}" is no name for a page', "end it in .html")
    return KeptPage(os.path.expanduser(path), wall_page, WALL_PAGE)


def keep_up(call: Call) -> None:
    """After something was written into the folder: the page for the wall, where one is kept.

    It hangs there now, so an entry of the past shows as of now. What goes wrong is said, and
    changes nothing of what was written.
    """
    path = wall_asked(call.word("DIR")) if call.word("DIR") else ""
    if not path:
        return
    try:
        bench = open_bench(call)
        now = shop_now(bench.plan)
        if call.given("at"):
            now = max(now, moment(call, bench.plan))
        sentence = kept_page(path).put_up(bench.board(now))
    except Exception as error:  # whatever it is: the entry was kept, and this is only paper
        sentence = f"the page for the wall could not be made: {error}"
    if sentence:
        call.out.talk(sentence)


wall = Command(
    _wall,
    "Makes a page for the wall: what must be left alone, what goes on and with whom, who is here, "
    "the next look, the next job. It refreshes itself and can be read from three metres. With "
    "--keep it is written into a file, and made anew after each entry on this computer, by "
    "whatever command or screen, until --no-more.",
    (DIR,),
    (KEEP, Option("no-more", "keep the page no more"), AT),
    (
        "crewboard wall sample_project --at 2026-05-02T09:00 > wall.html",
        "crewboard wall . --keep ../wall.html",
        "crewboard wall . --no-more",
    ),
)
