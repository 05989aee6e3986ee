"""The forms of `--json` (see `json_form`) for what the folder holds: the vehicle, the supplies, the
crew, the hazard sheets, the logbook, what was kept or refused, and the mistakes."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import TYPE_CHECKING

from crewboard.command.json_board import standing_form
from crewboard.command.json_form import Form, form_of, plain
from crewboard.command.json_series import series_forms
from crewboard.order.supplies import SupplyAccount, supply_in_words

if TYPE_CHECKING:
    from crewboard.folder.read.fault import Fault
    from crewboard.logbook.day import Day
    from crewboard.logbook.entry import Entry
    from crewboard.logbook.logbook import Logbook
    from crewboard.order.board import Board
    from crewboard.workbench import Outcome


def vehicle_form(board: Board, *, tasks: bool = False) -> Form:
    components = []
    progress = board.progress_of_all()
    for component in board.plan.components.values():
        done, of = progress[component.id]
        own = {"id": component.id, "name": component.name, "part_of": component.part_of or None}
        components.append({**own, "after": component.after, "done": done, "of": of})
    listed = {"tasks": [*map(standing_form, board.standings.values())]} if tasks else {}
    return form_of(
        "vehicle",
        at=board.at,
        components=components,
        series=series_forms(board),
        room=board.plan.vehicle.shop.room,
        **listed,
    )


def supplies_form(board: Board) -> Form:
    return form_of("supplies", at=board.at, supplies=[_supply(board, a) for a in board.stock.all()])


def _supply(board: Board, account: SupplyAccount) -> dict[str, object]:
    supply = account.supply
    return {
        "id": supply.id,
        "name": supply.name,
        "unit": supply.unit,
        "needed": account.needed,
        "here": account.here,
        "short": account.short,
        "to_come": account.to_come,
        "unordered": account.unordered,
        "promised": account.promised,
        "overdue": account.overdue,
        "says": supply_in_words(account),
        "unusual": [doubt._asdict() for doubt in account.unusual],
        "tasks": [task.id for task in board.stock.needing(supply.id)],
    }


def crew_form(board: Board) -> Form:
    from crewboard.order.hours.worked import totals

    day = board.at.date()
    worked_by = totals(board.plan, board.logbook, board.at)
    here = {visit.who: visit.since for visit in board.present}
    people = []
    for volunteer in board.plan.crew.values():
        worked = worked_by.get(volunteer.id)
        hours = {
            "month": worked.months.get(f"{day:%Y-%m}", 0.0) if worked else 0.0,
            "year": worked.years.get(day.year, 0.0) if worked else 0.0,
            "in_all": worked.in_all if worked else 0.0,
        }
        people.append(
            {
                "id": volunteer.id,
                "name": volunteer.name,
                "here_since": here.get(volunteer.id),
                "lead": volunteer.lead,
                "under_18": volunteer.minor_on(day),
                "skills": volunteer.skills,
                "certificates": [
                    {"kind": c.kind, "until": c.until} for c in volunteer.certificates
                ],
                "hours": hours,
            }
        )
    return form_of("crew", at=board.at, people=people)


def log_form(logbook: Logbook, wanted: Callable[[Day, Entry], bool]) -> Form:
    entries = []
    for day in logbook.days.values():
        fates = day.fate()
        entries += [
            entry_form(day.date, entry, fates.get(entry.id))
            for entry in sorted(day.entries, key=lambda line: line.at)
            if wanted(day, entry)
        ]
    return form_of("log", entries=entries)


def entry_form(day: date, entry: Entry, fate: str | None = None) -> Form:
    from crewboard.folder.read.day_file import entry_fields

    fields = {key: plain(value) for key, value in entry_fields(entry).items()}
    fields.setdefault("by", None)
    return {"id": entry.id, "day": day, **fields, "counts": fate is None, "fate": fate}


def check_form(files: int, mistakes: Iterable[Fault], questions: Iterable[Fault]) -> Form:
    return form_of(
        "check",
        files=files,
        mistakes=[_fault_form(fault) for fault in mistakes],
        questions=[_fault_form(fault) for fault in questions],
    )


def _fault_form(fault: Fault) -> Form:
    form = fault._asdict()
    del form["rests_on"]
    return form


def outcome_form(outcome: Outcome) -> Form:
    if not outcome.kept:
        return form_of("refused", refused=[refusal._asdict() for refusal in outcome.refused])
    entries = [entry_form(entry.at.date(), entry) for entry in outcome.entries]
    return form_of("kept", entries=entries, files=outcome.files)
