"""The bench card, first aid and "do not use" of a sheet: read, told, added to, never weakened."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from crewboard.folder.read.hazard_sheets import Reader, read_sheets
from crewboard.plan.bench_card import CHECK, DO_NOT, KILLS, LOOK_UP
from crewboard.plan.vehicle import WRITTEN_FOR
from crewboard.telling.hazard_sheet import hazard_lines

TAR: dict[str, Any] = {
    "name": "Hot tar",
    "harm": ["It burns."],
    "do_not_use": "Use the cold kind.",
    "card": {
        "kills": "It burns through gloves; it catches fire at {flash}.",
        "wear": ["face shield"],
        "check": ["{clear} clear of people"],
        "wrong": ["Water on the burn."],
        "look_up": ["the fire code"],
        "law": {"GB": "A permit."},
    },
    "first_aid": [
        {"says": "Cool it.", "source": "the health service", "edition": "2025", "where": "GB"},
    ],
    "numbers": {
        "flash": {"value": 200, "unit": "°C", "says": "catches fire at {flash}", "safe": "less"},
        "clear": {"value": 35, "unit": "ft", "says": "{clear} clear", "safe": "more"},
    },
    "laws": [
        {"where": "US", "says": "No.", "source": "a", "borrowed": "roofs"},
        {"where": "GB", "says": "Perhaps.", "source": "b"},
        {"where": "anywhere", "says": "Mind the label.", "source": "c"},
    ],
}


def test_a_crews_own_sheet_has_a_card_first_aid_and_what_to_do_instead() -> None:
    read = read_sheets(["tar"], {"tar": TAR}, reader=Reader("imperial", "GB"))
    assert read.misfits == []
    tar = read.hazards["tar"]
    chapters = dict(tar.card.chapters(tar.here, tar.do_not_use))
    assert list(chapters)[:2] == [DO_NOT, KILLS]
    assert chapters["Law, GB"] == ("A permit.",)
    assert [tar.told(text) for text in chapters[CHECK]] == ["35 ft (11 m) clear of people"]
    assert tar.first_aid[0].mark == "from memory"  # until somebody says how surely it is known
    assert [law.says for law in tar.laws_here] == ["Perhaps.", "Mind the label."]
    assert [law.borrowed for law in tar.laws_elsewhere] == ["roofs"]
    metric = read_sheets(["tar"], {"tar": TAR}).hazards["tar"]
    assert metric.told("{clear}") == "11 m (35 ft)"
    assert metric.laws_here == ()


def test_a_card_says_where_no_law_is_written_for_the_crews_place() -> None:
    tar = read_sheets(["tar"], {"tar": TAR}, reader=Reader("metric", "Peru")).hazards["tar"]
    assert dict(tar.card.chapters(tar.here))[LOOK_UP][0] == "Peru's law"
    told = "\n".join(line.text for line in hazard_lines(tar, {}))
    assert "Nothing is written here for Peru: look up what its law asks." in told
    ordered = [told.index(says) for says in ("Mind the label.", "US: No.", "GB: Perhaps.")]
    assert ordered == sorted(ordered)
    assert "borrowed as practice: written for roofs" in told


def test_the_words_of_a_card_are_counted_as_they_are_read() -> None:
    tar = read_sheets(["tar"], {"tar": TAR}, reader=Reader("metric", "GB")).hazards["tar"]
    said = (
        "Hot tar Do not use Use the cold kind. What kills or maims It burns through gloves; it "
        "catches fire at 200 °C (392 °F). Wear face shield Check 11 m (35 ft) clear of people "
        "If it goes wrong Water on the burn. Law, GB A permit. Look up where you are the fire code"
    )
    words = tar.card.words(tar.name, tar.told, tar.here, tar.do_not_use)
    assert words == len(said.split())


def test_a_crew_adds_to_a_card_and_cannot_undo_that_something_is_not_used() -> None:
    own: dict[str, Any] = {
        "methylene-chloride": {"card": {"wrong": ["Our bell is by the door."]}},
        "noise": {"do_not_use": "Not in our yard: the neighbours."},
    }
    read = read_sheets(["noise", "methylene-chloride"], own)
    assert read.misfits == []
    assert "Our bell is by the door." in read.hazards["methylene-chloride"].card.wrong
    assert read.hazards["noise"].do_not_use == "Not in our yard: the neighbours."


def test_a_number_of_a_card_that_is_none_of_the_sheet_is_told() -> None:
    tar = {**TAR, "card": {"kills": "It is {hot}.", "kill": "", "law": {"GB": 3}}}
    sentences = [fault.sentence for fault in read_sheets(["tar"], {"tar": tar}).misfits]
    assert sentences == [
        '"GB" is a number',
        '"kill" is not known here',
        'the card refers to "{hot}", which is no number of the sheet',
    ]


SHEETS = read_sheets(None).hazards


@pytest.mark.parametrize("name", SHEETS)
def test_only_what_somebody_looked_up_bears_the_day_of_it(name: str) -> None:
    sheet = SHEETS[name]
    laws = (*sheet.laws, *sheet.reporting, *sheet.first_aid)
    quoted = [(n.mark, n.edition, n.read) for n in sheet.numbers]
    for mark, edition, read in quoted + [(law.mark, law.edition, law.read) for law in laws]:
        if mark == "from memory" or "recalled" in edition:
            assert read is None, edition
        if mark in ("verified", "second-hand"):
            assert read is not None, edition


def test_first_aid_and_borrowed_law_say_whose_and_from_where() -> None:
    for sheet in SHEETS.values():
        for said in (*sheet.first_aid, *sheet.laws):
            assert said.where in (*WRITTEN_FOR, "anywhere"), (sheet.id, said.says)
            assert said.source, (sheet.id, said.says)


def test_a_date_stays_a_date_in_any_units() -> None:
    end = {**TAR["numbers"]["flash"], "value": date(2029, 5, 8), "unit": ""}
    tar = {**TAR, "numbers": {**TAR["numbers"], "flash": end}}
    read = read_sheets(["tar"], {"tar": tar}, reader=Reader("imperial")).hazards["tar"]
    assert read.told("{flash}") == "8 May 2029"
