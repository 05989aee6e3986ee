"""What the table of hours takes, and which lines of the logbook a change becomes."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.logbook.acts import HoursWorked, SignIn, SignOut, TakenBack, WorkedOn
from crewboard.order.hours.guests import Worker
from crewboard.order.presence import time_there
from crewboard.terminal.hours_of_day import (
    OTHER,
    Cell,
    HoursOfDay,
    NotHours,
    in_words,
    parse_hours,
    people_of_day,
    totals,
    worked_on_that_day,
)
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import SATURDAY, day_file, make_shop

DAY = SATURDAY.date()
ADA, BEN = Worker("ada"), Worker("ben")
SCRAPED = Cell(ADA, WorkedOn("frame/scrape"))


@pytest.fixture
def bench(tmp_path: Path) -> Workbench:
    return Workbench(make_shop(tmp_path / "van"))


def keep(bench: Workbench, typed: dict[Cell, float | None], now: datetime = SATURDAY) -> int:
    """Type these cells and save; how many lines were written."""
    said = HoursOfDay(bench.board(now), DAY).to_write(typed, now)
    if said:
        outcome = bench.record(said, by="", now=now)
        assert outcome.kept, outcome.refused
    return len(said)


def logged(bench: Workbench, cell: Cell, now: datetime = SATURDAY) -> float:
    return HoursOfDay(bench.board(now), DAY).logged(cell)


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("2", 2.0),
        ("2.5", 2.5),
        ("2,5", 2.5),
        ("2:30", 2.5),
        (" 0.25 ", 0.25),
        ("", None),
        ("0", None),
    ],
)
def test_hours_are_written_with_point_comma_or_minutes(text: str, hours: float | None) -> None:
    assert parse_hours(text) == hours


@pytest.mark.parametrize("text", ["x", "-1", "1e3", "2:60", "2:", ":30", "25", "nan", "1.2.3", "٣"])
def test_what_is_no_number_of_hours_is_said(text: str) -> None:
    with pytest.raises(NotHours):
        parse_hours(text)


@given(st.integers(1, 24 * 4))
def test_what_is_shown_reads_back_as_the_same_hours(quarters: int) -> None:
    assert parse_hours(in_words(quarters / 4)) == quarters / 4


def test_a_new_number_is_one_new_line(bench: Workbench) -> None:
    assert keep(bench, {SCRAPED: 3.5}) == 1
    assert logged(bench, SCRAPED) == 3.5


def test_nothing_changed_writes_nothing(bench: Workbench) -> None:
    keep(bench, {SCRAPED: 3.5})
    assert keep(bench, {SCRAPED: 3.5, Cell(BEN, WorkedOn("frame/weld")): None}) == 0


def test_a_changed_number_corrects_the_line_and_the_old_one_stays(bench: Workbench) -> None:
    keep(bench, {SCRAPED: 3.5})
    before = day_file(bench.folder.root)
    assert keep(bench, {SCRAPED: 2.0}) == 1
    after = day_file(bench.folder.root)
    assert after.startswith(before)
    assert "replaces = " in after
    assert logged(bench, SCRAPED) == 2.0


def test_a_number_changed_again_and_again_within_a_minute_ends_as_typed_last(
    bench: Workbench,
) -> None:
    for hours in (3.5, 2.0, 6.0, 1.0, 4.0):
        keep(bench, {SCRAPED: hours})
        assert logged(bench, SCRAPED) == hours


def test_an_emptied_cell_is_taken_back(bench: Workbench) -> None:
    keep(bench, {SCRAPED: 3.5})
    keep(bench, {SCRAPED: 2.5})
    keep(bench, {SCRAPED: None})
    assert logged(bench, SCRAPED) == 0
    assert "taken back" in day_file(bench.folder.root)


@settings(max_examples=25, deadline=None)
@given(
    lines=st.lists(st.integers(1, 16), min_size=1, max_size=4),
    wanted=st.integers(0, 40),
)
def test_several_lines_of_one_cell_come_to_what_was_typed(
    tmp_path_factory: pytest.TempPathFactory, lines: list[int], wanted: int
) -> None:
    bench = Workbench(make_shop(tmp_path_factory.mktemp("van") / "van"))
    acts = [Said(HoursWorked("ada", n / 4, "frame/scrape"), SATURDAY) for n in lines]
    assert bench.record(acts, by="", now=SATURDAY).kept
    keep(bench, {SCRAPED: wanted / 4})
    assert logged(bench, SCRAPED) == pytest.approx(wanted / 4)


def test_hours_for_an_earlier_day_go_into_its_file_and_say_when_they_were_written(
    bench: Workbench,
) -> None:
    monday = datetime(2026, 5, 4, 20, 0)
    said = HoursOfDay(bench.board(monday), DAY).to_write({SCRAPED: 2.0}, monday)
    assert bench.record(said, by="", now=monday).kept
    line = day_file(bench.folder.root).splitlines()[-1]
    assert "at = 2026-05-02T16:00:00" in line
    assert "written = 2026-05-04T20:00:00" in line


def test_work_that_is_no_task_has_a_column_of_its_own(bench: Workbench) -> None:
    keep(bench, {Cell(ADA, OTHER): 1.0})
    assert worked_on_that_day(bench.board(SATURDAY), DAY) == [OTHER]
    assert 'note = "other work"' in day_file(bench.folder.root)


def test_who_was_here_comes_first(bench: Workbench) -> None:
    bench.record([Said(SignIn("jo"), SATURDAY), Said(SignIn("ben"), SATURDAY)], by="", now=SATURDAY)
    here, rest = people_of_day(bench.board(SATURDAY), DAY)
    assert here == [Worker("jo"), BEN]
    assert rest[0] == ADA
    assert len(here) + len(rest) == 10


def test_more_hours_than_somebody_was_here_are_questioned_not_refused(bench: Workbench) -> None:
    came, went = SATURDAY.replace(hour=9), SATURDAY.replace(hour=12)
    bench.record(
        [Said(SignIn("ada"), came), Said(SignOut("ada"), went)],
        by="",
        now=SATURDAY.replace(hour=13),
    )
    board = bench.board(SATURDAY.replace(hour=13))
    assert time_there(board.plan, board.logbook, DAY, board.at) == {"ada": 3.0}
    book = HoursOfDay(board, DAY)
    assert book.questions({ADA: 3.0}) == {}
    assert book.questions({ADA: 3.5}) == {ADA: "3.5 h, but here for 3 h"}
    assert book.questions({BEN: 1.0}) == {BEN: "1 h, and did not sign in"}
    assert keep(bench, {SCRAPED: 3.5}, SATURDAY.replace(hour=13)) == 1


def test_hours_of_somebody_who_has_just_come_are_questioned_with_a_nought(bench: Workbench) -> None:
    bench.record([Said(SignIn("ada"), SATURDAY)], by="", now=SATURDAY)
    book = HoursOfDay(bench.board(SATURDAY), DAY)
    assert book.questions({ADA: 3.0}) == {ADA: "3 h, but here for 0 h"}


def test_totals_by_person_and_by_task() -> None:
    one, other = WorkedOn("a"), WorkedOn("b")
    cells = {Cell(ADA, one): 1.0, Cell(ADA, other): 2.5, Cell(BEN, one): None}
    assert totals(cells.items()) == ({ADA: 3.5, BEN: 0.0}, {one: 1.0, other: 2.5})


def test_a_corrected_line_that_is_taken_back_says_so_once(bench: Workbench) -> None:
    keep(bench, {SCRAPED: 3.0})
    keep(bench, {SCRAPED: 4.0})
    said = HoursOfDay(bench.board(SATURDAY), DAY).to_write({SCRAPED: None}, SATURDAY)
    assert [type(each.act) for each in said] == [TakenBack]
