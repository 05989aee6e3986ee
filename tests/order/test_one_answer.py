"""One question has one answer, whoever asks: on random plans and logbooks.

The board, `why`, `then`, what goes first, may they begin, the rows of the screens and of the
commands, and the calendar never disagree about where a task stands or when a hold ends.
"""

from __future__ import annotations

from datetime import datetime

from hypothesis import given

from crewboard.logbook.acts import Finished
from crewboard.logbook.entry import Entry
from crewboard.logbook.state import NOT_YET
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.day_plan.plan_day import plan_day
from crewboard.order.day_plan.proposal import Wish
from crewboard.order.may.ask import against_standing
from crewboard.order.may.on_it import under_way_now
from crewboard.order.reasons.onward import what_then
from crewboard.order.reasons.waiting_on import waiting_on
from crewboard.order.reasons.why import why
from crewboard.paper.calendar import events
from crewboard.plan.plan import Plan
from crewboard.plan.volunteer import Volunteer
from crewboard.telling.holds import hold_rows
from crewboard.telling.work_day import work_day_rows
from tests.long_form import cases
from tests.order.test_readiness import logbook_of, situations

Situation = tuple[Plan, list[Entry], datetime]


def _board(situation: Situation) -> Board:
    plan, entries, at = situation
    ada = Volunteer("ada", "Ada Test")
    return assess(plan._replace(crew={"ada": ada}), logbook_of(entries), at)


@cases(60, 4000)
@given(situations())
def test_why_may_and_what_goes_first_say_the_state_that_the_board_says(
    situation: Situation,
) -> None:
    board = _board(situation)
    waiting = {task for tasks in waiting_on(board).values() for task in tasks}
    ranked = {first.task for first in what_goes_first(board)}
    for task, standing in board.standings.items():
        chain = why(board, task)
        stopped = standing.state in NOT_YET and not standing.work_done
        told = [reason for reason in chain[1:] if reason.root]
        assert bool(told) == (standing.state in NOT_YET or bool(_stop(board, task)))
        assert (task in waiting) == stopped
        assert (task in ranked) == (standing.state in ("ready", "under way"))
        against = [obstacle.code for obstacle in against_standing(board, task, ("tom",))]
        if standing.state == "ready":
            assert not against
        elif standing.state != "under way":
            assert against, (task, standing.state)
        kept = {reason.id for reason in chain if reason.about == "hold" and reason.depth == 1}
        assert set(standing.holds) <= kept


def _stop(board: Board, task: str) -> tuple[str, ...]:
    standing = board[task]
    return (*standing.open_again, *standing.held_again) if standing.to_stop else ()


@cases(40, 3000)
@given(situations())
def test_what_would_be_let_go_is_what_finishing_lets_go(situation: Situation) -> None:
    plan, entries, at = situation
    board = assess(plan, logbook_of(entries), at)
    ready = {task for task, standing in board.standings.items() if standing.state == "ready"}
    for first in what_goes_first(board):
        then = what_then(board, first.task)
        assert set(first.lets_go) == {*then.now, *then.after_hold}
        done = [*(e for e in entries if e.at <= at), Entry("~", at, Finished(first.task))]
        after = assess(plan, logbook_of(done), at)
        now = {task for task, standing in after.standings.items() if standing.state == "ready"}
        assert set(then.now) == now - ready


@cases(40, 3000)
@given(situations())
def test_a_hold_ends_when_every_face_says_so(situation: Situation) -> None:
    board = _board(situation)
    held = {hold.id: hold for hold in board.stopping()}
    ends = {e.uid.removesuffix("-hold"): e.start for e in events(board) if e.uid.endswith("-hold")}
    assert ends == {name: hold.until for name, hold in held.items() if hold.until is not None}
    listed = {row.id.removeprefix("hold:") for row in hold_rows(board, over="none") if row.id}
    assert held.keys() <= listed | {name for name in held if name in board.standings}
    for standing in board.standings.values():
        assert set(standing.holds) <= held.keys()
        alone = [held[name].until for name in standing.holds]
        only_holds = not standing.short_of and standing.task.not_before is None
        if standing.holds and only_holds and None not in alone:
            assert standing.until == max(end for end in alone if end is not None)


@cases(30, 2000)
@given(situations())
def test_the_rows_of_the_work_day_say_the_state_that_the_board_says(situation: Situation) -> None:
    board = _board(situation)
    for row in work_day_rows(board):
        if row.id in board.standings and row.find:
            state = board[row.id].state
            nobody = state == "under way" and row.id not in under_way_now(board)
            assert row.cells[0] == ("begun" if nobody else state), row


@cases(10, 500)
@given(situations())
def test_the_plan_of_a_day_begins_nothing_that_the_order_of_work_forbids(
    situation: Situation,
) -> None:
    board = _board(situation)
    plan = plan_day(board, Wish(people=("ada",)))
    finished = {slot.task for slot in plan.placed if slot.finishes}
    for slot in plan.placed:
        standing = board[slot.task]
        if standing.state not in ("ready", "under way"):
            before = board.order.all_before(slot.task)
            assert standing.state == "waiting", (slot.task, standing.state)
            assert before & finished, "what it waits for is finished that day"
