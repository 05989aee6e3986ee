"""`crewboard picture`: a screen as an SVG file."""

from __future__ import annotations

import os

from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import AT, DIR, moment, open_bench
from crewboard.command.typed import Call, Command, Option


def _picture(call: Call) -> Exit:
    bench = open_bench(call)
    at = moment(call, bench.plan)
    wide, by, high = call.option("size", "100x30").partition("x")
    if not (by and wide.isdecimal() and high.isdecimal() and len(wide + high) < 8):
        raise WrongCall(f'"{call.option("size")}" is not a size', "write --size 100x30")
    path = call.option("out")
    if not path:
        raise WrongCall("say into which file", "write --out day.svg")
    if os.path.lexists(path):
        raise Refused(f'"{path}" is there already', "name another file")
    import asyncio

    from crewboard.terminal.picture import picture as svg_of

    size = (int(wide), int(high))
    svg = asyncio.run(svg_of(call.word("DIR"), at, size, call.every("keys")))
    with open(path, "x", encoding="utf-8") as file:
        file.write(svg)
    call.out.talk(f"written to {os.path.abspath(path)}")
    return Exit.FINE


picture = Command(
    _picture,
    "Draws a screen into an SVG file, as it looks at a moment and after some keys.",
    (DIR,),
    (
        Option("out", "the new file", "FILE"),
        Option("size", "columns and lines, such as 100x30", "SIZE"),
        Option("keys", "keys pressed before, such as 3 down enter", "KEY", many=True),
        AT,
    ),
    ("crewboard picture sample_project --out day.svg --at 2026-05-02T10:40 --size 120x40",),
)
