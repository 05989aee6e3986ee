"""Facts of beginning, finishing and reopening that a change of the code must not lose."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from crewboard.logbook.acts import Begun, Finished, HoldStarted, Reopened
from crewboard.order.admit.rules import refusals
from crewboard.order.board import Board
from crewboard.order.reasons.onward import what_then
from crewboard.plan.duration import Duration
from crewboard.plan.plan import Plan
from crewboard.plan.volunteer import Volunteer
from tests.order.small_plans import FIRST_SATURDAY, board, hold, logbook, plan, task

AT = FIRST_SATURDAY


def _board(of: Plan, *acts: Any, at: datetime = AT + timedelta(hours=8)) -> Board:
    """The board after these, an hour apart."""
    said = [(AT + timedelta(hours=number), act) for number, act in enumerate(acts)]
    return board(of, at, logbook(*said))


def test_a_task_is_begun_during_a_hold_that_leaves_its_component_alone_only_where_it_says_so() -> (
    None
):
    glue = task("roof/glue", hold=hold("glue", "3 days", leave_alone=True))
    of = plan(
        [glue, task("roof/plane", during=("roof/glue",)), task("roof/sand"), task("deck/oil")]
    )
    states = {t: s.state for t, s in _board(of, Finished("roof/glue")).standings.items()}
    assert states == {
        "roof/glue": "on hold",
        "roof/plane": "ready",
        "roof/sand": "on hold",
        "deck/oil": "ready",
    }


def test_work_begun_before_such_a_hold_started_is_held_while_it_runs() -> None:
    glue = task("roof/glue", hold=hold("glue", "3 days", leave_alone=True))
    of = plan([glue, task("roof/sand")])
    begun = _board(of, Begun("roof/sand", ("ada",)), Finished("roof/glue"))
    assert begun["roof/sand"].state == "on hold"
    after = _board(of, Begun("roof/sand", ("ada",)), Begun("roof/glue"))
    assert after["roof/sand"].state == "under way"


def test_what_the_plan_calls_finished_today_is_finished_and_tomorrow_is_not() -> None:
    def state(on: date) -> str:
        of = plan([task("c/a", finished=on), task("c/b", after=("c/a",))])
        return _board(of)["c/b"].state

    assert state(AT.date()) == "ready"
    assert state(AT.date() - timedelta(days=1)) == "ready"
    assert state(AT.date() + timedelta(days=1)) == "waiting"


def test_the_hold_of_what_the_plan_calls_finished_runs_from_the_midnight_after() -> None:
    yesterday = AT.date() - timedelta(days=1)
    of = plan([task("c/a", finished=yesterday, hold=hold("dry", "1 day"))])
    midnight = datetime.combine(AT.date(), datetime.min.time())
    assert _board(of, at=midnight - timedelta(minutes=1)).stopping() == []
    (starting,) = _board(of, at=midnight).stopping()
    assert (starting.since, starting.until) == (midnight, midnight + timedelta(days=1))


def test_the_clock_of_a_hold_may_start_exactly_now_and_never_later() -> None:
    of = plan([task("c/a", hold=hold("glue", "3 days"))], crew=[Volunteer("ada", "Ada")])
    now = _board(of, at=AT)
    done = Finished("c/a", AT, crew=("ada",), began=AT)
    assert refusals(now, done) == []
    (refusal,) = refusals(now, done._replace(clock=AT + timedelta(minutes=1)))
    assert refusal.code == "clock"
    (starting,) = _board(of, Finished("c/a", AT), at=AT).stopping()
    assert (starting.since, starting.until) == (AT, AT + timedelta(days=3))


def test_work_counts_as_begun_when_it_was_first_begun_and_anew_after_a_reopening() -> None:
    of = plan([task("c/a")])
    twice = _board(of, Begun("c/a", ("ada",)), Begun("c/a", ("tom",)))["c/a"]
    assert (twice.begun, twice.crew) == (AT, ("ada", "tom"))
    acts = (Begun("c/a", ("ada",)), Finished("c/a"), Reopened("c/a"), Begun("c/a", ("tom",)))
    again = _board(of, *acts, Begun("c/a", ("mia",)))["c/a"]
    assert (again.begun, again.crew) == (AT + timedelta(hours=3), ("tom", "mia"))


def test_what_the_plan_calls_finished_can_be_reopened_and_loses_its_hold() -> None:
    first = task("c/a", finished=AT.date() - timedelta(days=1), hold=hold("dry", "1 month"))
    of = plan([first, task("c/b", after=("c/a",))])
    assert _board(of)["c/a"].state == "on hold"
    reopened = _board(of, Reopened("c/a", "it peels"))
    assert (reopened["c/a"].state, reopened["c/b"].state) == ("ready", "waiting")
    assert not reopened.stopping()
    again = _board(of, Reopened("c/a", "it peels"), Finished("c/a"))
    assert again["c/a"].state == "on hold"
    assert again["c/a"].finished == AT + timedelta(hours=1)


def test_what_has_a_date_is_not_ready_at_once_before_it() -> None:
    later = AT.date() + timedelta(days=14)
    of = plan(
        [task("c/a"), task("c/b", after=("c/a",), not_before=later), task("c/c", after=("c/a",))]
    )
    then = what_then(_board(of), "c/a")
    assert (then.now, then.after_hold) == (("c/c",), ("c/b",))
    on_the_day = what_then(_board(of, at=datetime.combine(later, AT.time())), "c/a")
    assert set(on_the_day.now) == {"c/b", "c/c"}


def test_a_hold_by_hand_on_an_unfinished_task_keeps_what_comes_after_it_too() -> None:
    of = plan([task("c/a"), task("c/b", after=("c/a",))])
    acts = (HoldStarted("dry", "c/a", "", Duration(days=9)),)
    held = _board(of, *acts)
    assert held["c/a"].state == "on hold"
    assert what_then(held, "c/a").now == ()
