"""`crewboard meant`: what is gone from the folder was meant to go."""

from __future__ import annotations

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, BY, DIR, JSON, open_bench
from crewboard.command.typed import Call, Command, Word
from crewboard.command.write import WHY, write
from crewboard.logbook.acts import LetGo


def _meant(call: Call) -> Exit:
    bench = open_bench(call)
    missed, asked = bench.folder.missed, call.each("WHAT")
    what = tuple(name for name in missed if not asked or name in asked)
    if not what:
        call.out.talk("Nothing of that name is missed." if asked else "Nothing is missed here.")
        return Exit.REFUSED if asked else Exit.FINE
    if not call.given("why"):
        call.out.lines(what)
        call.out.talk('That is missed. If it was meant to go: --why "the reason" --by WHO')
        return Exit.REFUSED
    return write(call, bench, [LetGo(what, call.option("why"))])


meant = Command(
    _meant,
    "Lists the files and entries that stood in the folder at the last look and are gone. With a "
    "reason a lead of the crew says that they were meant to go: then nobody is asked again, and "
    "what they held back is free.",
    (DIR, Word("WHAT", "files or entries; otherwise all that is missed", many=True, optional=True)),
    (WHY, BY, AT, JSON),
    ("crewboard meant .",),
)
