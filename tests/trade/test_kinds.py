"""What is common to every kind of reckoning: what it asks, what it rests on, how it is kept."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from crewboard.plan.as_typed import Unread
from crewboard.plan.hazard import Mark
from crewboard.plan.hold import KINDS as KINDS_OF_HOLDS
from crewboard.trade import kinds
from crewboard.trade.given import Known
from crewboard.trade.kind import given_again, kept_given, kept_known, learned, reckon
from crewboard.trade.kinds import KINDS, kind_named
from crewboard.trade.springback import bend_of
from tests.house_graph import HOUSE
from tests.long_form import cases
from tests.naughty import CLASSES
from tests.trade.reckoned import ENOUGH, answer, given

BEND = "white ash, 1 in thick, form 50 in, came to 55 in, 30 days after, stored loft, dry"


def test_every_file_of_a_kind_is_listed_and_every_listed_kind_has_one() -> None:
    files = {f.stem.replace("_", "-") for f in Path(kinds.__file__).parent.glob("[a-z]*.py")}
    assert files == set(KINDS) == set(ENOUGH)
    assert all(kind_named(name).name == name for name in KINDS)


@pytest.mark.parametrize("name", KINDS)
def test_it_says_result_how_and_on_whose_word(name: str) -> None:
    reckoned = answer(name, **ENOUGH[name])
    assert reckoned.result[0]
    assert reckoned.figures
    assert reckoned.sources
    for source in reckoned.sources:
        assert source.mark in get_args(Mark)
        assert source.where or source.mark == "common practice"
        assert ("unverified" in source.in_words) == (source.mark == "from memory")
    assert reckoned == answer(name, **ENOUGH[name])
    sheets = {sheet.stem for sheet in (HOUSE / "hazards").glob("*.toml")}
    assert set(reckoned.hazards) <= sheets


@pytest.mark.parametrize("name", KINDS)
def test_its_questions_are_said_once_and_its_hold_is_one(name: str) -> None:
    names = [ask.name for ask in kind_named(name).asks]
    assert len(names) == len(set(names))
    assert set(KINDS[name].fits) <= KINDS_OF_HOLDS.keys()


@pytest.mark.parametrize("name", KINDS)
def test_what_was_kept_is_worked_out_again_to_the_same(name: str) -> None:
    kind, start = kind_named(name), given(ENOUGH[name], bends=(BEND,))
    again = given_again(kept_given(kind, start), kept_known(kind, start), "imperial")
    for_kind = start if kind.from_bends else start._replace(bends=())
    assert reckon(kind, again._replace(units="metric")) == reckon(kind, for_kind)
    assert again.bends == for_kind.bends
    # What was typed has its unit with it: it means the same in a folder with other units.
    assert reckon(kind, again).figures == reckon(kind, for_kind).figures


# Bare numbers, which mean the folder's unit.
BARE: dict[str, dict[str, str]] = {
    "boards": {"width": "20", "stock": "4 x 4", "old": "4 at 8; 4 at 12"},
    "chains": {"chains": "94 1/2 ± 1/8; 47 + 47 1/4 ± 3/16"},
    "levels": {"steps": "1 to 2: -3/8 ± 1/16; 2 to 1: 7/16 ± 1/16", "fixed": "1 = 4; 3"},
    "moved": {"before": "69 ± 1/8", "after": "69 5/16 ± 1/8"},
    "moisture": {"temperature": "65", "humidity": "60", "readings": "65 62; 70 58 %"},
    "cure": {"label": "24 h", "at": "68", "least": "50", "log": "6 h at 77; 9 h at 55", "q10": "2"},
    "arc": {"chord": "96", "rise": "12", "every": "12"},
    "cutting": {"stock": "4 x 96", "pieces": "7 x 40", "kerf": "1/8"},
}


@pytest.mark.parametrize("name", BARE)
def test_bare_numbers_mean_the_same_where_the_folder_changes_its_units(name: str) -> None:
    kind = kind_named(name)
    start = given(BARE[name], "imperial")
    kept = given_again(kept_given(kind, start), (), "metric")
    assert reckon(kind, kept).figures == reckon(kind, start).figures
    assert reckon(kind, given(BARE[name], "metric")).figures != reckon(kind, start).figures


def test_what_the_folder_knew_is_kept_with_where_it_stood() -> None:
    kind = kind_named("moisture")
    air = {"temperature": Known("20 °C", "shop reading of Sat 2 May"), "humidity": Known("65", "x")}
    start = given({"humidity": "70"}, known=air)
    known = kept_known(kind, start)
    assert known == ("temperature = 20 °C | shop reading of Sat 2 May",)
    again = given_again(kept_given(kind, start), known, "metric")
    assert reckon(kind, again) == reckon(kind, start)
    assert "temperature of the air: 20 °C, shop reading of Sat 2 May" in reckon(kind, start).assumes


@pytest.mark.parametrize("name", KINDS)
def test_what_it_does_not_ask_for_and_what_is_missing_is_refused(name: str) -> None:
    with pytest.raises(Unread, match="does not ask"):
        answer(name, **ENOUGH[name], nonsense="1")
    for ask in kind_named(name).asks:
        if ask.needed:
            less = {key: value for key, value in ENOUGH[name].items() if key != ask.name}
            with pytest.raises(Unread, match="is missing"):
                answer(name, **less)


ODD = (
    *CLASSES.values(),
    "0",
    "-1",
    "1/0",
    "0 mm",
    "999999999999 m",
    "1e9",
    "1,000",
    "nan",
    "∞",
    "2 x",
    "x",
)


@pytest.mark.parametrize("name", KINDS)
def test_whatever_is_typed_is_worked_out_or_refused(name: str) -> None:
    for ask in kind_named(name).asks:
        for odd in ODD:
            try:
                answer(name, **{**ENOUGH[name], ask.name: odd})
            except Unread:
                continue


@drawn(st.data())
@cases(60, 5_000)
def test_any_number_in_any_place_is_worked_out_or_refused(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(list(ENOUGH)))
    ask = data.draw(st.sampled_from(kind_named(name).asks))
    size = data.draw(st.integers(0, 3_000))
    under = data.draw(st.sampled_from([1, 2, 3, 16, 32, 7]))
    unit = data.draw(st.sampled_from(["", " mm", " in", " m2", " %", " µm", " l", " m2/l"]))
    count = data.draw(st.sampled_from(["", "3 x "]))
    try:
        reckoned = answer(name, **{**ENOUGH[name], ask.name: f"{count}{size}/{under}{unit}"})
    except Unread:
        return
    assert all(reckoned.result)


def test_a_bend_that_was_kept_in_older_words_is_the_same_bend() -> None:
    was, now = (f"bend = {BEND.replace('30 days', days)}" for days in ("1 days", "1 day"))
    assert bend_of(BEND.replace("30 days", "1 days")).spelled.count("1 day after") == 1
    assert learned([was], [now]) == []
    assert learned(["bend = no bend at all"], [now]) != []


def test_what_was_learned_is_told_by_its_value_not_by_where_it_stood() -> None:
    before = ("chord = 96 in", "humidity = 65 % | shop reading, 3 h old", f"bend = {BEND}")
    now = ("chord = 96 in", "humidity = 65 % | shop reading, 5 h old", f"bend = {BEND} | wet")
    assert learned(before, now) == [f"new: bend = {BEND} | wet", f"no more: bend = {BEND}"]
    assert learned(before, ("chord = 90 in", *before[1:])) == [
        *("new: chord = 90 in", "no more: chord = 96 in"),
    ]
