"""What must not be near what, and who counts: vapour and sparks, two people who are grown up."""

from __future__ import annotations

import pytest

from crewboard.folder.read.hazard_sheets import built_in_ids, built_in_sheet
from crewboard.order.may.apart import follows, keep_apart
from crewboard.order.may.needs import counted, needs_of_hazards
from crewboard.plan.hazard import Hazard
from crewboard.plan.volunteer import Volunteer
from tests.order.safety.workshop import TODAY, Book, at, begin_refusals


def sheet(hazard_id: str) -> Hazard:
    found = built_in_sheet(hazard_id)
    assert found is not None
    return found


# The vapour of a stripper or a sprayed coat runs along the floor to a spark far away: whatever
# burns, glows or sparks stays out of the shop until it is aired. (Label wording; no source.)
VAPOUR = ("solvent-strippers", "spray-coating")
SPARKS = (
    *("hot-work", "heat-guns", "soldering", "angle-grinders", "curing-lamps", "hot-pots"),
    *("power-saws", "woodworking-machines", "abrasive-blasting", "portable-electrics"),
    *("batteries", "live-voltage", "steam-box", "carbon-monoxide", "moving-vehicles"),
)


@pytest.mark.parametrize("vapour", VAPOUR)
@pytest.mark.parametrize("spark", SPARKS)
def test_no_spark_or_flame_in_the_shop_before_the_airing_has_run_out(
    vapour: str, spark: str
) -> None:
    assert keep_apart(sheet(vapour), sheet(spark), beside=False)
    assert follows([sheet(spark)], sheet(vapour), beside=False)
    assert any(clock.guards == "task" for clock in sheet(vapour).clocks)


@pytest.mark.parametrize("vapour", [*VAPOUR, "methylene-chloride", "degreasers", "fuel"])
@pytest.mark.parametrize("hot", ["soldering", "heat-guns"])
def test_an_iron_and_a_heat_gun_stay_away_from_vapour(vapour: str, hot: str) -> None:
    assert keep_apart(sheet(vapour), sheet(hot), beside=True)
    assert follows([sheet(hot)], sheet(vapour), beside=True)


YOUNG = [Volunteer(who, who, adult=False) for who in ("kit", "lou")]
GROWN = Volunteer("ada", "Ada", adult=True)
IN_TWOS = [h for h in built_in_ids() if sheet(h).people > 1 and sheet(h).concerns != "minors"]


@pytest.mark.parametrize("hazard_id", IN_TWOS)
def test_two_people_are_two_grown_ups(hazard_id: str) -> None:
    # Rule of the crew: two under-18s are nobody who could help or fetch help.
    hazard = sheet(hazard_id)
    assert counted(YOUNG, hazard, TODAY) == []
    assert counted([GROWN, *YOUNG], hazard, TODAY) == [GROWN]
    assert needs_of_hazards([hazard]).adults >= hazard.people


def test_two_under_18s_begin_nothing_alone_however_harmless() -> None:
    book = Book()
    book.sign_in("ada", "dot")
    book.open_shop(at(9, 1))
    board = book.board(at(9, 5))
    assert "adult" in {
        refusal.code for refusal in begin_refusals(board, "shop/young-people", ("dot",))
    }
