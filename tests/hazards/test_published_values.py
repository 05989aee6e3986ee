"""The sheets against the published values, each with its source beside it.

The marks are part of the check: a value read in the source's own text is "verified", one quoted by
somebody else "second-hand", one nobody looked up "from memory" and therefore no gate.
"""

from __future__ import annotations

from datetime import date

import pytest

from crewboard.folder.read.hazard_sheets import built_in_sheet

VERIFIED, SECOND, MEMORY, RULE = "verified", "second-hand", "from memory", "crew's rule"

# hazard, number, value, unit, mark, source that the sheet must name
PUBLISHED: list[tuple[str, str, float | date, str, str, str]] = [
    # 29 CFR 1910.1052: exposure to methylene chloride
    ("methylene-chloride", "pel", 25, "ppm", SECOND, "29 CFR 1910.1052"),
    ("methylene-chloride", "stel", 125, "ppm", SECOND, "29 CFR 1910.1052"),
    ("methylene-chloride", "stel-time", 15, "min", SECOND, "29 CFR 1910.1052"),
    ("methylene-chloride", "action", 12.5, "ppm", SECOND, "29 CFR 1910.1052"),
    # 40 CFR 751 subpart B (89 FR 39254, 8 May 2024)
    ("methylene-chloride", "de-minimis", 0.1, "% by weight", VERIFIED, "40 CFR 751"),
    ("methylene-chloride", "epa-action", 1, "ppm", VERIFIED, "40 CFR 751"),
    ("methylene-chloride", "protection", 50, "times", VERIFIED, "40 CFR 751.117"),
    ("methylene-chloride", "epa-limit", 2, "ppm", MEMORY, "40 CFR 751"),
    ("methylene-chloride", "epa-short", 16, "ppm", MEMORY, "40 CFR 751"),
    ("methylene-chloride", "furniture-ends", date(2029, 5, 8), "", MEMORY, "40 CFR 751.117"),
    # REACH Annex XVII entry 59, read in the British safety authority's archive
    ("methylene-chloride", "gb-content", 0.1, "%", VERIFIED, "entry 59"),
    ("methylene-chloride", "eu-content", 0.1, "%", SECOND, "entry 59"),
    # 29 CFR 1926.62 (the labour department's adviser pages)
    ("lead-paint", "action", 30, "µg/m³", VERIFIED, "29 CFR 1926.62"),
    ("lead-paint", "pel", 50, "µg/m³", VERIFIED, "29 CFR 1926.62"),
    ("lead-paint", "blasting", 2500, "µg/m³", VERIFIED, "29 CFR 1926.62"),
    ("abrasive-blasting", "lead", 2500, "µg/m³", VERIFIED, "29 CFR 1926.62"),
    ("lead-paint", "industry-action", 30, "µg/m³", MEMORY, "29 CFR 1910.1025"),
    ("lead-paint", "industry-pel", 50, "µg/m³", MEMORY, "29 CFR 1910.1025"),
    # The US rule on renovation, repair and painting
    ("lead-paint", "heat-gun", 1100, "°F", SECOND, "40 CFR 745"),
    ("hot-work", "heat-gun", 1100, "°F", SECOND, "40 CFR 745"),
    # Control of Lead at Work Regulations 2002, the British safety authority's page of 2015
    ("lead-paint", "gb-limit", 0.15, "mg/m³", VERIFIED, "Control of Lead at Work"),
    ("lead-paint", "gb-blood", 60, "µg/dl", VERIFIED, "Control of Lead at Work"),
    ("lead-paint", "gb-blood-women", 30, "µg/dl", VERIFIED, "Control of Lead at Work"),
    ("lead-paint", "gb-blood-young", 50, "µg/dl", VERIFIED, "Control of Lead at Work"),
    ("lead-paint", "eu-limit", 0.03, "mg/m³", MEMORY, "2024/869"),
    # National Park Service Preservation Brief 10
    ("lead-paint", "old", 1950, "", VERIFIED, "Brief 10"),
    # 29 CFR 1910.252(a)(2), in an identical state text
    ("hot-work", "watch-rule", 30, "min", VERIFIED, "29 CFR 1910.252(a)(2)"),
    ("hot-work", "clear", 35, "ft", VERIFIED, "29 CFR 1910.252(a)(2)"),
    # NFPA 51B, edition of 2019
    ("hot-work", "watch-standard", 60, "min", SECOND, "NFPA 51B"),
    ("hot-work", "more-monitoring", 3, "hours", SECOND, "NFPA 51B"),
    # 29 CFR 1910.146
    ("confined-spaces", "oxygen-low", 19.5, "%", SECOND, "29 CFR 1910.146"),
    ("confined-spaces", "oxygen-high", 23.5, "%", SECOND, "29 CFR 1910.146"),
    ("confined-spaces", "lower-limit", 10, "%", SECOND, "29 CFR 1910.146"),
    # 29 CFR 1910.333
    ("live-voltage", "dead-below", 50, "V", SECOND, "29 CFR 1910.333"),
    # Washington Administrative Code on jacks; 29 CFR 1910.244(a)(2) only from memory
    ("jacks-and-lifting", "inspection", 6, "months", VERIFIED, "Washington"),
    ("jacks-and-lifting", "inspection-us", 6, "months", MEMORY, "29 CFR 1910.244(a)(2)"),
    # Lifting Operations and Lifting Equipment Regulations 1998
    ("jacks-and-lifting", "accessories", 6, "months", MEMORY, "Lifting Operations"),
    ("jacks-and-lifting", "other-lifting", 12, "months", MEMORY, "Lifting Operations"),
    # 29 CFR 1910.134: the yearly fit test
    ("lead-paint", "fit-test", 12, "months", MEMORY, "29 CFR 1910.134"),
    # 29 CFR 1910.95
    ("noise", "action", 85, "dBA", SECOND, "29 CFR 1910.95"),
    ("noise", "pel", 90, "dBA", MEMORY, "29 CFR 1910.95"),
    ("noise", "exchange", 5, "dB", MEMORY, "29 CFR 1910.95"),
    # 29 CFR 1910.1053 and 1926.1153
    ("abrasive-blasting", "action", 25, "µg/m³", VERIFIED, "1926.1153"),
    ("abrasive-blasting", "pel", 50, "µg/m³", VERIFIED, "1926.1153"),
    # 29 CFR 1926.1101
    ("asbestos", "limit", 0.1, "f/cc", MEMORY, "29 CFR 1926.1101"),
    ("asbestos", "short", 1.0, "f/cc", MEMORY, "29 CFR 1926.1101"),
    ("asbestos", "short-time", 30, "min", MEMORY, "29 CFR 1926.1101"),
    # 29 CFR 1910.242(b)
    ("stored-pressure", "cleaning", 30, "psi", VERIFIED, "29 CFR 1910.242(b)"),
    # 29 CFR 1926.252(e), as quoted; self-heating from about an hour to two or three days
    ("oily-rags", "heats-from", 1, "hour", SECOND, "29 CFR 1926.252(e)"),
    ("oily-rags", "heats-until", 3, "days", SECOND, "29 CFR 1926.252(e)"),
    # 29 CFR 1926.501(b)(1), 1926.451(g)(1), 1910.28, 1926.1053
    ("work-at-height", "fall", 6, "ft", VERIFIED, "29 CFR 1926.501(b)(1)"),
    ("work-at-height", "scaffold", 10, "ft", SECOND, "29 CFR 1926.451(g)(1)"),
    ("work-at-height", "general", 4, "ft", SECOND, "29 CFR 1910.28"),
    ("work-at-height", "ladder-past", 3, "ft", MEMORY, "29 CFR 1926.1053"),
    ("work-at-height", "ladder-slope", 4, "up for each one out", MEMORY, "29 CFR 1926.1053"),
    # 29 CFR 570.55
    ("power-saws", "age", 18, "years", SECOND, "29 CFR 570.55"),
    ("woodworking-machines", "age", 18, "years", SECOND, "29 CFR 570.55"),
    ("young-people", "age", 18, "years", SECOND, "29 CFR 570.55"),
    # Control of Substances Hazardous to Health Regulations 2002
    ("wood-dust", "exhaust", 14, "months", MEMORY, "Control of Substances"),
    # Rule of the crew
    ("working-alone", "people", 2, "people", RULE, "rule of the crew"),
]


@pytest.mark.parametrize(
    ("hazard_id", "number_id", "value", "unit", "mark", "source"),
    PUBLISHED,
    ids=[f"{each[0]}-{each[1]}" for each in PUBLISHED],
)
def test_a_published_value_stands_on_its_sheet_with_source_and_mark(
    hazard_id: str, number_id: str, value: float | date, unit: str, mark: str, source: str
) -> None:
    sheet = built_in_sheet(hazard_id)
    assert sheet is not None
    number = sheet.number(number_id)
    assert number is not None
    assert number.value == value
    assert number.unit == unit
    assert number.mark == mark
    assert source in number.source


def test_the_longer_of_the_quoted_fire_watches_is_the_default() -> None:
    # 29 CFR 1910.252(a)(2): half an hour; NFPA 51B-2019: an hour. The longer one applies.
    hot_work = built_in_sheet("hot-work")
    assert hot_work is not None
    (watch,) = hot_work.clocks
    ruling = hot_work.ruling(watch)
    assert ruling is not None
    assert (ruling.id, ruling.amount) == ("watch-standard", "60 min")


@pytest.mark.parametrize("where", ["US", "GB", "EU"])
def test_nobody_buys_methylene_chloride_without_reading_its_legal_position(where: str) -> None:
    # 40 CFR 751 subpart B: vehicles are covered, and an unpaid person is a consumer.
    # REACH Annex XVII entry 59: not for the public, nor professionals off industrial sites.
    sheet = built_in_sheet("methylene-chloride")
    assert sheet is not None
    told = " ".join(law.says for law in sheet.laws if law.where == where)
    if where == "US":
        assert "covers vehicles" in told
        assert "without pay" in told
        assert "Vehicles are not listed" in told
    else:
        assert "not be supplied to the public" in told


def test_nothing_younger_people_may_not_do_is_open_to_them() -> None:
    # 29 CFR 570.55: power-driven woodworking machines, fixed or portable.
    for hazard_id in ("power-saws", "woodworking-machines"):
        sheet = built_in_sheet(hazard_id)
        assert sheet is not None
        assert not sheet.under_18
        assert "18 years" in sheet.told(sheet.under_18_why)


def test_wood_is_never_sandblasted() -> None:
    # Secretary of the Interior's Standards for Rehabilitation, standard 7.
    sheet = built_in_sheet("abrasive-blasting")
    assert sheet is not None
    assert any("wood is never sandblasted" in text for text in sheet.harm)
    assert sheet.check("not-wood") is not None
