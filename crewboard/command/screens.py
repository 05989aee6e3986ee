"""`crewboard DIR`: the screens; where there is no terminal, the day's board."""

from __future__ import annotations

import os
import sys
from datetime import datetime

from crewboard.command.exits import Exit
from crewboard.command.opened import (
    AT,
    BY,
    must_hold_a_vehicle,
    open_bench,
    parse_moment,
    written_by,
)
from crewboard.command.typed import Call, Command, Option, Word

KEEP = Option("keep", "keep the page for the wall in this .html file, always of now", "FILE")


def _screens(call: Call) -> Exit:
    root = call.word("DIR")
    if not root:
        if not os.path.lexists("vehicle.toml"):
            from crewboard.command.help import overview

            call.out.lines(overview(call.out.width))
            return Exit.FINE
        call = call._replace(words={"DIR": (".",)})
        root = "."
    if not has_terminal():
        from crewboard.command.looking import print_day

        return print_day(call)
    at, by = _start(call)
    keep = call.option("keep")
    if keep:
        from crewboard.command.wall import kept_page

        kept_page(keep)  # a name that is none of a page is said before the screens open
    return screens_over(root, at, by, plain=call.given("plain"), keep=keep)


def screens_over(
    root: str,
    at: datetime | None = None,
    by: str = "",
    *,
    plain: bool = False,
    keep: str = "",
) -> Exit:
    """Open the screens and stay until they are left."""
    import gc

    from crewboard.terminal import open_screens

    gc.freeze()  # what was imported stays as long as the screens do
    gc.set_threshold(20_000, 20, 20)  # pages are many small objects, few of them in circles
    gc.enable()
    code = open_screens(root, at=at, by=by, plain=plain, keep=keep)
    return Exit.BROKE_OFF if code == 1 else Exit(code)


def _start(call: Call) -> tuple[datetime | None, str]:
    """The moment and the person to start with. The folder is read only where a name needs it: the
    screens read it again."""
    typed = call.option("at")
    if _is_empty(call.word("DIR")):  # a first run begins there
        return parse_moment(typed, None) if _needs_no_plan(typed) else None, ""
    must_hold_a_vehicle(call.word("DIR"))
    by = call.option("by") or os.environ.get("CREWBOARD_BY", "")
    if not by and (not typed or _needs_no_plan(typed)):
        return parse_moment(typed, None) if typed else None, ""
    bench = open_bench(call)
    return parse_moment(typed, bench.plan) if typed else None, written_by(call, bench.plan)


def _needs_no_plan(typed: str) -> bool:
    """Whether it is a date in figures with its time, which means the same in every folder."""
    return typed[:4].isdigit() and "T" in typed


def has_terminal() -> bool:
    """Whether a person sits at a terminal that can draw: all three streams, and not a dumb one."""
    if os.environ.get("TERM", "") == "dumb":
        return False
    try:
        return all(stream.isatty() for stream in (sys.stdin, sys.stdout, sys.stderr))
    except (AttributeError, ValueError):  # a stream that was closed
        return False


def _is_empty(root: str) -> bool:
    """An empty folder is where a vehicle's folder can be made."""
    try:
        return not any(not name.startswith(".") for name in os.listdir(root))
    except OSError:
        return False


screens = Command(
    _screens,
    "Opens the screens on a vehicle's folder.",
    (Word("DIR", "the vehicle's folder; otherwise the current one", optional=True),),
    (AT, BY, KEEP, Option("plain", "ASCII only: no lines and marks that some consoles lack")),
    ("crewboard sample_project --at 2026-05-02T09:00",),
)
