"""What no crew uses: refused whoever begins it, and told before anybody tries."""

from __future__ import annotations

import pytest

from crewboard.order.may.day import PeopleOfTheDay
from crewboard.order.may.words import as_refusals
from crewboard.telling.why import why_lines
from tests.order.safety.workshop import Book, at, begin_refusals, sheets, shop_plan

INSTEAD = "Hand the sashes to a licensed trade."
PLAN = shop_plan({**sheets(), "noise": sheets()["noise"]._replace(do_not_use=INSTEAD)})
TASK = "shop/noise"


def test_nobody_begins_it_and_no_reason_of_a_lead_helps() -> None:
    book = Book(PLAN).sign_in("ada", "ben")
    refused = {r.code: r for r in begin_refusals(book.board(at(10)), TASK, ("ada", "ben"))}
    assert refused["not-used"].says == f"noise: do not use. {INSTEAD.rstrip('.')}"
    assert not refused["not-used"].yields
    other = begin_refusals(book.board(at(10)), "shop/manual-handling", ("ada", "ben"))
    assert "not-used" not in {refusal.code for refusal in other}


@pytest.mark.parametrize("hour", [10, 22])  # while the shop is open, and when it is not
def test_the_board_says_so_before_anybody_tries(hour: int) -> None:
    board = Book(PLAN).sign_in("ada", "ben").board(at(hour))
    against = PeopleOfTheDay(board).against(PLAN.tasks[TASK])
    assert "not-used" in {obstacle.code for obstacle in against}
    (first, *_) = as_refusals(board, TASK, [o for o in against if o.code == "not-used"])
    assert INSTEAD.rstrip(".") in first.says
    assert any(INSTEAD.rstrip(".") in line.text for line in why_lines(board, TASK))
