"""`crewboard findings`: a text dictated elsewhere becomes findings, line by line."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from crewboard.command.exits import Exit, Refused, WrongCall
from crewboard.command.opened import AT, BY, DIR, JSON, open_bench
from crewboard.command.typed import Call, Command, Option

if TYPE_CHECKING:
    from crewboard.telling.dictated import Dictated
    from crewboard.workbench import Workbench

MOST_BYTES = 1_000_000


def _findings(call: Call) -> Exit:
    from crewboard.command.write import write
    from crewboard.telling.dictated import amiss, cut_into_findings

    bench = open_bench(call)
    if not call.given("from"):
        raise WrongCall("findings needs a text", "write --from FILE, or --from - to type it in")
    lines = cut_into_findings(bench.plan, _text(call.option("from")))
    if why := amiss(lines):
        _show(call, bench, lines)
        raise Refused(why, "nothing was saved")
    if call.given("do-it"):
        return write(call, bench, [one.found for one in lines])
    _show(call, bench, lines)
    return Exit.FINE


def _show(call: Call, bench: Workbench, lines: list[Dictated]) -> None:
    """What would be saved; nothing is."""
    from crewboard.telling.dictated import amiss, dictated_lines

    if call.given("json"):
        from crewboard.command.json_intake import dictated_form

        call.out.json(dictated_form(lines))
    else:
        from crewboard.paper.plain import plain_lines

        call.out.lines(plain_lines(dictated_lines(bench.plan, lines), call.out.width))
    if not amiss(lines):
        call.out.talk("Nothing is saved yet: --do-it saves all of it.")


def _text(name: str) -> str:
    """The text of the file, or of the standard input."""
    try:
        if name == "-":
            data = sys.stdin.buffer.read(MOST_BYTES + 1) if sys.stdin is not None else b""
        else:
            with open(name, "rb") as file:
                data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise Refused(f"{name} cannot be read: {reason}") from None
    if len(data) > MOST_BYTES:
        raise Refused(f"{name} is longer than the {MOST_BYTES // 1_000_000} MB that are read")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Refused(f"{name} is no text in UTF-8", "save it as plain text") from None


findings = Command(
    _findings,
    "Cuts a text that was dictated or typed elsewhere into findings, one a line, each on the piece "
    'or component whose name it begins with ("ribs 3: the foot is soft"), else on the vehicle. '
    'What follows "thought:" is kept apart. It shows what would be saved; --do-it saves it, all '
    "or nothing.",
    (DIR,),
    (
        Option("from", "the text's file, or - for the standard input", "FILE"),
        Option("do-it", "save them"),
        BY,
        AT,
        JSON,
    ),
    (
        "crewboard findings . --from dictated.txt",
        "crewboard findings . --from dictated.txt --do-it --by mirela",
    ),
)
