"""A crew makes a sheet stricter freely; asking less needs a name and a reason, and shows."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.folder.read.fault import Misfit
from crewboard.folder.read.hazard_sheets import Sheets, built_in_ids, built_in_sheet, read_sheets
from crewboard.plan.hazard import Hazard, minutes_of
from tests.long_form import cases

ANSWERED = 'decided_by = "the lead"\nwhy = "The insurer asks for no more."\n'


def read(text: str, *wanted: str) -> Sheets:
    own: dict[str, Any] = tomllib.loads(text)
    return read_sheets(wanted or own, own)


def hot_work(text: str) -> tuple[Hazard, list[Misfit]]:
    sheets = read(text, "hot-work")
    return sheets.hazards["hot-work"], sheets.misfits


STRICTER: dict[str, tuple[str, Callable[[Any], object]]] = {
    "another check": (
        '[hot-work.checks.roof]\nwhen = "before"\ntext = "The roof space was looked at."',
        lambda h: h.check("roof").text == "The roof space was looked at.",
    ),
    "more gear": ('[hot-work]\ngear = ["felt boots"]', lambda h: h.gear[-1] == "felt boots"),
    "more people": ("[hot-work]\nleast_people = 3", lambda h: h.people == 3),
    "signed more often": (
        '[oily-rags.checks.can]\nevery = "task a day"',
        lambda h: h.check("can").every == "task a day",
    ),
    "fewer may sign": (
        '[hot-work.checks.extinguisher]\nsigns = "lead"',
        lambda h: h.check("extinguisher").signs == "lead",
    ),
    "looked at more often": (
        '[hot-work.checks.watching]\ninterval = "ten"\n[hot-work.numbers.ten]\nvalue = 10\n'
        'unit = "min"\nsays = "the place is looked at again after"',
        lambda h: h.number(h.check("watching").interval).amount == "10 min",
    ),
    "a longer watch": (
        '[hot-work.clocks.fire-watch]\nnumbers = ["ours"]\n[hot-work.numbers.ours]\nvalue = 2\n'
        'unit = "hours"\nsays = "our watch"',
        lambda h: h.ruling(h.clocks[0]).amount == "2 hours",
    ),
    "kept away from more": (
        '[hot-work]\nnot_near = ["noise"]',
        lambda h: "noise" in h.not_near,
    ),
    "another certificate": (
        '[hot-work.certificates."first aid"]\nwho = "one"',
        lambda h: [n.kind for n in h.certificates] == ["hot work", "first aid"],
    ),
    "each holds the certificate": (
        '[hot-work.certificates."hot work"]\nwho = "each"',
        lambda h: h.certificates[0].who == "each" and h.certificates[0].lasts == "card",
    ),
    "no under-18s": ("[noise]\nunder_18 = false", lambda h: not h.under_18),
    "its place is closed": ("[noise]\ncloses_place = true", lambda h: h.closes_place),
    "the whole shop is near": ('[epoxy]\nnear = "shop"', lambda h: h.near == "shop"),
    "a further clock": (
        '[hot-work.clocks.late-look]\nkind = "late look"\nnumbers = ["more-monitoring"]',
        lambda h: [c.id for c in h.clocks] == ["fire-watch", "late-look"],
    ),
}


@pytest.mark.parametrize("change", STRICTER)
def test_a_stricter_rule_is_simply_taken_over(change: str) -> None:
    text, holds = STRICTER[change]
    (hazard_id,) = tomllib.loads(text)
    sheets = read(text, hazard_id)
    assert sheets.misfits == []
    sheet = sheets.hazards[hazard_id]
    assert holds(sheet)
    assert sheet.weakened == ()
    original = built_in_sheet(hazard_id)
    assert original is not None
    assert {c.id for c in original.checks} <= {c.id for c in sheet.checks}


# change -> (sheet, table, keys in it, the rule that stands without an answer)
WEAKER: dict[str, tuple[str, str, str, Callable[[Any], object]]] = {
    "a check left out": ("hot-work", "", 'leave_out = ["watcher"]', lambda h: h.check("watcher")),
    "signed less often": (
        "hot-work",
        "checks.area",
        'every = "person a year"',
        lambda h: h.check("area").every == "task a day",
    ),
    "signed as often but otherwise": (
        "oily-rags",
        "checks.can",
        'every = "task"',
        lambda h: h.check("can").every == "day",
    ),
    "anyone may sign": (
        "hot-work",
        "checks.area",
        'signs = "anyone"',
        lambda h: h.check("area").signs == "hot work",
    ),
    "other words": (
        "hot-work",
        "checks.area",
        'text = "It looks all right."',
        lambda h: "burns" in h.check("area").text,
    ),
    "after, not before": (
        "hot-work",
        "checks.area",
        'when = "after"',
        lambda h: h.check("area").when == "before",
    ),
    "looked at less often": (
        "hot-work",
        "checks.watching",
        'interval = "watch-rule"',
        lambda h: h.check("watching").interval == "round",
    ),
    "the shorter watch": (
        "hot-work",
        "clocks.fire-watch",
        'applies = "watch-rule"',
        lambda h: h.ruling(h.clocks[0]).id == "watch-standard",
    ),
    "fewer people": ("hot-work", "", "least_people = 1", lambda h: h.people == 2),
    "under-18s": ("hot-work", "", "under_18 = true", lambda h: not h.under_18),
    "only the same place": ("hot-work", "", 'near = "place"', lambda h: h.near == "shop"),
    "beside solvents": (
        "hot-work",
        "",
        'leave_out = ["solvent-strippers"]',
        lambda h: "solvent-strippers" in h.not_near and "solvent-strippers" in h.not_after,
    ),
    "other work in its place": (
        "solvent-strippers",
        "",
        "closes_place = false",
        lambda h: h.closes_place,
    ),
    "no certificate": ("hot-work", "", 'leave_out = ["hot work"]', lambda h: h.certificates),
    "no clock": ("hot-work", "", 'leave_out = ["fire-watch"]', lambda h: h.clocks),
    "one certificate for all": (
        "power-saws",
        "certificates.machines",
        'who = "one"',
        lambda h: h.certificates[0].who == "each",
    ),
}


@pytest.mark.parametrize("change", WEAKER)
def test_a_weaker_rule_without_name_and_reason_is_a_mistake_and_does_not_count(change: str) -> None:
    hazard_id, table, keys, stands = WEAKER[change]
    header = f"[{hazard_id}.{table}]" if table else f"[{hazard_id}]"
    sheets = read(f"{header}\n{keys}\n", hazard_id)
    assert [m.code for m in sheets.misfits] == ["weaker"]
    assert "decided_by" in sheets.misfits[0].hint
    assert sheets.misfits[0].path[0] == hazard_id
    assert stands(sheets.hazards[hazard_id])
    assert sheets.hazards[hazard_id].weakened == ()


@pytest.mark.parametrize("change", WEAKER)
def test_a_weaker_rule_that_somebody_answers_for_counts_and_shows(change: str) -> None:
    hazard_id, table, keys, stands = WEAKER[change]
    text = f"[{hazard_id}]\n{ANSWERED}"
    text += f"\n[{hazard_id}.{table}]\n{keys}\n" if table else f"{keys}\n"
    sheets = read(text, hazard_id)
    assert sheets.misfits == []
    sheet = sheets.hazards[hazard_id]
    assert not stands(sheet)
    (weakened,) = sheet.weakened
    assert weakened.decided_by == "the lead"
    assert weakened.why == "The insurer asks for no more."
    assert weakened.what


def test_a_reason_beside_one_check_does_not_answer_for_another() -> None:
    sheet, misfits = hot_work(
        '[hot-work.checks.area]\nsigns = "lead"\ndecided_by = "the lead"\n'
        'why = "Nobody else holds the card yet."\non = 2026-05-02\n'
        '[hot-work.checks.watcher]\nsigns = "anyone"\n'
    )
    assert [m.path for m in misfits] == [("hot-work", "checks", "watcher", "signs")]
    assert [w.on for w in sheet.weakened] == [date(2026, 5, 2)]
    area, watcher = sheet.check("area"), sheet.check("watcher")
    assert area is not None
    assert watcher is not None
    assert (area.signs, watcher.signs) == ("lead", "hot work")


def test_a_name_without_a_reason_is_not_enough() -> None:
    sheet, misfits = hot_work('[hot-work]\nleast_people = 1\ndecided_by = "the lead"\nwhy = " "')
    assert [m.code for m in misfits] == ["weaker"]
    assert sheet.people == 2


def test_a_crew_adds_a_danger_of_its_own() -> None:
    sheets = read(
        '[pigeon-droppings]\nname = "Pigeon droppings"\nharm = ["Dust carries germs."]\n'
        "least_people = 2\n"
        '[pigeon-droppings.checks.wetted]\nwhen = "before"\ntext = "Wetted for {soak}."\n'
        '[pigeon-droppings.numbers.soak]\nvalue = 10\nunit = "min"\nsays = "wetted for"\n'
    )
    assert sheets.misfits == []
    own = sheets.hazards["pigeon-droppings"]
    assert own.own
    assert own.people == 2
    assert own.told(own.checks[0].text) == "Wetted for 10 min."
    assert own.numbers[0].mark == "crew's rule"


@pytest.mark.parametrize(
    ("text", "code", "path"),
    [
        ('[hot-work]\nnot_near = ["solvents"]', "unknown-name", ("hot-work", "not_near")),
        ("[hot-work]\nlest_people = 3", "unknown-key", ("hot-work", "lest_people")),
        ('[hot-work]\nleave_out = ["areas"]', "unknown-name", ("hot-work", "leave_out")),
        ("[hot-work]\nleast_people = 2.5", "unknown-name", ("hot-work", "least_people")),
        ("[hot-work.numbers.clear]\nvalue = 1", "taken", ("hot-work", "numbers")),
        ("hot-work = 3", "wrong-type", ("hot-work",)),
        ('["a b"]\nname = "x"', "bad-id", ("a b",)),
        ("[own]\nharm = []", "missing", ("own",)),
        (
            f'[hot-work]\n{ANSWERED}[hot-work.clocks.fire-watch]\napplies = "clear"',
            "not-a-duration",
            ("hot-work",),
        ),
        ('[own]\nname = "Own"\nharm = ["From {ten} up."]', "unknown-name", ("own",)),
        (
            '[own.checks.a]\ntext = "x"\n[own]\nname = "Own"',
            "missing",
            ("own", "checks", "a"),
        ),
    ],
)
def test_a_mistake_in_the_crews_file_is_told_with_its_key(
    text: str, code: str, path: tuple[str, ...]
) -> None:
    misfits = read(text).misfits
    assert (code, path) in [(m.code, m.path) for m in misfits]


def test_a_mistake_is_told_even_where_no_task_names_the_sheet() -> None:
    assert read("[hot-work]\nleast_people = 1", "noise").misfits
    assert "hot-work" not in read("[hot-work]\nleast_people = 1", "noise").hazards


KEYS = st.sampled_from(
    [
        *("harm", "gear", "checks", "clocks", "numbers", "certificates", "laws", "leave_out", "on"),
        *("least_people", "not_near", "not_after", "near", "under_18", "under_18_why", "concerns"),
        *("decided_by", "why", "area", "fire-watch", "clear", "hot work", "when", "every", "text"),
        *("signs", "interval", "applies", "starts", "ends", "guards", "value", "unit", "name", ""),
    ]
)
PLAIN = st.one_of(
    st.sampled_from(["", "hot-work", "{clear}", "watch-rule", "task a day", "before", "min"]),
    st.integers(),
    st.just(10**400),
    st.floats(),
    st.booleans(),
    st.dates(),
    st.datetimes(),
    st.times(),
)
IDS = st.sampled_from(["area", "fire-watch", "clear", "hot work", "ended", "can", "new", ""])


def table_of(*keys: str) -> st.SearchStrategy[dict[str, Any]]:
    """A table with some of these keys, right and wrong values in them."""
    values = PLAIN | st.lists(PLAIN, max_size=2)
    return st.dictionaries(st.sampled_from(keys) | KEYS, values, max_size=len(keys))


NAMED = {
    "checks": table_of("when", "text", "every", "signs", "interval", "decided_by", "why"),
    "clocks": table_of("kind", "numbers", "guards", "text", "applies", "starts", "ends"),
    "numbers": table_of("value", "unit", "says", "source", "mark", "read"),
    "certificates": table_of("who", "lasts"),
}
SHEET: st.SearchStrategy[dict[str, Any]] = st.builds(
    lambda plain, named: {**plain, **named},
    table_of("harm", "gear", "leave_out", "least_people", "not_near", "under_18", "near", "name"),
    st.fixed_dictionaries(
        {},
        optional={
            key: st.dictionaries(IDS, each | PLAIN, max_size=2) for key, each in NAMED.items()
        },
    ),
)


@cases(150, 3000)
@given(
    st.dictionaries(
        st.sampled_from(["hot-work", "oily-rags", "own", "a b", ""]), SHEET | PLAIN, max_size=2
    )
)
def test_whatever_stands_in_the_crews_file_ends_in_sentences(own: dict[str, Any]) -> None:
    sheets = read_sheets(own, own)
    for misfit in sheets.misfits:
        assert misfit.sentence
        assert misfit.path
    for sheet in sheets.hazards.values():
        for check in sheet.checks:
            assert sheet.told(check.text) is not None
        for clock in sheet.clocks:
            sheet.ruling(clock)
        original = built_in_sheet(sheet.id) if sheet.id in built_in_ids() else None
        if original is not None and not sheet.weakened:
            # Nothing that a crew writes makes a sheet weaker without a name and a reason.
            assert {c.id for c in original.checks} <= {c.id for c in sheet.checks}
            assert sheet.people >= original.people
            assert original.under_18 or not sheet.under_18
            assert {n.kind for n in original.certificates} <= {n.kind for n in sheet.certificates}
            assert set(original.not_near) <= set(sheet.not_near)
            for clock, changed in zip(original.clocks, sheet.clocks, strict=False):
                usual, now = original.ruling(clock), sheet.ruling(changed)
                assert usual is not None
                assert now is not None
                assert minutes_of(now) >= minutes_of(usual)
