"""The sheets against the published values, each with its source beside it: `published.txt`.

The marks are part of the check: a value read in the source's own text is "verified", one quoted by
somebody else "second-hand", one nobody looked up "from memory" and therefore no gate.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import NamedTuple

import pytest

from crewboard.folder.read.hazard_sheets import built_in_sheet
from crewboard.plan.hazard import Hazard


class Published(NamedTuple):
    """A line of the table."""

    sheet: str
    number: str
    value: str
    unit: str
    where: str
    mark: str
    source: str
    edition: str


_TABLE = Path(__file__).with_name("published.txt").read_text(encoding="utf-8").splitlines()
PUBLISHED = [Published(*line.split(" | ")) for line in _TABLE if not line.startswith("#")]
# Numbers that were on a sheet and must not come back, and why.
GONE = [
    ("lead-paint", "old"),  # a year of housing law says nothing of a vehicle's paint
    ("traction-voltage", "dead-below"),  # an exception of low voltage can only mislead there
    ("methylene-chloride", "protection"),  # of rules for furniture, which vehicles are not
    ("methylene-chloride", "furniture-ends"),
    ("methylene-chloride", "phase-out"),  # a bare year, which was past
    ("hot-work", "heat-gun"),  # heat guns have a sheet of their own
    ("hot-work", "clear-metric"),  # figures are told in both units
]


def sheet(hazard_id: str) -> Hazard:
    found = built_in_sheet(hazard_id)
    assert found is not None
    return found


def told(hazard_id: str, where: str) -> str:
    """What the laws of that place say on the sheet."""
    hazard = sheet(hazard_id)
    return " ".join(hazard.told(law.says) for law in hazard.laws if law.where == where)


@pytest.mark.parametrize("published", PUBLISHED, ids=[f"{p.sheet}-{p.number}" for p in PUBLISHED])
def test_a_published_value_stands_on_its_sheet_with_source_and_mark(published: Published) -> None:
    number = sheet(published.sheet).number(published.number)
    assert number is not None
    value = number.value
    amount = value.isoformat() if isinstance(value, date) else f"{value:.10g}"
    stands = (amount, number.unit or "-", number.where, number.mark, number.source, number.edition)
    assert stands == published[2:]


@pytest.mark.parametrize("hazard_id", sorted({each.sheet for each in PUBLISHED}))
def test_no_number_stands_on_such_a_sheet_that_the_table_does_not_have(hazard_id: str) -> None:
    listed = {each.number for each in PUBLISHED if each.sheet == hazard_id}
    assert {number.id for number in sheet(hazard_id).numbers} == listed


@pytest.mark.parametrize(("hazard_id", "number_id"), GONE)
def test_a_number_that_misled_stays_away(hazard_id: str, number_id: str) -> None:
    assert sheet(hazard_id).number(number_id) is None


def test_the_longer_of_the_quoted_fire_watches_is_the_default() -> None:
    # 29 CFR 1910.252(a)(2)(iii)(B): half an hour; NFPA 51B-2019: an hour. The longer one applies.
    (watch,) = sheet("hot-work").clocks
    ruling = sheet("hot-work").ruling(watch)
    assert ruling is not None
    assert (ruling.id, ruling.amount) == ("watch-standard", "60 min")


def test_no_use_of_methylene_chloride_on_a_vehicle_is_lawful_in_the_us() -> None:
    # 40 CFR 751 subpart B: vehicles are covered, an unpaid person is a consumer, and commercial
    # stripping of vehicles is not among the uses still allowed. 751.101(b): the floor in content
    # is not that of the consumers' ban.
    us = told("methylene-chloride", "US")
    for words in (
        "no lawful use on a vehicle, paid or not",
        "covers vehicles",
        "without pay",
        "Vehicles are not listed",
        "no content is small enough",
        "Paint stripping is untouched",  # 90 FR 50894
    ):
        assert words in us


@pytest.mark.parametrize("where", ["GB", "EU"])
def test_methylene_chloride_is_not_for_the_public(where: str) -> None:
    # REACH Annex XVII entry 59; in GB SI 2014/2882 lets professionals with the certificate use it.
    assert "not be supplied to the public" in told("methylene-chloride", where)
    assert ("certificate of competence" in told("methylene-chloride", where)) == (where == "GB")


def test_every_untested_old_coat_counts_as_lead_whatever_its_year() -> None:
    # Paints for vehicles and industry held lead later than those for houses. (The trade's
    # knowledge, no source.)
    text = " ".join(c.text for c in sheet("lead-paint").checks)
    assert "Every untested old coat counts as lead" in text
    for number in sheet("lead-paint").numbers:
        assert number.unit or isinstance(number.value, date), number.id  # no bare year


def test_the_rule_of_a_shop_stands_before_that_of_a_building_site() -> None:
    # General industry is 29 CFR 1910, construction 29 CFR 1926: a restoration shop is the first.
    for hazard_id in ("lead-paint", "work-at-height", "asbestos", "jacks-and-lifting"):
        us = [law.source for law in sheet(hazard_id).laws if law.where == "US"]
        assert not us[0].startswith("29 CFR 1926"), hazard_id


def test_no_height_is_free_of_protection() -> None:
    # A fall hurts from any height; 29 CFR 1926.501's 6 ft is for construction and stood in a check.
    heights = {"fall", "general", "scaffold"}
    for check in sheet("work-at-height").checks:
        assert not any(f"{{{height}}}" in check.text for height in heights)
    edge = sheet("work-at-height").check("edge")
    assert edge is not None
    assert "Wherever a fall can hurt" in edge.text


def test_isocyanates_are_sprayed_with_air_fed_protection_only() -> None:
    # HSE, motor vehicle repair, body shops: "filtering face masks are not acceptable".
    masks = sheet("spray-coating").check("masks")
    assert masks is not None
    assert "With isocyanates an air-fed hood is on, no filter mask" in masks.text
    assert "filtering masks are not acceptable" in told("spray-coating", "GB")


def test_brakes_and_clutches_are_asbestos_until_proven_otherwise() -> None:
    # 29 CFR 1910.1001 appendix F, mandatory: closed box and fine filter, low-pressure wet; the wet
    # method up to five pairs a week.
    assert any("Brake and clutch linings count as asbestos" in h for h in sheet("asbestos").harm)
    assert "no more than 5 pairs of brakes" in told("asbestos", "US")


@pytest.mark.parametrize(
    ("hazard_id", "check_id", "holds"),
    [
        # WAC 296-807-17010: before the first use of a shift; -17020: monthly and yearly.
        ("jacks-and-lifting", "looked-over", "looked over today"),
        ("jacks-and-lifting", "examined", "within 1 month and fully within 12 months"),
        ("stored-pressure", "receiver", "looked over today"),
        ("stored-pressure", "receiver", "within 12 months"),
        ("stored-pressure", "receiver", "The vehicle's own tanks count too"),
    ],
)
def test_jacks_and_receivers_are_looked_over_each_day_and_their_papers_lapse(
    hazard_id: str, check_id: str, holds: str
) -> None:
    check = sheet(hazard_id).check(check_id)
    assert check is not None
    assert check.every == "task a day"
    assert check.when == "before"
    assert holds in sheet(hazard_id).told(check.text)


def test_nothing_younger_people_may_not_do_is_open_to_them() -> None:
    # 29 CFR 570.55: power-driven woodworking machines, fixed or portable; taking off only from
    # circular saws and veneer clippers, the rest of it is the crew's own rule.
    for hazard_id in ("power-saws", "woodworking-machines"):
        assert not sheet(hazard_id).under_18
        why = sheet(hazard_id).told(sheet(hazard_id).under_18_why)
        assert "18 years" in why
        assert "this crew's own rule" in why


@pytest.mark.parametrize(
    "hazard_id", ["wood-dust", "noise", "steam-box", "heat-and-cold", "oily-rags"]
)
def test_what_the_law_keeps_the_young_from_is_for_training_only(hazard_id: str) -> None:
    # Management of Health and Safety at Work Regulations 1999, reg. 19(2)(b), (e) and (3).
    assert not sheet(hazard_id).under_18
    assert sheet(hazard_id).training


def test_wood_is_never_sandblasted() -> None:
    # Secretary of the Interior's Standards for Rehabilitation, standard 7: for buildings, borrowed.
    assert any("wood is never sandblasted" in text for text in sheet("abrasive-blasting").harm)
    assert sheet("abrasive-blasting").check("not-wood") is not None
    (borrowed,) = [law for law in sheet("abrasive-blasting").laws if "historic" in law.says]
    assert "historic buildings" in borrowed.borrowed
