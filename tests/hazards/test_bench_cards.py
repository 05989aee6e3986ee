"""The bench cards of all sheets that come with the program: short enough to be read, whole, and
their first aid as it is published."""

from __future__ import annotations

import pytest

from crewboard.folder.read.hazard_sheets import Reader, built_in_ids, built_in_sheet, read_sheets
from crewboard.plan.bench_card import CHECK, DO_NOT, KILLS, MOST_WORDS, WEAR, WRONG
from crewboard.plan.hazard import Hazard


def sheet(hazard_id: str) -> Hazard:
    found = built_in_sheet(hazard_id)
    assert found is not None
    return found


SHEETS = {hazard_id: sheet(hazard_id) for hazard_id in built_in_ids()}
every_sheet = pytest.mark.parametrize("hazard", SHEETS.values(), ids=SHEETS)


@every_sheet
@pytest.mark.parametrize("here", ["US", "GB", "EU", ""])
@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_a_card_has_at_most_a_hundred_words_and_says_all_four(
    hazard: Hazard, here: str, units: str
) -> None:
    read = read_sheets([hazard.id], reader=Reader(units, here)).hazards[hazard.id]
    assert 60 <= read.card.words(read.name, read.told, read.here, read.do_not_use) <= MOST_WORDS
    chapters = dict(read.card.chapters(read.here, read.do_not_use))
    assert {KILLS, WEAR, CHECK, WRONG} <= set(chapters)
    assert (DO_NOT in chapters) == bool(hazard.do_not_use)


@every_sheet
def test_what_is_published_on_first_aid_has_a_source_and_what_is_not_says_so(
    hazard: Hazard,
) -> None:
    assert hazard.first_aid
    for advice in hazard.first_aid:
        assert advice.source
        assert advice.edition
        assert (advice.read is None) == (advice.mark == "from memory"), advice


def test_only_what_no_law_lets_the_crew_use_is_never_used() -> None:
    assert {hazard.id for hazard in SHEETS.values() if hazard.do_not_use} == {"methylene-chloride"}


def helped(hazard_id: str) -> str:
    """The first aid of the sheet, with what to do when it goes wrong, as it is read."""
    hazard = SHEETS[hazard_id]
    texts = [*(advice.says for advice in hazard.first_aid), *hazard.if_wrong, *hazard.card.wrong]
    return "\n".join(map(hazard.told, texts))


@pytest.mark.parametrize("hazard_id", ["hot-work", "heat-guns", "soldering", "steam-box"])
def test_a_burn_is_cooled_under_running_water_for_twenty_minutes(hazard_id: str) -> None:
    # A fire and rescue service's page on burns and scalds: "running cool tap water for 20 minutes";
    # no ice, no butter; what sticks stays; cling film or a clean cloth without fluff.
    text = helped(hazard_id)
    for words in ("running water over it for 20 min", "unless they stick", "no ice, no grease"):
        assert words in text


def test_heat_stroke_may_sweat() -> None:
    # National Institute for Occupational Safety and Health: "hot, dry skin or profuse sweating".
    text = helped("heat-and-cold")
    assert "dry or dripping with sweat" in text
    assert "sweating or not" in text
    assert "no sweat" not in text


@pytest.mark.parametrize("hazard_id", ["power-saws", "woodworking-machines"])
def test_a_severed_part_lies_bagged_on_ice_without_touching_it(hazard_id: str) -> None:
    # Course for community emergency response teams: wrapped in clean material, in a plastic bag,
    # cool, "NOT in direct contact with ice", with the person.
    text = helped(hazard_id)
    assert "bag" in text
    assert "on ice without touching it" in text
    assert "raise" not in text  # pressing counts; raising the limb is no longer taught


@pytest.mark.parametrize(
    "hazard_id", ["batteries", "solvent-strippers", "methylene-chloride", "epoxy"]
)
def test_an_eye_is_rinsed_for_at_least_a_quarter_of_an_hour(hazard_id: str) -> None:
    # A US poison control centre: 15 to 20 minutes; the National Health Service: at least 20.
    text = helped(hazard_id)
    assert "20 min" in text
    assert "lids" in text


@pytest.mark.parametrize(
    ("hazard_id", "words"),
    [
        # An electricity network: do not touch or rescue until the power has been cut off; always
        # seek medical advice after a shock.
        ("live-voltage", "Power off before anybody touches them"),
        ("live-voltage", "seen by a doctor"),
        # US poison help line: outside into fresh air, call, the fire service measures.
        ("heat-and-cold", "nobody goes back before the fire service has measured"),
        # Health and Safety Executive, 2008: legs raised where they cannot be got down at once; no
        # change to lying flat.
        ("work-at-height", "raise their legs"),
        ("work-at-height", "lay them flat"),
        # Hand surgeons: an emergency however harmless it looks.
        ("stored-pressure", "hospital at once, say injection"),
        ("spray-coating", "hospital at once, say injection"),
        # Most who die in confined spaces went in to help.
        ("confined-spaces", "do not go in"),
        ("methylene-chloride", "do not go in"),
    ],
)
def test_first_aid_says_what_matters_first(hazard_id: str, words: str) -> None:
    assert words in helped(hazard_id)
