"""The sheets on what hurts people most: their figures against the sources (`published_risks.txt`),
what the law keeps the young from, what must never be near what, and first aid."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.folder.read.hazard_sheets import built_in_sheet
from crewboard.order.may.apart import clashing, follows, keep_apart
from crewboard.plan.hazard import Hazard, minutes_of
from tests.hazards.test_words import judged

_HERE = Path(__file__)
_LINES = _HERE.with_name("published_risks.txt").read_text(encoding="utf-8").splitlines()
PUBLISHED = [tuple(line.split(" | ")) for line in _LINES if not line.startswith("#")]
TITLES = _HERE.with_name("titles_of_risks.txt").read_text(encoding="utf-8").splitlines()


def sheet(hazard_id: str) -> Hazard:
    found = built_in_sheet(hazard_id)
    assert found is not None
    return found


RISKS = {hazard_id: sheet(hazard_id) for hazard_id in dict.fromkeys(row[0] for row in PUBLISHED)}
every_risk = pytest.mark.parametrize("hazard", RISKS.values(), ids=RISKS)


@every_risk
def test_each_number_stands_as_its_source_has_it_and_none_besides(hazard: Hazard) -> None:
    stands = {
        (n.id, f"{n.value:.10g}", n.unit or "-", n.where, n.mark, n.source, n.edition)
        for n in hazard.numbers
        if isinstance(n.value, float | int)
    }
    assert stands == {row[1:] for row in PUBLISHED if row[0] == hazard.id}
    assert len(stands) == len(hazard.numbers)


def test_of_these_titles_no_hazard_is_missed_and_none_is_asked_about_for_nothing() -> None:
    lines = [line for line in TITLES if line and not line.startswith("#")]
    assert len(lines) > 60
    counted = {line: judged(line) for line in lines}
    assert {line: each for line, each in counted.items() if any(each)} == {}
    asked = {sheet for line in lines for sheet in line.partition("  ")[0].replace("|", " ").split()}
    assert set(RISKS) <= asked


@pytest.mark.parametrize(
    ("hazard_id", "because"),
    [
        # Management of Health and Safety at Work Regulations 1999, reg. 19(2): what is toxic or
        # carcinogenic, radiation, danger that the young do not see, and heat, noise, vibration.
        ("brakes-and-clutches", "cancer"),
        ("creosote", "cancer"),
        ("degreasers", "chemicals"),
        ("lacquer-and-thinners", "chemicals"),
        ("carbon-monoxide", "gas"),
        ("old-electrics", "Radiation"),
        ("curing-lamps", "radiation"),
        ("hot-pots", "heat"),
        ("vibration", "vibration"),
        ("angle-grinders", "vibration"),
        ("moving-vehicles", "misjudge"),
        ("under-vehicles", "late"),
        ("unstable-structures", "late"),
    ],
)
def test_the_young_are_kept_from_what_the_law_names(hazard_id: str, because: str) -> None:
    assert not RISKS[hazard_id].under_18
    assert because in RISKS[hazard_id].under_18_why


# Vapour that burns, and chlorinated vapour that heat turns into phosgene (medical guidelines of the
# US agency for toxic substances), against what sparks, glows or burns; whichever sheet says so.
VAPOUR = ("degreasers", "lacquer-and-thinners", "solvent-strippers", "spray-coating")


@pytest.mark.parametrize("vapour", VAPOUR)
@pytest.mark.parametrize(
    "heat", ["hot-work", "heat-guns", "angle-grinders", "curing-lamps", "hot-pots"]
)
def test_vapour_and_heat_are_kept_apart_and_do_not_follow_at_once(vapour: str, heat: str) -> None:
    assert keep_apart(sheet(vapour), sheet(heat), beside=True)
    assert follows([sheet(heat)], sheet(vapour), beside=True)
    assert any(clock.guards == "task" for clock in sheet(vapour).clocks)


@pytest.mark.parametrize("heat", ["hot-work", "angle-grinders"])
def test_sparks_anywhere_in_the_shop_keep_from_fuel_and_cleaner(heat: str) -> None:
    for vapour in ("fuel", "degreasers", "lacquer-and-thinners"):
        assert keep_apart(sheet(vapour), sheet(heat), beside=False)


@pytest.mark.parametrize(
    ("one", "other", "fits"),
    [
        # What a usual task has both of must fit into it, else one of them is left off.
        ("carbon-monoxide", "fuel", True),
        ("hot-pots", "oily-rags", True),
        ("unstable-structures", "work-at-height", True),
        ("unstable-structures", "jacks-and-lifting", True),
        ("moving-vehicles", "jacks-and-lifting", True),
        ("under-vehicles", "brakes-and-clutches", True),
        ("lacquer-and-thinners", "spray-coating", True),
        ("glass", "lead-paint", True),
        ("portable-electrics", "under-vehicles", True),
        # What nobody does in one go, however the task is called.
        ("fuel", "hot-work", False),  # "weld the tank"
        ("degreasers", "hot-work", False),  # "degrease and weld"
        ("brakes-and-clutches", "angle-grinders", False),  # "grind the linings"
        ("creosote", "hot-work", False),  # "burn the sleepers"
        ("under-vehicles", "carbon-monoxide", False),  # below a running engine
        ("under-vehicles", "moving-vehicles", False),
    ],
)
def test_what_belongs_together_fits_into_one_task_and_what_kills_does_not(
    one: str, other: str, fits: bool
) -> None:
    assert (list(clashing([sheet(one), sheet(other)])) == []) is fits


def test_sparks_of_a_grinder_are_watched_as_long_as_those_of_welding() -> None:
    (ours,), (theirs,) = RISKS["angle-grinders"].clocks, sheet("hot-work").clocks
    watch, usual = RISKS["angle-grinders"].ruling(ours), sheet("hot-work").ruling(theirs)
    assert watch is not None
    assert usual is not None
    assert minutes_of(watch) >= minutes_of(usual)


@pytest.mark.parametrize(
    ("hazard_id", "check_id", "says"),
    [
        # Hot work on small tanks and drums kills; diesel tanks too (HSE, Fire and explosion in
        # vehicle repair).
        ("fuel", "never-hot", "not welded, soldered, ground, cut with power or heated"),
        # HSE leaflet INDG434: never beneath a vehicle that only jacks hold.
        ("under-vehicles", "stands", "No jack holds it"),
        # 29 CFR 1910.1001, appendix F: no dry brushing; no air line in the open.
        ("brakes-and-clutches", "wet", "No air line, no dry brush"),
        # Sheets with sources: linings count as asbestos until a test says otherwise.
        ("brakes-and-clutches", "tested", "count as asbestos"),
        ("degreasers", "label", "nothing with chlor in its name"),
        ("carbon-monoxide", "outside", "hose from the exhaust to the open air"),
        ("open-days", "locked", "Machines are locked off"),
    ],
)
def test_what_may_not_be_left_out(hazard_id: str, check_id: str, says: str) -> None:
    check = RISKS[hazard_id].check(check_id)
    assert check is not None
    assert says in check.text
    assert check.when == "before"
    assert not check.waivable


@pytest.mark.parametrize(
    ("hazard_id", "words"),
    [
        # A state burns service: minutes under running water, what sticks stays on.
        ("hot-pots", ("running water for 20 min", "left on")),
        # First-aid advice: bagged, beside ice, not touching it.
        ("angle-grinders", ("put in a bag", "beside ice, never against it")),
        ("edge-tools", ("put in a bag", "beside ice, never against it")),
        # Advice on severe bleeding: what is stuck in the wound stays.
        ("glass", ("stays there", "either side of it")),
        # A fire service: open air, no exertion, medical help.
        ("carbon-monoxide", ("open air", "without any exertion", "medical help")),
        # Training bodies: a quarter of an hour or longer, only the ambulance crew frees a limb.
        ("under-vehicles", ("less than 15 min: free them", "leave the limb as it is")),
        ("moving-vehicles", ("less than 15 min: free them", "pinned: free them at once")),
        # A national poisons centre: no vomiting, no drink.
        ("fuel", ("no vomiting", "nothing to drink unless")),
        # Toxicologists: the lungs fill hours later.
        ("degreasers", ("hospital even without complaints", "hours later")),
    ],
)
def test_first_aid_is_as_published(hazard_id: str, words: tuple[str, ...]) -> None:
    hazard = RISKS[hazard_id]
    told = " ".join(hazard.told(aid.says) for aid in hazard.first_aid)
    assert [each for each in words if each not in told] == []
    assert all(aid.source for aid in hazard.first_aid)
