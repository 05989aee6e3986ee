"""Sums of hours by year: each is the sum of its lines, whatever was corrected or taken back, and in
whatever order it was written down."""

from __future__ import annotations

import random
from collections.abc import Iterable
from datetime import date, datetime, timedelta
from math import fsum
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import GuestHours, HoursWorked, TakenBack
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.visits import same_name
from crewboard.order.hours.sums import sums
from crewboard.plan.component import Component
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.plan.vehicle import Vehicle
from crewboard.plan.volunteer import Volunteer
from tests.long_form import cases

PLAN = Plan(
    Vehicle("The van", other_work=("driving",)),
    {
        "frame": Component("frame", "Frame"),
        "frame/door": Component("frame/door", "Door", part_of="frame"),
        "roof": Component("roof", "Roof"),
    },
    {
        "frame/scrape": Task("frame/scrape", "Scrape", "frame"),
        "frame/hang": Task("frame/hang", "Hang", "frame/door"),
        "roof/fit": Task("roof/fit", "Fit", "roof", pieces=("roof/rib",)),
    },
    {
        "ada": Volunteer("ada", "Ada"),
        "ines": Volunteer("ines", "Ines B", was_guest=("Ines Bratt",)),
    },
    {},
    {},
    pieces={"roof/rib": Piece("roof/rib", "Rib", "roof")},
)
PEOPLE = ("ada", "ines", "gone", "Ines Bratt", "ines  bratt", "Ono Tak")
THINGS = (
    ("task", "frame/scrape"), ("task", "frame/hang"), ("task", "roof/fit"), ("task", "deck/gone"),
    ("component", "frame/door"), ("component", "roof"), ("piece", "roof/rib"),
    ("other", "driving"), ("other", "meetings"), ("", ""),
)  # fmt: skip
GUESTS = {"ines bratt": "", "ono tak": "ono tak"}  # who is still one
MAIN = {"frame/scrape": "frame", "frame/hang": "frame", "frame/door": "frame", "deck/gone": "deck"}


class Line(NamedTuple):
    """Hours as a test means them, and what became of them."""

    day: date
    who: str
    thing: tuple[str, str]
    hours: float
    corrected: float | None
    taken_back: bool

    @property
    def counts(self) -> float:
        if self.taken_back:
            return 0.0
        return self.hours if self.corrected is None else self.corrected


HOURS = st.integers(1, 2400).map(lambda hundredths: hundredths / 100)
LINES = st.lists(
    st.builds(
        Line,
        st.dates(date(2024, 11, 1), date(2026, 2, 1)),
        st.sampled_from(PEOPLE),
        st.sampled_from(THINGS),
        HOURS,
        st.none() | HOURS,
        st.booleans(),
    ),
    max_size=25,
)


def act_of(line: Line, hours: float) -> HoursWorked | GuestHours:
    field, name = line.thing
    on = {field: name} if field else {}
    if same_name(line.who) in GUESTS:
        return GuestHours(line.who, hours, **on)
    return HoursWorked(line.who, hours, **on)


def logbook_of(lines: Iterable[Line], shuffle: random.Random) -> Logbook:
    """The lines as they are written down, each day's in a random order of time."""
    days: dict[date, list[Entry]] = {}
    for number, line in enumerate(lines):
        at = datetime.combine(line.day, datetime.min.time()) + timedelta(hours=shuffle.random() * 9)
        of_day = days.setdefault(line.day, [])
        of_day.append(Entry(f"l{number}", at, act_of(line, line.hours), ""))
        if line.corrected is not None:
            act = act_of(line, line.corrected)
            of_day.append(Entry(f"c{number}", at, act, "", replaces=f"l{number}"))
        if line.taken_back:
            gone = TakenBack(f"l{number}", "")
            of_day.append(Entry(f"t{number}", at + timedelta(hours=1), gone, ""))
    for entries in days.values():
        shuffle.shuffle(entries)
    return Logbook({day: Day(day, days[day]) for day in sorted(days)})


def groups_of(line: Line) -> set[tuple[str, str]]:
    """The sums that the line has to be in."""
    field, name = line.thing
    guest = GUESTS.get(same_name(line.who))
    who = ("guest", guest) if guest else ("person", "ines" if guest == "" else line.who)
    main = MAIN.get(name, "roof") if field in ("task", "component", "piece") else ""
    what = ("component", main) if main else ("other work", name)
    piece = {("piece", "roof/rib")} if name in ("roof/fit", "roof/rib") else set()
    return {who, what, ("everything", ""), *piece}


@given(LINES, st.randoms(use_true_random=False))
@cases(150, 5_000)
def test_every_sum_is_the_sum_of_its_lines(lines: list[Line], shuffle: random.Random) -> None:
    found = {(one.by, one.id): one for one in sums(PLAN, logbook_of(lines, shuffle))}
    counted = [line for line in lines if not line.taken_back]
    assert found.keys() == {group for line in counted for group in groups_of(line)}
    for group, one in found.items():
        mine = [line for line in counted if group in groups_of(line)]
        assert one.in_all == fsum(line.counts for line in mine)
        for year, hours in one.years.items():
            assert hours == fsum(line.counts for line in mine if line.day.year == year)
        assert fsum(one.years.values()) == pytest.approx(one.in_all)


@given(LINES, st.randoms(use_true_random=False))
@cases(100, 5_000)
def test_people_and_guests_have_worked_all_that_was_worked_on(
    lines: list[Line], shuffle: random.Random
) -> None:
    every = sums(PLAN, logbook_of(lines, shuffle))
    of = {by: fsum(one.in_all for one in every if one.by == by) for by in {o.by for o in every}}
    everything = of.get("everything", 0.0)
    assert of.get("person", 0.0) + of.get("guest", 0.0) == pytest.approx(everything)
    assert of.get("component", 0.0) + of.get("other work", 0.0) == pytest.approx(everything)


@given(LINES)
@cases(60, 2_000)
def test_no_digit_of_a_sum_changes_with_the_order_of_the_lines(lines: list[Line]) -> None:
    one = sums(PLAN, logbook_of(lines, random.Random(1)))
    other = sums(PLAN, logbook_of(reversed(lines), random.Random(2)))
    hours = {(a.by, a.id): (a.years, a.in_all) for a in one}
    assert hours == {(b.by, b.id): (b.years, b.in_all) for b in other}
