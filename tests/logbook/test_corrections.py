"""Corrections and taking back: old lines stay, what counts is worked out.

The model reads a day's lines from the last to the first and keeps a set of the lines that stand:
a plainer way than the program's own, which follows each line's chain.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import HoursWorked, Noted, TakenBack
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from tests.long_form import cases

DAY = date(2026, 5, 2)
NINE = datetime(2026, 5, 2, 9)


def hours(entry_id: str, amount: float, minutes: int = 0, replaces: str = "") -> Entry:
    written = NINE + timedelta(minutes=minutes) if replaces else None
    return Entry(entry_id, NINE, HoursWorked("ada", amount), "ada", written, replaces)


def back(entry_id: str, of: str) -> Entry:
    return Entry(entry_id, NINE + timedelta(hours=1), TakenBack(of, "a slip"), "ada")


def counts(*entries: Entry) -> dict[str, float]:
    """What the day counts: id -> hours."""
    return {e.id: e.act.hours for e in Day(DAY, entries).counting if isinstance(e.act, HoursWorked)}


def test_a_corrected_line_counts_as_corrected_under_its_first_id() -> None:
    assert counts(hours("a", 13), hours("b", 3, 5, "a")) == {"a": 3}


def test_a_line_corrected_twice_by_two_people_counts_as_the_later_says() -> None:
    assert counts(hours("a", 13), hours("b", 3, 9, "a"), hours("c", 4, 5, "a")) == {"a": 3}
    assert counts(hours("a", 13), hours("b", 3, 5, "a"), hours("c", 4, 9, "a")) == {"a": 4}


def test_a_correction_of_a_correction_counts_last() -> None:
    assert counts(hours("a", 13), hours("b", 3, 5, "a"), hours("c", 2, 6, "b")) == {"a": 2}


def test_taking_back_a_line_takes_its_corrections_with_it() -> None:
    assert counts(hours("a", 13), hours("b", 3, 5, "a"), back("x", "a")) == {}


def test_taking_back_only_the_correction_lets_the_first_line_count_again() -> None:
    assert counts(hours("a", 13), hours("b", 3, 5, "a"), back("x", "b")) == {"a": 13}


def test_taking_back_a_taking_back_lets_the_line_count_again() -> None:
    assert counts(hours("a", 3), back("x", "a"), back("y", "x")) == {"a": 3}
    assert counts(hours("a", 3), back("x", "a"), back("y", "x"), back("z", "y")) == {}


def test_every_line_stays_readable_and_tells_what_became_of_it() -> None:
    entries = (hours("a", 13), hours("b", 3, 5, "a"), hours("c", 8), back("x", "c"))
    day = Day(DAY, entries)
    assert day.entries == entries
    assert day.fate() == {"a": "b", "c": "x"}


def test_a_taking_back_of_nothing_and_a_correction_of_nothing_do_no_harm() -> None:
    # The correction keeps the name of the line it corrects: that line may come with a later merge.
    said = counts(hours("a", 3), back("x", "nowhere"), hours("b", 2, 4, "lost"))
    assert said == {"a": 3, "lost": 2}


def test_lines_that_replace_one_another_in_a_ring_do_not_hang_the_reading() -> None:
    day = Day(DAY, (hours("a", 1, 1, "b"), hours("b", 2, 2, "a"), back("x", "x")))
    assert len([e for e in day.counting if isinstance(e.act, HoursWorked)]) <= 2


@st.composite
def days(draw: st.DrawFn) -> list[Entry]:
    """Lines as people write them one after the other: each speaks of earlier lines only."""
    lines: list[Entry] = []
    for number in range(draw(st.integers(1, 14))):
        name = f"e{number}"
        what = draw(st.sampled_from("hhcct")) if lines else "h"
        if what == "t":
            lines.append(back(name, draw(st.sampled_from(lines)).id))
            continue
        worked = [e.id for e in lines if isinstance(e.act, HoursWorked)]
        of = draw(st.sampled_from(worked)) if what == "c" and worked else ""
        lines.append(hours(name, number + 1, draw(st.integers(1, 3)), of))
    return lines


def counted_by_the_model(lines: list[Entry]) -> dict[str, float]:
    gone: set[str] = set()  # lines taken back by a line that itself stands
    for line in reversed(lines):
        if isinstance(line.act, TakenBack) and line.id not in gone:
            gone.add(line.act.entry)
    said: dict[str, tuple[datetime, int, str, float]] = {}
    first: dict[str, tuple[str, int]] = {}
    for line in lines:
        if not isinstance(line.act, HoursWorked):
            continue
        root, depth = first.get(line.replaces, ("", -1))
        first[line.id] = (root or line.id, depth + 1)
        if line.replaces in gone:
            gone.add(line.id)
        if line.id in gone:
            continue
        when = line.written if line.replaces and line.written else datetime.min
        rank = (when, depth + 1, line.id, line.act.hours)
        root = first[line.id][0]
        said[root] = max(said.get(root, rank), rank)
    return {root: rank[3] for root, rank in said.items()}


@cases(300, 30_000)
@given(days())
def test_what_counts_is_what_a_plain_reading_from_the_end_says(lines: list[Entry]) -> None:
    assert counts(*lines) == counted_by_the_model(lines)


@cases(100, 10_000)
@given(days(), st.randoms(use_true_random=False))
def test_what_counts_does_not_depend_on_the_order_of_the_lines(lines, shuffle) -> None:  # type: ignore[no-untyped-def]
    """Two clones of a folder merge their lines in any order."""
    mixed = list(lines)
    shuffle.shuffle(mixed)
    assert counts(*mixed) == counts(*lines)


@cases(100, 10_000)
@given(days())
def test_every_line_that_does_not_count_names_the_line_that_says_so(lines: list[Entry]) -> None:
    day = Day(DAY, lines)
    ids = {e.id for e in lines}
    counting = counts(*lines)
    for gone, by in day.fate().items():
        assert {gone, by} <= ids
        assert gone != by
    standing = [e for e in lines if e.id not in day.fate() and isinstance(e.act, HoursWorked)]
    assert len(standing) == len(counting)


def test_hours_of_the_day_are_summed_for_each_task_as_they_count() -> None:
    on = HoursWorked("ada", 3.5, "deck/lay-boards")
    lines = (
        Entry("a", NINE, on, "ada"),
        Entry("b", NINE, on._replace(who="tom", hours=2), "ada"),
        Entry("c", NINE, on._replace(hours=1.5), "ada", NINE, "a"),
        Entry("d", NINE, Noted("cake")),
        Entry("e", NINE, HoursWorked("tom", 1, "", "swept")),
    )
    assert Day(DAY, lines).hours_by_task == {"deck/lay-boards": 3.5, "": 1}
