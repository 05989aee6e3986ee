"""What is in the steam box, against what was written, said out in full on random days."""

from __future__ import annotations

from datetime import datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from crewboard.logbook.acts import Act, Begun, Finished, PieceFailed, Reopened, Steamed, Stopped
from crewboard.logbook.entry import Entry
from crewboard.order.assess import assess
from crewboard.order.board import Board
from crewboard.order.steam import in_the_box
from crewboard.plan.clock import ShopClock
from crewboard.plan.duration import Duration
from crewboard.plan.piece import Piece
from tests.long_form import cases
from tests.order import small_plans
from tests.order.test_readiness import logbook_of

MORNING = datetime(2026, 5, 2, 9)
PLAN = small_plans.plan([small_plans.task("c/a"), small_plans.task("c/b")])._replace(
    clock=ShopClock(None)
)


def board_of(entries: list[Entry], at: datetime) -> Board:
    return assess(PLAN, logbook_of(entries), at)


@st.composite
def mornings(draw: st.DrawFn) -> tuple[list[Entry], datetime]:
    entries: list[Entry] = []
    at = MORNING
    for number in range(draw(st.integers(0, 10))):
        at += timedelta(minutes=draw(st.integers(1, 40)))
        name = draw(st.sampled_from(["c/a", "c/b"]))
        acts: list[Act] = [
            Begun(name), Finished(name), Stopped(name), Reopened(name, "x"),
            Steamed(name, out=True),
            *(Steamed(name, Duration(minutes=minutes)) for minutes in (20, 65, 90)),
        ]  # fmt: skip
        entries.append(Entry(f"e{number}", at, draw(st.sampled_from(acts)), "ada"))
    return entries, at + timedelta(minutes=draw(st.integers(0, 120)))


def said_out(entries: list[Entry], name: str) -> list[str]:
    """The ids of what of a task is still in, first in first."""
    inside: list[str] = []
    for entry in entries:
        match entry.act:
            case Steamed(task=task, out=False) if task == name:
                inside.append(entry.id)
            case Steamed(task=task, out=True) if task == name:
                inside = inside[1:]
            case Finished(task=task) | Stopped(task=task) | Reopened(task=task) if task == name:
                inside = []
    return inside


@given(mornings())
@cases(60, 5_000)
def test_what_is_in_the_box_is_what_went_in_and_did_not_come_out(
    morning: tuple[list[Entry], datetime],
) -> None:
    entries, now = morning
    inside = in_the_box(board_of(entries, now))
    for name in ("c/a", "c/b"):
        assert {one.id for one in inside if one.task == name} == set(said_out(entries, name))
    assert [one.until for one in inside] == sorted(one.until for one in inside)
    lasts = {e.id: e.act.lasts for e in entries if isinstance(e.act, Steamed)}
    assert all(one.until == one.since + (lasts[one.id] or Duration()).about for one in inside)


def test_nothing_waits_for_it_and_no_board_changes_by_it() -> None:
    begun = [Entry("b", MORNING, Begun("c/a", ("ada",)), "ada")]
    steamed = [*begun, Entry("s", MORNING, Steamed("c/a", Duration(minutes=65)), "ada")]
    later = MORNING + timedelta(hours=1)
    before, after = board_of(begun, later), board_of(steamed, later)
    assert before.standings == after.standings
    assert before.holds == after.holds
    assert len(in_the_box(after)) == 1


def test_it_ends_with_its_day_and_not_at_midnight() -> None:
    late = datetime(2026, 5, 2, 23, 40)
    entries = [Entry("s", late, Steamed("c/a", Duration(minutes=65)), "ada")]
    assert in_the_box(board_of(entries, late + timedelta(minutes=40)))[0].until.day == 3
    assert in_the_box(board_of(entries, late + timedelta(hours=3)))[0].due(
        late + timedelta(hours=3)
    )
    assert not in_the_box(board_of(entries, late + timedelta(days=1, hours=1)))


def test_a_piece_that_broke_is_in_no_more() -> None:
    task = small_plans.task("c/a", pieces=("c/rib",))
    plan = PLAN._replace(tasks={"c/a": task}, pieces={"c/rib": Piece("c/rib", "Rib", "c")})
    entries = [
        Entry("s", MORNING, Steamed("c/a", Duration(minutes=65)), "ada"),
        Entry("f", MORNING + timedelta(minutes=30), PieceFailed("c/rib", "it split"), "ada"),
    ]
    now = MORNING + timedelta(minutes=40)
    assert not in_the_box(assess(plan, logbook_of(entries), now))
    assert in_the_box(assess(plan, logbook_of(entries[:1]), now))


def test_what_is_overdue_does_not_come_out_at_midnight() -> None:
    evening = datetime(2026, 5, 2, 23, 20)
    box = [Entry("e", evening, Steamed("c/a", Duration(minutes=30)), "ada")]
    for hours, inside in ((0.7, True), (3, True), (12, True), (13, False)):
        board = board_of(box, evening + timedelta(hours=hours))
        assert bool(in_the_box(board)) is inside, hours
    noon = [Entry("e", MORNING, Steamed("c/a", Duration(minutes=30)), "ada")]
    assert in_the_box(board_of(noon, MORNING.replace(hour=23)))
