"""One act said of several tasks."""

from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import HoursLeft, HoursWorked, Noted
from crewboard.logbook.on_several import on_tasks, shares


def test_hours_said_of_three_pieces_are_divided_so_that_the_sum_is_what_was_said() -> None:
    worked = on_tasks(HoursWorked("ada", 5, "", "glazing"), ["a/1", "a/2", "a/3"])
    assert [(act.task, act.hours) for act in worked if isinstance(act, HoursWorked)] == [
        ("a/1", 1.67),
        ("a/2", 1.67),
        ("a/3", 1.66),
    ]
    left = on_tasks(HoursLeft("", 12, "two split"), ["a/1", "a/2"])
    assert left == [HoursLeft("a/1", 6, "two split"), HoursLeft("a/2", 6, "two split")]


def test_a_note_stands_whole_on_each() -> None:
    assert on_tasks(Noted("dry"), ["a/1", "a/2"]) == [Noted("dry", "a/1"), Noted("dry", "a/2")]


@given(st.floats(0.001, 10_000), st.integers(1, 999))
def test_no_hour_is_lost_in_dividing(hours: float, count: int) -> None:
    parts = shares(hours, count)
    assert len(parts) == count
    assert abs(sum(parts) - hours) < 1e-6 * max(1, hours)
    assert min(parts) > 0
