"""Hidden faces are coated first: what a review asks of the order of coats, and what it does not."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import pytest

from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.reckoning.asked import For
from crewboard.order.reckoning.known import kinds_for
from crewboard.order.reckoning.plan_says import plan_says
from crewboard.order.review import review
from crewboard.plan.hold import Hold
from crewboard.plan.piece import Piece
from crewboard.plan.task import Task
from crewboard.trade.kinds import kind_named
from tests.order import small_plans
from tests.order.test_readiness import logbook_of

AT = datetime(2026, 5, 2, 9)
HIDDEN = small_plans.task("roof/backs", title="Coat the hidden backs of the boards")


def board(*tasks: Task) -> Board:
    pieces = {one: Piece(one, one, "roof") for task in tasks for one in task.pieces}
    return assess(small_plans.plan(tasks)._replace(pieces=pieces), logbook_of([]), AT)


def asked(*tasks: Task) -> list[str]:
    return [q.says for q in review(board(*tasks)) if q.rule == "hidden faces first"]


def shown(**more: Any) -> Task:
    return small_plans.task("roof/shown", title="First coat on the shown faces", **more)


def lay(**more: Any) -> Task:
    return small_plans.task("roof/lay", title="Nail the boards down", **more)


def test_in_the_right_order_nothing_is_asked() -> None:
    """Common practice, no source: hidden faces before shown ones, and before what covers them."""
    right = (HIDDEN, shown(after=("roof/backs",)), lay(after=("roof/shown",)))
    assert not asked(*right)
    (said,) = plan_says(board(*right), kind_named("coats"), For("roof/backs"))
    assert not said.asks
    assert '"First coat on the shown faces"' in said.says
    assert '"Nail the boards down"' in said.says
    (said,) = plan_says(board(*right), kind_named("coats"), For("roof/shown"))
    assert '"Coat the hidden backs of the boards"' in said.says


@pytest.mark.parametrize(
    ("tasks", "says"),
    [
        (
            (shown(), HIDDEN._replace(after=("roof/shown",))),
            '"First coat on the shown faces" is the coat of what shows, and the plan has it before '
            '"Coat the hidden backs of the boards", the coat of hidden faces',
        ),
        ((HIDDEN, shown()), "the plan does not put it behind"),
        ((HIDDEN, lay()), '"Nail the boards down" covers what is to be coated, and the plan does'),
        ((lay(), HIDDEN._replace(after=("roof/lay",))), "and the plan has it before"),
    ],
)
def test_the_wrong_order_is_asked_about_by_name_of_both(tasks: tuple[Task, ...], says: str) -> None:
    (sentence,) = asked(*tasks)
    assert says in sentence
    (said,) = plan_says(board(*tasks), kind_named("coats"), For("roof/backs"))
    assert said.asks
    assert says in said.says
    assert not plan_says(board(*tasks), kind_named("arc"), For("roof/backs"))


@pytest.mark.parametrize(
    "other",
    [
        small_plans.task("roof/lay", title="Lay out the boards dry"),
        small_plans.task("roof/lay", title="Saw the boards to length"),
        small_plans.task("deck/lay", title="Lay the deck boards"),
        small_plans.task("roof/shown", title="Coat the shown faces", pieces=("roof/rail",)),
        small_plans.task("roof/both", title="Coat the shown and the hidden faces"),
        small_plans.task("roof/lay", title="Nail the boards", finished=AT.date()),
    ],
)
def test_what_covers_nothing_is_elsewhere_or_done_is_not_asked_about(other: Task) -> None:
    assert not asked(HIDDEN, other)


def test_what_dries_is_a_coat_whatever_it_is_called() -> None:
    tallow = HIDDEN._replace(title="Tallow on hidden faces", hold=Hold("dry"))
    assert asked(tallow, lay())
    assert not asked(tallow._replace(hold=None), lay())


def test_a_folder_in_other_words_says_which_faces_with_a_key() -> None:
    first = small_plans.task("roof/a", title="Rückseiten streichen", faces="hidden")
    then = small_plans.task("roof/b", title="Sichtseiten streichen", faces="shown")
    cover = small_plans.task("roof/c", title="Bretter verlegen", faces="covers")
    assert len(asked(first, then, cover)) == 2
    assert not asked(first, then._replace(after=(first.id,)), cover._replace(after=("roof/b",)))
    assert not asked(*(task._replace(faces=None) for task in (first, then, cover)))
    (said,) = plan_says(board(first, then, cover), kind_named("coats"), For("roof/c"))
    assert "covers what is to be coated" in said.says
    assert kinds_for(board(first, cover), "roof/a")[0] == "coats"
    assert not kinds_for(board(first, cover), "roof/c")


def test_what_a_task_says_of_its_faces_goes_before_its_title() -> None:
    assert not asked(HIDDEN._replace(faces="shown"), lay())
    (said,) = asked(HIDDEN, lay(faces="shown"))
    assert "is the coat of what shows" in said
