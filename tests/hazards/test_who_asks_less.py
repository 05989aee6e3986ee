"""Asking less than a sheet does is decided by a lead of the crew, with a reason in words."""

from __future__ import annotations

import tomllib
from datetime import date

import pytest

from crewboard.folder.read.hazard_sheets import read_sheets
from crewboard.plan.volunteer import Volunteer

CREW = {
    "ada": Volunteer("ada", "Ada Marsh", lead=True, adult=True),
    "ben": Volunteer("ben", "Ben Holt", adult=True),
    "cleo": Volunteer("cleo", "Cleo Rand", lead=True, adult=False),
    "dov": Volunteer("dov", "Dov Quill", lead=True, eighteen_on=date(2026, 6, 1)),
}
WHY = "we only braze, with the small kit"


@pytest.mark.parametrize(
    ("by", "why", "counts"),
    [
        ("ada", WHY, True),
        ("Ada Marsh", WHY, True),
        ("ada", "x", False),
        ("ada", "-", False),
        ("ada", "not needed", False),
        ("ben", WHY, False),  # no lead
        ("cleo", WHY, False),  # under 18
        ("dov", WHY, False),
        ("zoe", WHY, False),  # not of the crew
        ("the committee", WHY, False),
    ],
)
@pytest.mark.parametrize(
    "less",
    [
        'leave_out = ["no-vapour"]',
        "checks.area.waivable = true",
        'leave_out = ["weld"]',
        'words_not = ["weld nut"]',
    ],
)
def test_a_sheet_asks_less_only_by_a_lead_of_age_with_a_reason(
    less: str, by: str, why: str, counts: bool
) -> None:
    own = tomllib.loads(f'[hot-work]\n{less}\ndecided_by = "{by}"\nwhy = "{why}"\n')
    sheets = read_sheets(["hot-work"], own, crew=CREW)
    assert [misfit.code for misfit in sheets.misfits] == ([] if counts else ["weaker"])
    assert bool(sheets.hazards["hot-work"].weakened) is counts


@pytest.mark.parametrize(("day", "counts"), [("2026-05-31", False), ("2026-06-01", True)])
def test_a_lead_decides_from_their_eighteenth_birthday_on(day: str, counts: bool) -> None:
    text = f'[hot-work]\nleast_people = 1\ndecided_by = "dov"\nwhy = "{WHY}"\non = {day}\n'
    sheets = read_sheets(["hot-work"], tomllib.loads(text), crew=CREW)
    assert bool(sheets.hazards["hot-work"].weakened) is counts


def test_a_crew_adds_words_without_asking_anybody() -> None:
    own = tomllib.loads('[hot-work]\nwords = ["schweiß-"]\n')
    sheets = read_sheets(["hot-work"], own, crew=CREW)
    assert sheets.misfits == []
    assert {"weld", "schweiß-"} <= set(sheets.hazards["hot-work"].words)
