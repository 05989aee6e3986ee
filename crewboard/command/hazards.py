"""`crewboard hazards` and `crewboard unverified`: the hazard sheets, their bench cards, and what
in them nobody has verified."""

from __future__ import annotations

from collections.abc import Mapping

from crewboard.command.exits import Exit, NoSuch
from crewboard.command.opened import JSON, folder_of
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.folder.read.fault import nearest
from crewboard.folder.read.files import HAZARDS
from crewboard.folder.read.folder import Folder
from crewboard.folder.read.hazard_sheets import read_sheets, reader_of
from crewboard.paper.page import cards_page, sheet_page
from crewboard.paper.plain import plain_lines
from crewboard.paper.plain_sheet import cards_text
from crewboard.plan.hazard import CAUTION, Hazard
from crewboard.plan.vehicle import Vehicle
from crewboard.telling.bench_card import cards_of
from crewboard.telling.hazard_sheet import hazard_chapter, hazard_lines
from crewboard.telling.line import GAP, Line
from crewboard.telling.report import Sheet


def _hazards(call: Call) -> Exit:
    vehicle, sheets = _sheets(call)
    asked = call.each("HAZARD")
    chosen = [_sheet(sheets, typed) for typed in asked] or list(sheets.values())
    cards = call.given("card")
    if call.given("json"):
        from crewboard.command.json_hazards import hazards_form

        call.out.json(hazards_form(chosen))
    elif cards:
        made = cards_of(f"Bench cards: {vehicle.name}", chosen)._replace(head=(vehicle.name,))
        if call.given("html"):
            call.out.text(cards_page(made))
        else:
            call.out.lines(cards_text(made, call.out.width))
    elif call.given("html"):
        chapters = tuple(hazard_chapter(sheet, sheets) for sheet in chosen)
        page = Sheet(
            f"Hazard sheets: {vehicle.name}", CAUTION, chapters, head=(vehicle.name,), apart=True
        )
        call.out.text(sheet_page(page))
    elif asked:
        lines: list[Line] = []
        for sheet in chosen:
            lines += [*([GAP, GAP] if lines else []), *hazard_lines(sheet, sheets)]
        call.out.lines(plain_lines(lines, call.out.width))
    else:
        call.out.lines(f"{sheet.id:<24} {sheet.name}" for sheet in chosen)
    return Exit.FINE


def _sheet(sheets: Mapping[str, Hazard], typed: str) -> Hazard:
    """The sheet that is called so: as a task's hazards are written, or by its name."""
    if typed in sheets:
        return sheets[typed]
    called = typed.strip().casefold()
    named = [s for s in sheets.values() if called in (s.name.casefold(), s.short.casefold())]
    if len(named) == 1:
        return named[0]
    near = nearest(typed, [*sheets, *(sheet.short for sheet in sheets.values())])
    raise NoSuch("hazard sheet", f'there is no hazard sheet "{typed}"', near)


def _sheets(call: Call) -> tuple[Vehicle, Mapping[str, Hazard]]:
    """The vehicle, and all sheets: those that come with the program, changed and added to by the
    folder's own, as its crew reads them."""
    folder = Folder(folder_of(call))
    if HAZARDS in folder.broken:
        call.out.talk(f"{folder.broken[HAZARDS]}; it is passed over")
    plan = folder.plan
    reader = reader_of(plan.vehicle)
    read = read_sheets(None, folder.own_hazards, crew=plan.crew, reader=reader)
    return plan.vehicle, read.hazards


def _unverified(call: Call) -> Exit:
    from crewboard.folder.read.hazard_sources import source_kinds
    from crewboard.telling.unverified import unverified, unverified_lines

    _, sheets = _sheets(call)
    chosen = [_sheet(sheets, typed) for typed in call.each("HAZARD")] or sheets.values()
    found = unverified(chosen, source_kinds())
    if call.given("json"):
        from crewboard.command.json_hazards import unverified_form

        call.out.json(unverified_form(found))
    else:
        call.out.lines(plain_lines(unverified_lines(found), call.out.width))
    return Exit.FINE


_DIR = Word("DIR", "the vehicle's folder")
_HAZARD = Word(
    "HAZARD", "sheets by name, or as a task's hazards are written", many=True, optional=True
)
hazards = Command(
    _hazards,
    "Lists the hazard sheets as a task's hazards are written, or prints those that are named: the "
    "bench card, then the whole sheet with law, sources and numbers. With --card only the bench "
    "cards, of those named or of all, as text or as a page with two cards to a sheet.",
    (_DIR, _HAZARD),
    (Option("card", "only the bench cards"), Option("html", "as a page to print"), JSON),
    (
        "crewboard hazards sample_project",
        'crewboard hazards sample_project "hot work"',
        "crewboard hazards sample_project --card --html > cards.html",
        'crewboard hazards . "hot work" --html > hot-work.html',
    ),
)
unverified = Command(
    _unverified,
    "Lists what the hazard sheets quote and nobody has verified, by what it would take: laws that "
    "are free to read, standards to be bought, advice of public bodies, handbooks, practice "
    "without a source. What is from memory alone gates nothing.",
    (_DIR, _HAZARD),
    (JSON,),
    ("crewboard unverified sample_project", 'crewboard unverified . "hot work" --json'),
)
