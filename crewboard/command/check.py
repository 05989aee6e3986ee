"""`crewboard check`: every mistake in the folder, and what is worth a question."""

from __future__ import annotations

import os

from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, Refused, moment
from crewboard.command.typed import Call, Command, Option
from crewboard.folder.check.check import Checked
from crewboard.folder.check.check import check as look_over
from crewboard.folder.read.folder import Folder
from crewboard.order.said import how_many


def _check(call: Call) -> Exit:
    root = call.word("DIR")
    if not os.path.isdir(root):
        kind = "a file, not a folder" if os.path.lexists(root) else "no folder"
        raise Refused(f'"{root}" is {kind}')
    folder = Folder(root)
    found = look_over(folder, moment(call, folder.plan))
    if call.given("json"):
        from crewboard.command.json_logbook import check_form

        call.out.json(check_form(found.files, found.mistakes, found.questions))
    else:
        _print(call, found)
    wrong = found.mistakes or (call.given("strict") and found.questions)
    return Exit.REFUSED if wrong else Exit.FINE


def _print(call: Call, found: Checked) -> None:
    call.out.lines(str(fault) for fault in found.mistakes)
    call.out.lines(f"{fault} (a question)" for fault in found.questions)
    mistakes = how_many(len(found.mistakes), "mistake") if found.mistakes else "no mistakes"
    questions = f", {how_many(len(found.questions), 'question')}" if found.questions else ""
    call.out.talk(f"{mistakes}{questions} in {how_many(found.files, 'file')}")


check = Command(
    _check,
    "Names every mistake in the folder with file, line and column, and how to mend it. Questions "
    "are what may be right as it is: hours longer than somebody was there, work finished before "
    "what comes before it, certificates about to lapse. Ends with 1 where there is a mistake.",
    (DIR,),
    (Option("strict", "end with 1 for questions too"), AT, JSON),
    ("crewboard check sample_project", "crewboard check . --strict --json"),
)
