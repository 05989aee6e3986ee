"""What may be written, against what it then does: on random plans, act after act."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import (
    Act,
    Begun,
    Extended,
    Finished,
    HoldStarted,
    HoursLeft,
    HoursWorked,
    Noted,
    Reading,
    Released,
    Reopened,
    SetAside,
    SignIn,
    SignOut,
)
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.logbook import Logbook
from crewboard.logbook.state import NOT_YET
from crewboard.order.admit.rules import refusals
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.sequence.graph import OrderOfWork
from crewboard.plan.duration import Duration
from crewboard.plan.plan import Plan
from crewboard.plan.volunteer import Volunteer
from tests.long_form import cases
from tests.order.random_plans import plans

START = datetime(2026, 1, 3, 9)
CREW = {who: Volunteer(who, who.title()) for who in ("ada", "tom", "mei")}
crew_plans = plans(7, holds=True).map(lambda plan: plan._replace(crew=CREW))


class Writing:
    """A logbook that only takes what is not refused, as the shop would write it."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.order = OrderOfWork(plan)
        self.entries: list[Entry] = []

    def board(self, at: datetime) -> Board:
        days: dict[date, list[Entry]] = {}
        for entry in self.entries:
            days.setdefault(entry.at.date(), []).append(entry)
        book = Logbook({day: Day(day, days[day]) for day in sorted(days)})
        return assess(self.plan, book, at, self.order)

    def write(self, act: Act, at: datetime) -> str:
        entry = Entry(f"e{len(self.entries)}", at, act, "ada")
        self.entries.append(entry)
        return entry.id


@st.composite
def acts(draw: st.DrawFn, plan: Plan, holds: list[str]) -> Act:
    task = draw(st.sampled_from(sorted(plan.tasks)))
    who = draw(st.sampled_from(sorted(CREW)))
    hold = draw(st.sampled_from(holds)) if holds else "none"
    component = plan.tasks[task].component
    choice: list[Act] = [
        Begun(task, (who,)),
        Begun(task, (who,)),
        Finished(task),
        Finished(task),
        Finished(task),
        Reopened(task, "a gap"),
        SetAside(task, "no room"),
        SetAside(task, back=True),
        HoldStarted("glue", task, "", Duration(days=2)),
        HoldStarted("decision", "", component),
        Extended(hold, Duration(days=3), None, "soft"),
        Extended(hold, None, START + timedelta(days=40), "cold"),
        Released(hold, "sound"),
        SignIn(who),
        SignOut(who),
        HoursWorked(who, 2.5, task),
        HoursLeft(task, 3, "harder than it looked"),
        Reading(14, 60),
        Noted("cake"),
    ]
    return draw(st.sampled_from(choice))


def done_as_said(before: Board, after: Board, act: Act, entry_id: str) -> bool:
    """Whether the board after an act that was taken shows what the act says."""
    match act:
        case Begun():
            return after[act.task].state == "under way" and act.crew[0] in after[act.task].crew
        case Finished():
            return after[act.task].work_done
        case Reopened():
            return not after[act.task].work_done
        case SetAside():
            aside = after[act.task].aside != ""
            return aside is not act.back
        case HoldStarted():
            return after.holds[entry_id].stops_work
        case Extended():
            old, new = before.holds[act.hold].until, after.holds[act.hold].until
            return new is not None and (old is None or new > old)
        case Released():
            return after.holds[act.hold].stage == "over"
        case SignIn():
            return act.who in {visit.who for visit in after.present}
        case SignOut():
            return act.who not in {visit.who for visit in after.present}
        case HoursWorked():
            return after[act.task].hours == before[act.task].hours + act.hours
        case HoursLeft():
            return after[act.task].left == (0 if after[act.task].work_done else act.hours)
        case _:
            return after.standings == before.standings or isinstance(act, Reading)


@cases(120, 4000)
@given(st.data())
def test_what_is_taken_does_what_it_says(data: st.DataObject) -> None:
    writing = Writing(data.draw(crew_plans))
    at = START
    for _ in range(data.draw(st.integers(1, 14))):
        at += timedelta(minutes=data.draw(st.integers(0, 6000)))
        before = writing.board(at)
        act = data.draw(acts(writing.plan, sorted(before.holds)))
        if refusals(before, act, "ada"):
            continue
        entry_id = writing.write(act, at)
        assert done_as_said(before, writing.board(at), act, entry_id), act


@cases(80, 3000)
@given(st.data())
def test_a_task_may_be_begun_without_a_word_exactly_when_it_is_ready(data: st.DataObject) -> None:
    writing = Writing(data.draw(crew_plans))
    at = START
    for _ in range(data.draw(st.integers(0, 10))):
        at += timedelta(minutes=data.draw(st.integers(0, 6000)))
        now = writing.board(at)
        act = data.draw(acts(writing.plan, sorted(now.holds)))
        if not refusals(now, act, "ada"):
            writing.write(act, at)
    board = writing.board(at)
    for standing in board.standings.values():
        refused = refusals(board, Begun(standing.task.id, ("ada",)), "ada")
        # Asked about besides: who is not signed in, and work that was finished without a begin.
        refused = [r for r in refused if r.code not in ("away", "finished-without")]
        if standing.state == "ready":
            assert refused == []
        elif standing.state != "under way":
            assert refused
            yields = standing.state in NOT_YET and not standing.work_done
            assert all(r.yields is yields for r in refused), "only waiting and holds yield"
            assert all(r.says and r.mend for r in refused)


@cases(80, 3000)
@given(st.data())
def test_no_line_whatever_breaks_the_board(data: st.DataObject) -> None:
    """Lines written by hand, or merged from two clones, need not make sense."""
    writing = Writing(data.draw(crew_plans))
    at = START
    for _ in range(data.draw(st.integers(1, 14))):
        at += timedelta(minutes=data.draw(st.integers(-3000, 6000)))
        names = [e.id for e in writing.entries]
        writing.write(data.draw(acts(writing.plan, names)), at)
    board = writing.board(at)
    assert set(board.standings) == set(writing.plan.tasks)
    for standing in board.standings.values():
        assert (standing.state in ("finished",)) <= standing.work_done
        assert standing.hours >= 0
        assert standing.left is None or standing.left >= 0
        assert all(board.holds[each].stops_work for each in standing.holds)
