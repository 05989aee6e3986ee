"""Supplies are counted in one place: what is here, what is short, what is still to come."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

import pytest

from crewboard.logbook.acts import Arrived, Finished, Ordered, SentBack, Used
from crewboard.order.supplies import SupplyAccount, expected_by, supply_in_words
from crewboard.plan.duration import Duration
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task
from tests.order.small_plans import FIRST_SATURDAY, board, logbook, plan, task

MORNING = FIRST_SATURDAY


def _account(supply: Supply, *acts: Any, tasks: list[Task] | None = None) -> SupplyAccount:
    """The account of a supply after these, an hour apart, all on one day."""
    of = plan(tasks or [task("deck/lay", supplies=("oak",))], supplies=[supply])
    said = [(MORNING + timedelta(hours=n), act) for n, act in enumerate(acts)]
    return board(of, MORNING + timedelta(hours=len(acts)), logbook(*said)).stock["oak"]


def _figures(account: SupplyAccount) -> tuple[float, float, float]:
    return account.here, account.short, account.to_come


EIGHT = Supply("oak", "Oak", quantity="8 boards")


def test_what_was_ordered_arrived_went_back_and_was_used_is_counted() -> None:
    account = _account(
        EIGHT,
        Ordered("oak", date(2026, 5, 20), amount=10),
        Arrived("oak", amount=6),
        SentBack("oak", amount=2),
        Used("oak", amount=3),
    )
    assert _figures(account) == (1, 7, 4)
    assert supply_in_words(account) == (
        "1 here, 7 short, 4 still to come, promised for Wed 20 May 2026, 3 not ordered"
    )


def test_an_order_after_a_return_is_short_again_until_it_comes() -> None:
    acts = [Ordered("oak"), Arrived("oak"), SentBack("oak", why="warped"), Ordered("oak")]
    assert _figures(_account(EIGHT, *acts)) == (0, 8, 8)
    assert _figures(_account(EIGHT, *acts, Arrived("oak"))) == (8, 0, 0)
    plain = Supply("oak", "Oak")
    assert supply_in_words(_account(plain, *acts)) == "ordered, no date promised"
    assert supply_in_words(_account(plain, *acts[:3])) == "not ordered yet"


@pytest.mark.parametrize("quantity", ["", "8 boards", "enough for both sides"])
def test_a_folder_without_amounts_means_what_it_meant(quantity: str) -> None:
    supply = Supply("oak", "Oak", quantity=quantity)
    assert _account(supply).short > 0
    assert _account(supply, Ordered("oak", date(2026, 5, 9))).promised == date(2026, 5, 9)
    assert _account(supply, Ordered("oak"), Arrived("oak")).short == 0
    assert _account(supply, Arrived("oak")).short == 0
    assert _account(supply._replace(in_stock=True)).short == 0
    assert _account(supply._replace(arrived=date(2026, 4, 1))).short == 0
    assert _account(supply._replace(arrived=date(2026, 6, 1))).short > 0


def test_an_order_in_the_plan_and_in_the_logbook_is_one_order_and_the_later_promise_counts() -> (
    None
):
    supply = EIGHT._replace(ordered=date(2026, 3, 1), due=date(2026, 4, 20))
    account = _account(supply)
    assert _figures(account) == (0, 8, 8)
    assert account.overdue
    assert supply_in_words(account).endswith("overdue: was promised for Mon 20 Apr 2026")
    again = _account(supply, Ordered("oak", date(2026, 5, 30)))
    assert _figures(again) == (0, 8, 8)
    assert (again.promised, again.overdue) == (date(2026, 5, 30), False)
    silent = _account(supply, Ordered("oak"))
    assert (silent.promised, silent.overdue) == (date(2026, 4, 20), True)


def test_a_new_promise_moves_an_order_that_was_not_counted_anew() -> None:
    account = _account(EIGHT, Ordered("oak", date(2026, 5, 1)), Ordered("oak", date(2026, 6, 1)))
    assert (account.to_come, account.promised) == (8, date(2026, 6, 1))


def test_what_is_short_is_here_when_the_orders_that_cover_it_are() -> None:
    first, second = (
        Ordered("oak", date(2026, 6, 1), amount=5),
        Ordered("oak", date(2026, 7, 1), amount=5),
    )
    assert _account(EIGHT, second, first).promised == date(2026, 7, 1)
    assert _account(EIGHT, Arrived("oak", amount=4), second, first).promised == date(2026, 6, 1)


def test_what_is_due_today_is_not_overdue_yet() -> None:
    assert not _account(EIGHT, Ordered("oak", MORNING.date())).overdue
    assert _account(EIGHT, Ordered("oak", MORNING.date() - timedelta(days=1))).overdue


def test_a_delivery_unlike_the_order_or_with_defects_is_told_with_its_reason() -> None:
    account = _account(EIGHT, Arrived("oak", unlike="ash", defects="two are bowed"))
    [unusual] = account.unusual
    assert (unusual.unlike, unusual.defects, unusual.day) == (
        "ash",
        "two are bowed",
        MORNING.date(),
    )


def test_a_task_waits_for_its_own_amount_and_no_more() -> None:
    tasks = [
        task("deck/lay", supplies=("oak",), amounts={"oak": 5.0}),
        task("deck/trim", supplies=("oak",), amounts={"oak": 3.0}),
    ]
    of = plan(tasks, supplies=[Supply("oak", "Oak")])
    log = logbook((MORNING, Arrived("oak", amount=4)))
    now = board(of, MORNING + timedelta(hours=1), log)
    assert {t: s.state for t, s in now.standings.items()} == {
        "deck/lay": "needs supplies",
        "deck/trim": "ready",
    }
    assert _figures(now.stock["oak"]) == (4, 4, 0)


def test_what_finished_work_used_is_not_asked_for_again() -> None:
    tasks = [task("deck/lay", supplies=("oak",)), task("deck/trim", supplies=("oak",))]
    acts = (Arrived("oak", amount=8), Used("oak", "deck/lay", amount=5), Finished("deck/lay"))
    assert _figures(_account(EIGHT, *acts, tasks=tasks)) == (3, 0, 0)


def test_nothing_is_short_of_what_no_work_needs_any_more() -> None:
    assert _account(EIGHT, Finished("deck/lay")).short == 0
    assert supply_in_words(_account(Supply("oak", "Oak"), Finished("deck/lay"))) == (
        "needed no longer"
    )


def test_what_is_not_ordered_takes_its_lead_time_from_today() -> None:
    supply = EIGHT._replace(lead_time=Duration(days=21))
    of = plan([task("deck/lay", supplies=("oak",))], supplies=[supply])
    today = MORNING.date()

    def expected(*acts: Any) -> date | None:
        return expected_by(of, _account(supply, *acts), today)

    assert expected() == date(2026, 5, 23)
    assert expected(Ordered("oak", date(2026, 5, 9))) == date(2026, 5, 9)
    assert expected(Ordered("oak", date(2026, 5, 9), amount=5)) == date(2026, 5, 23)
    assert expected(Ordered("oak")) == date(2026, 5, 23)
    assert expected_by(of, _account(EIGHT), today) is None


@pytest.mark.parametrize(
    ("quantity", "needed", "unit"),
    [
        ("8", 8, ""),
        ("6.5 m", 6.5, "m"),
        ("1,5 l", 1.5, "l"),
        ("10 planks of 2.6 m", 10, "planks of 2.6 m"),
        ("10-12 boards", None, ""),
        ("2 x 4 boards", None, ""),
        ("1 1/2 l", None, ""),
        ("1,200", None, ""),
        ("a few", None, ""),
    ],
)
def test_a_quantity_is_counted_where_it_is_one_number(
    quantity: str, needed: float | None, unit: str
) -> None:
    supply = Supply("oak", "Oak", quantity=quantity)
    assert (supply.needed, supply.unit) == (needed, unit)


@pytest.mark.parametrize("amount", [None, 8])
def test_an_order_in_the_plan_and_in_the_logbook_is_one_order(amount: float | None) -> None:
    """And the later promise counts."""
    planned = EIGHT._replace(ordered=date(2026, 4, 1), due=date(2026, 5, 6))
    told_again = Ordered("oak", date(2026, 5, 20), amount=amount)
    account = _account(planned, told_again)
    assert (_figures(account), account.promised) == ((0, 8, 8), date(2026, 5, 20))
    assert _figures(_account(planned, told_again, Arrived("oak", amount=8))) == (8, 0, 0)


def test_a_board_of_the_past_counts_only_what_had_happened() -> None:
    of = plan([task("deck/lay", supplies=("oak",))], supplies=[EIGHT])
    log = logbook((MORNING, Arrived("oak")), (datetime(2026, 5, 16, 9), Used("oak")))
    assert board(of, datetime(2026, 5, 3), log).stock["oak"].here == 8
    assert board(of, datetime(2026, 5, 17), log).stock["oak"].here == 0
