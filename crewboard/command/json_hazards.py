"""The hazard sheets as JSON: with ids and titles both."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crewboard.command.json_form import Form, form_of
from crewboard.plan.hazard import Hazard, Law
from crewboard.telling.unverified import Unverified


def hazards_form(sheets: Iterable[Hazard]) -> Form:
    """The whole sheets, figures told in both units."""
    return form_of("hazards", sheets=[_sheet(sheet) for sheet in sheets])


def _sheet(sheet: Hazard) -> Form:
    chapters = sheet.card.chapters(sheet.here, sheet.do_not_use)
    return {
        "id": sheet.id,
        "name": sheet.name,
        "do_not_use": sheet.told(sheet.do_not_use),
        "card": {heading: [sheet.told(text) for text in texts] for heading, texts in chapters},
        "harm": [sheet.told(harm) for harm in sheet.harm],
        "gear": [sheet.told(gear) for gear in sheet.gear],
        "checks": [{**c._asdict(), "text": sheet.told(c.text)} for c in sheet.checks],
        "if_wrong": [sheet.told(text) for text in sheet.if_wrong],
        "first_aid": [_said(sheet, advice) for advice in sheet.first_aid],
        "laws": [_said(sheet, law) for law in sheet.here_first(sheet.laws)],
        "reporting": [_said(sheet, law) for law in sheet.here_first(sheet.reporting)],
        "prevail": list(sheet.prevail),
        "numbers": [
            {**n._asdict(), "amount": n.amount_in(sheet.units), "says": sheet.sentence(n)}
            for n in sheet.numbers
        ],
    }


def _said(sheet: Hazard, law: Law) -> Form:
    return {**law._asdict(), "says": sheet.told(law.says)}


def unverified_form(found: Sequence[Unverified]) -> Form:
    """What waits to be verified, kind by kind in the order of the list."""
    kinds = dict.fromkeys(each.kind for each in found)
    return form_of(
        "unverified",
        kinds=[
            {
                "says": kind.says,
                "takes": kind.takes,
                "sentences": [_waiting(each) for each in found if each.kind == kind],
            }
            for kind in kinds
        ],
    )


def _waiting(each: Unverified) -> Form:
    return {
        "source": each.source,
        "edition": each.edition,
        "hazard": each.hazard.id,
        "name": each.hazard.name,
        "says": each.says,
        "mark": each.mark,
    }
