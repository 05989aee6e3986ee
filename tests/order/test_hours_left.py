"""The hours that are left: by the last word on them, by the estimate, by what overruns suggest."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import pytest

from crewboard.logbook.acts import Begun, Finished, HoursLeft, HoursWorked, SignIn
from crewboard.order.ahead.effort import hours_left
from crewboard.order.board import Standing
from tests.order.small_plans import board, logbook, plan, task

SATURDAY = datetime(2026, 5, 2)
LATER = datetime(2026, 5, 16, 12)


def _at(clock: str, day: int = 2) -> datetime:
    hour, minute = map(int, clock.split(":"))
    return datetime(2026, 5, day, hour, minute)


def _standing(
    *said: tuple[datetime, Any], hours: float | None = 20, at: datetime = LATER
) -> Standing:
    return board(plan([task("c/a", hours)]), at, logbook(*said))["c/a"]


CAME = (_at("9:00"), SignIn("ada"))


def test_a_word_on_the_hours_left_is_not_eaten_by_the_hours_typed_after_it() -> None:
    typed = (_at("16:00"), HoursWorked("ada", 5, "c/a"))
    assert _standing(CAME, (_at("15:30"), HoursLeft("c/a", 6)), typed).left == 6
    assert _standing((_at("15:30"), HoursLeft("c/a", 6)), typed).left == 6
    two = (_at("16:05"), HoursWorked("tom", 6, "c/a"))
    assert (
        _standing(
            CAME, (_at("9:00"), SignIn("tom")), (_at("15:30"), HoursLeft("c/a", 6)), typed, two
        ).left
        == 6
    )


def test_what_was_worked_after_the_word_is_taken_from_it() -> None:
    typed = (_at("16:00"), HoursWorked("ada", 5, "c/a"))
    assert _standing(CAME, (_at("9:00"), HoursLeft("c/a", 6)), typed).left == 1
    assert _standing(CAME, (_at("12:00"), HoursLeft("c/a", 6)), typed).left == 4
    begun = (_at("13:00"), Begun("c/a", ("ada",)))
    late = (_at("16:00"), HoursWorked("ada", 3, "c/a"))
    assert _standing(CAME, (_at("12:00"), HoursLeft("c/a", 6)), begun, late).left == 3
    other_day = (_at("10:00", 9), HoursWorked("ada", 2, "c/a"))
    assert _standing(CAME, (_at("15:30"), HoursLeft("c/a", 6)), other_day).left == 4


def test_hours_typed_before_the_word_and_on_earlier_days_are_part_of_it() -> None:
    before = (_at("16:00"), HoursWorked("ada", 5, "c/a"))
    word = (_at("16:10"), HoursLeft("c/a", 6))
    assert _standing(CAME, before, word).left == 6
    next_word = (_at("10:00", 9), HoursLeft("c/a", 4))
    assert _standing(CAME, before, word, next_word).left == 4


def test_a_board_of_the_past_knows_only_the_hours_written_by_then() -> None:
    said = [CAME, (_at("9:00"), HoursLeft("c/a", 6)), (_at("12:00"), HoursWorked("ada", 2, "c/a"))]
    assert _standing(*said, at=_at("11:00")).left == 6
    assert _standing(*said, at=_at("12:00")).left == 4


@pytest.mark.parametrize("worked", [20, 26])
def test_who_worked_longer_than_was_said_is_asked(worked: float) -> None:
    standing = _standing((_at("16:00"), HoursWorked("ada", worked, "c/a")))
    assert standing.ask_left
    assert standing.left_in_words == "ask how much is left"
    assert standing.left == 5, "a quarter of the estimate, where nothing finished tells more"


def test_what_overran_is_planned_by_the_overruns_of_the_log() -> None:
    tasks = [task(f"c/{name}", 10) for name in ("a", "b", "d", "e")]
    said: list[tuple[datetime, Any]] = [(_at("16:00"), HoursWorked("ada", 12, "c/a"))]
    for name, hours in (("b", 15), ("d", 20), ("e", 11)):
        said += [
            (_at("16:00"), HoursWorked("ada", hours, f"c/{name}")),
            (_at("16:30"), Finished(f"c/{name}")),
        ]
    standing = board(plan(tasks), LATER, logbook(*said))["c/a"]
    # Of those that took longer than 1.2 times their estimate: 1.5 and 2.0 times.
    assert standing.left == pytest.approx((2.0 - 1.2) * 10)
    assert standing.ask_left


def test_work_without_an_estimate_never_has_nothing_left() -> None:
    standing = _standing((_at("16:00"), HoursWorked("ada", 9, "c/a")), hours=None)
    assert standing.left is None
    assert hours_left(standing, 4.0) > 0
