"""Every sheet is whole, reads well, and has no figure without a source."""

from __future__ import annotations

import re
from datetime import date

import pytest

from crewboard.folder.read.hazard_decode import tell_loose_ends, texts_of
from crewboard.folder.read.hazard_sheets import (
    EVERY_DAY,
    LONGEST_CLOCK,
    built_in_ids,
    built_in_sheet,
    read_sheets,
)
from crewboard.folder.read.table import Table
from crewboard.folder.toml.decode import parse_toml
from crewboard.plan.hazard import Hazard, Number, longest_clock, references

# What a restoration shop has to think of. (Common practice, no source.)
EXPECTED = {
    "abrasive-blasting",
    "angle-grinders",
    "asbestos",
    "batteries",
    "brakes-and-clutches",
    "carbon-monoxide",
    "confined-spaces",
    "creosote",
    "curing-lamps",
    "degreasers",
    "droppings-and-mould",
    "edge-tools",
    "epoxy",
    "fuel",
    "glass",
    "heat-and-cold",
    "heat-guns",
    "hot-pots",
    "hot-work",
    "jacks-and-lifting",
    "lacquer-and-thinners",
    "lead-paint",
    "live-voltage",
    "manual-handling",
    "methylene-chloride",
    "moving-vehicles",
    "noise",
    "oily-rags",
    "old-coatings",
    "old-electrics",
    "open-days",
    "portable-electrics",
    "power-saws",
    "slings",
    "soldering",
    "solvent-strippers",
    "spray-coating",
    "steam-box",
    "stored-pressure",
    "the-shop",
    "traction-voltage",
    "under-vehicles",
    "unstable-structures",
    "vibration",
    "wood-dust",
    "woodworking-machines",
    "work-at-height",
    "working-alone",
    "young-people",
}
LOOKED_AT = (date(2026, 10, 31), date(2026, 11, 26))  # when the sources were read
NUMBER_WORDS = re.compile(
    r"\b(one|two|three|four|five|six|seven|eight|nine|ten|twelve|fifteen|twenty|thirty|forty|fifty|"
    r"sixty|hundred|half an?)\s+(seconds?|minutes?|hours?|days?|weeks?|months?|years?|feet|foot|"
    r"met(er|re)s?|inch(es)?|volts?|degrees?|people|kilos?|pounds?|percent)\b"
)


def dated_where_read(mark: str, edition: str, read: date | None) -> bool:
    """A date stands where somebody read, and only there."""
    if mark in ("verified", "second-hand"):
        return read in LOOKED_AT and "recalled" not in edition
    return read is None


def sheet(hazard_id: str) -> Hazard:
    found = built_in_sheet(hazard_id)
    assert found is not None
    return found


SHEETS = {hazard_id: sheet(hazard_id) for hazard_id in built_in_ids()}
every_sheet = pytest.mark.parametrize("hazard", SHEETS.values(), ids=SHEETS)


def test_every_danger_of_the_shop_has_its_sheet() -> None:
    assert set(SHEETS) == EXPECTED


@every_sheet
def test_a_sheet_is_read_without_a_mistake_and_its_parts_fit(hazard: Hazard) -> None:
    everything = read_sheets(None, {hazard.id: {}})
    assert everything.misfits == []
    assert everything.hazards[hazard.id] == hazard
    table = Table({}, (), [])
    tell_loose_ends(hazard, table, SHEETS)
    assert table.misfits == []


@every_sheet
def test_a_sheet_says_what_can_happen_what_is_checked_and_what_prevails(hazard: Hazard) -> None:
    assert hazard.harm
    assert hazard.gear
    assert hazard.if_wrong
    assert hazard.prevail
    moments = {check.when for check in hazard.checks}
    assert {"before", "after"} <= moments
    assert "during" in moments or hazard.concerns == "day"
    for check in hazard.checks:
        assert (check.when == "during") == bool(check.interval), check.id


@every_sheet
def test_a_sheet_names_its_sources_in_the_us_gb_and_eu(hazard: Hazard) -> None:
    assert {"US", "GB", "EU"} <= {law.where for law in hazard.laws}
    for law in hazard.laws:
        assert law.says
        assert law.source
        assert law.edition
    for law in (*hazard.laws, *hazard.reporting, *hazard.first_aid):
        assert dated_where_read(law.mark, law.edition, law.read), law


@every_sheet
def test_every_number_has_value_unit_source_edition_date_and_mark(hazard: Hazard) -> None:
    for number in hazard.numbers:
        assert number.source, number.id
        assert number.edition, number.id
        assert number.says, number.id
        assert dated_where_read(number.mark, number.edition, number.read), number.id
        assert number.where in ("US", "GB", "EU", "anywhere"), number.id
        assert number.mark in (
            "verified",
            "second-hand",
            "from memory",
            "common practice",
            "crew's rule",
        )
        # A year and a date need no unit.
        assert number.unit or isinstance(number.value, date) or 1900 < number.value < 2100


@every_sheet
def test_no_text_holds_a_figure_outside_the_numbers(hazard: Hazard) -> None:
    for where, text in texts_of(hazard):
        bare = re.sub(r"\{[a-z][a-z0-9-]*\}", "", text)
        assert not re.search(r"\d", bare), (where, text)
        assert not NUMBER_WORDS.search(bare.lower()), (where, text)
    for number in hazard.numbers:
        assert not re.search(r"\d", number.says), number


@every_sheet
def test_every_number_is_used_in_a_sentence_that_holds_it(hazard: Hazard) -> None:
    used = {each for _, text in texts_of(hazard) for each in references(text)}
    assert {number.id for number in hazard.numbers} <= used
    for number in hazard.numbers:
        assert number.amount in hazard.sentence(number)


@every_sheet
def test_texts_read_with_their_figures_and_end_as_sentences(hazard: Hazard) -> None:
    for where, text in texts_of(hazard):
        told = hazard.told(text)
        assert "{" not in told, where
        assert "}" not in told, where
        assert "  " not in told, where
        assert told == told.strip(), where
    sentences = [*hazard.harm, *hazard.if_wrong, *(c.text for c in hazard.checks)]
    sentences += [law.says for law in hazard.laws]
    for text in sentences:
        assert text[0].isupper() or text[0] == "{", text
        assert text.endswith("."), text


@every_sheet
def test_a_figure_from_memory_says_unverified_and_gates_nothing(hazard: Hazard) -> None:
    for number in hazard.numbers:
        told = hazard.told(f"{{{number.id}}}")
        assert ("(unverified)" in told) == (number.mark == "from memory")
        assert number.may_gate == (number.mark != "from memory")
    for clock in hazard.clocks:
        ruling = hazard.ruling(clock)
        assert ruling is not None
        assert ruling.may_gate
    if hazard.least_people:
        people = hazard.number(hazard.least_people)
        assert people is not None
        assert people.may_gate
    for check in hazard.checks:
        if check.interval:
            interval = hazard.number(check.interval)
            assert interval is not None
            assert interval.may_gate


@every_sheet
def test_who_is_barred_by_age_is_told_why(hazard: Hazard) -> None:
    assert hazard.under_18 or hazard.under_18_why


def test_machines_strippers_lifting_and_hot_work_ask_for_two() -> None:
    # Rule of the crew: two people for hot work, lifting, strippers, machines.
    for hazard_id in (
        "hot-work",
        "jacks-and-lifting",
        "slings",
        "solvent-strippers",
        "power-saws",
        "woodworking-machines",
    ):
        assert SHEETS[hazard_id].people == 2


def test_what_makes_sparks_stays_away_from_what_burns_both_ways() -> None:
    # Common practice, no source: sparks and solvent vapour, dust and fresh varnish.
    for other in ("solvent-strippers", "spray-coating", "oily-rags", "wood-dust", "epoxy"):
        either = SHEETS["hot-work"].not_near + SHEETS[other].not_near
        assert other in either or "hot-work" in either
    assert "wood-dust" in SHEETS["spray-coating"].not_near


def test_traction_voltage_is_for_licensed_people_and_gives_no_procedure() -> None:
    traction = SHEETS["traction-voltage"]
    assert [(n.kind, n.who) for n in traction.certificates] == [
        ("traction electrical licence", "each")
    ]
    assert not traction.under_18
    words = " ".join(c.text for c in traction.checks).lower()
    assert "gives no procedure" in words
    for step in ("screwdriver", "discharge", "earth the", "open the", "switch off"):
        assert step not in words


def test_only_what_is_asked_for_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    from crewboard.folder.read import hazard_sheets

    opened: list[str] = []

    def counting(data: bytes) -> object:
        opened.append(data.decode().splitlines()[0])
        return parse_toml(data)

    monkeypatch.setattr(hazard_sheets, "parse_toml", counting)
    sheets = read_sheets(["hot-work", "oily-rags", "hot-work"])
    assert set(sheets.hazards) == {"hot-work", "oily-rags", *EVERY_DAY}
    assert opened == []
    assert sheets.hazards["hot-work"] is sheets.hazards["hot-work"]
    assert len(opened) == 1


def test_an_unknown_hazard_is_told_not_invented() -> None:
    sheets = read_sheets(["hot-work", "dragons", "../hot-work", "Hot-Work"])
    assert sheets.unknown == ("dragons", "../hot-work", "Hot-Work")
    assert "dragons" not in sheets.hazards


def test_the_young_peoples_sheet_is_read_where_the_crew_has_any() -> None:
    assert "young-people" not in read_sheets([]).hazards
    assert "young-people" in read_sheets([], minors=True).hazards


def test_a_date_and_a_share_read_as_people_write_them() -> None:
    number = Number("end", date(2029, 5, 8), "", "ends", "x", "US", "y", None, "verified")
    assert number.amount == "8 May 2029"
    assert number.span is None
    assert number._replace(value=19.5, unit="%").amount == "19.5 %"
    assert number._replace(value=60, unit="min").amount == "60 min"


def test_no_protective_clock_is_longer_than_is_taken_for_granted() -> None:
    assert longest_clock(SHEETS.values()) == LONGEST_CLOCK


def test_a_crews_own_longer_clock_is_known_before_its_sheet_is_looked_at() -> None:
    own = {
        "tar": {
            "name": "Hot tar",
            "harm": ["It burns."],
            "clocks": {"cool": {"kind": "cooling", "numbers": ["cool"]}},
            "numbers": {
                "cool": {
                    "value": 3,
                    "unit": "days",
                    "says": "cools for",
                    "source": "rule of the crew",
                    "where": "anywhere",
                    "edition": "1",
                    "read": date(2026, 1, 1),
                    "mark": "crew's rule",
                }
            },
        }
    }
    assert read_sheets({"tar"}, own).longest_clock == 3 * 1440


@pytest.mark.parametrize("name", SHEETS)
def test_each_check_has_a_short_title_in_words_of_its_own(name: str) -> None:
    checks = SHEETS[name].checks
    titles = [check.title for check in checks]
    assert all(0 < len(title) <= 36 and "{" not in title for title in titles), titles
    assert len(set(titles)) == len(titles)
