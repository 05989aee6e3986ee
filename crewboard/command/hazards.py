"""`crewboard hazards`: the hazard sheets, and the numbers that are from memory."""

from __future__ import annotations

import os
from collections.abc import Mapping

from crewboard.command.exits import Exit
from crewboard.command.opened import JSON, Refused
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.folder.read.fault import nearest
from crewboard.folder.read.files import HAZARDS
from crewboard.folder.read.folder import Folder
from crewboard.folder.read.hazard_sheets import read_sheets
from crewboard.paper.plain import Paper
from crewboard.plan.hazard import Hazard
from crewboard.telling.hazard_sheet import hazard_sheet, number_in_words


def _hazards(call: Call) -> Exit:
    sheets = _sheets(call)
    asked = call.word("HAZARD")
    if asked and asked not in sheets:
        raise Refused(f'there is no hazard sheet "{asked}"', nearest(asked, sheets))
    chosen = [sheets[asked]] if asked else list(sheets.values())
    if call.given("json"):
        from crewboard.command.json_plan import hazards_form

        call.out.json(hazards_form(chosen, only_unverified=call.given("unverified")))
    elif call.given("unverified"):
        call.out.lines(_unverified(chosen, call.out.width))
    elif asked:
        call.out.lines(hazard_sheet(chosen[0], call.out.width))
    else:
        call.out.lines(f"{each.id:<24} {each.name}" for each in chosen)
    return Exit.FINE


def _sheets(call: Call) -> Mapping[str, Hazard]:
    """All sheets: those that come with the program, changed and added to by the folder's own."""
    root = call.word("DIR")
    if not os.path.isdir(root):
        raise Refused(f'there is no folder "{root}"')
    folder = Folder(root)
    if HAZARDS in folder.broken:
        call.out.talk(f"{folder.broken[HAZARDS]}; it is passed over")
    return read_sheets(None, folder.own_hazards).hazards


def _unverified(sheets: list[Hazard], width: int) -> list[str]:
    """Every number that is only from memory: it is shown, and stops nobody."""
    paper = Paper(width)
    for sheet in sheets:
        numbers = [each for each in sheet.numbers if not each.may_gate]
        if numbers:
            paper.line(f"{sheet.name}  [{sheet.id}]", hang=2)
            paper.items((number_in_words(each) for each in numbers), indent=2)
    if not paper.lines:
        paper.line("Every number has a source that was looked at.")
    return paper.lines


hazards = Command(
    _hazards,
    "Lists the hazard sheets, prints one of them, or lists every number that is only from memory "
    "and so stops nobody.",
    (Word("DIR", "the vehicle's folder"), Word("HAZARD", "a sheet's id", optional=True)),
    (Option("unverified", "only the numbers that are from memory"), JSON),
    (
        "crewboard hazards sample_project",
        "crewboard hazards sample_project hot-work",
        "crewboard hazards sample_project --unverified",
    ),
)
