"""The plan of a day in words: its changes, its reasons, how good it is. Worked out by hand."""

from __future__ import annotations

from datetime import datetime

from crewboard.logbook.acts import Begun, Finished
from crewboard.order.assess import assess
from crewboard.order.day_plan.proposal import (
    DayPlan,
    NotPlaced,
    Otherwise,
    Placed,
    SmallJob,
    Wish,
)
from crewboard.order.day_plan.taken_over import Running
from crewboard.plan.volunteer import Volunteer
from crewboard.telling.day_plan import (
    change_in_words,
    day_plan_rows,
    task_of_row,
    worth_in_words,
)
from tests.order.small_plans import FIRST_SATURDAY, board, logbook, plan, task

CREW = [Volunteer("ada", "Ada Test"), Volunteer("tom", "Tom Test"), Volunteer("kim", "Kim Test")]
OF = plan([task(f"c/{name}", title=f"Do {name}") for name in "abcde"], crew=CREW)
ON = board(OF)
OPENS = datetime(2026, 5, 2, 10)


def placed(name: str, *who: str, start: int, end: int = 16) -> Placed:
    day = datetime(2026, 5, 2)
    return Placed(f"c/{name}", who, day.replace(hour=start), day.replace(hour=end), True)


def change(before: Placed | None, now: Placed | None) -> Otherwise:
    was = before.people if before else ()
    are = now.people if now else ()
    each = now or before
    assert each is not None
    joined = tuple(who for who in are if who not in was)
    left = tuple(who for who in was if who not in are)
    return Otherwise("c/a", max(each.start, OPENS), joined, left, before, now)


def test_a_change_says_who_joins_and_who_leaves() -> None:
    before = placed("a", "ada", start=9)
    more = change(before, placed("a", "ada", "tom", start=10))
    assert change_in_words(ON, more, OPENS) == "one more: Tom"
    other = change(before, placed("a", "tom", "kim", start=10))
    assert change_in_words(ON, other, OPENS) == "2 more: Tom and Kim; without Ada"


def test_what_is_put_off_says_from_when_to_when() -> None:
    later = change(placed("a", "ada", start=9), placed("a", "ada", start=14))
    assert change_in_words(ON, later, OPENS) == "from 14:00 in place of 09:00"
    both = change(placed("a", "ada", start=11), placed("a", "tom", start=14))
    assert change_in_words(ON, both, OPENS) == (
        "one more: Tom; without Ada; from 14:00 in place of 11:00"
    )


def test_what_is_new_or_gone_or_done() -> None:
    assert change_in_words(ON, change(None, placed("a", "ada", start=11)), OPENS) == "new: Ada"
    gone = change(placed("a", "ada", "tom", start=11), None)
    assert change_in_words(ON, gone, OPENS) == ("not any more; free for other work: Ada and Tom")
    log = logbook((FIRST_SATURDAY, Begun("c/a", ("ada",))), (FIRST_SATURDAY, Finished("c/a")))
    assert change_in_words(assess(OF, log, OPENS), gone, OPENS) == "finished"


def test_who_learns_and_who_has_a_small_job_is_said_so() -> None:
    now = placed("a", "ada", "tom", "kim", start=10)._replace(learning=("kim",))
    assert change_in_words(ON, change(placed("a", "ada", start=9), now), OPENS) == (
        "one more: Tom; one more, to learn it: Kim"
    )
    assert change_in_words(ON, change(None, now), OPENS) == (
        "new: Ada, Tom and Kim; to learn it: Kim"
    )
    noon = OPENS.replace(hour=12)
    early = SmallJob("sweep", ("kim",), OPENS, noon)
    late = early._replace(start=OPENS.replace(hour=11))
    new = Otherwise("", OPENS, ("kim",), (), None, early, "sweep")
    assert change_in_words(ON, new, OPENS) == "a small job, new: Kim"
    moved = Otherwise("", OPENS, (), (), early, late, "sweep")
    assert change_in_words(ON, moved, OPENS) == "a small job of Kim, from 11:00 in place of 10:00"
    gone = Otherwise("", OPENS, (), ("kim",), early, None, "sweep")
    assert change_in_words(ON, gone, OPENS) == "a small job, not any more: Kim"
    day = a_day()._replace(changes=(new,))
    row = day_plan_rows(ON, day, Wish(), Running("", OPENS, (), (), ()))[1]
    assert (row.cells[1], task_of_row(row.id)) == ("sweep", "")


def a_day(*not_placed: NotPlaced, value: int = 100, bound: int = 100) -> DayPlan:
    people = ("ada", "tom")
    return DayPlan(OPENS, OPENS, people, (), not_placed, (), "solver", value, bound)


def test_tasks_with_one_reason_stand_in_one_row_that_opens() -> None:
    same = [NotPlaced(f"c/{name}", "nobody here has the skill motor") for name in "abc"]
    other = NotPlaced("c/d", "it waits")
    day = a_day(same[0], other, *same[1:])
    rows = {row.id: row for row in day_plan_rows(ON, day, Wish())}
    assert rows["why:0"].cells[:2] == ("3 tasks", "Do a; Do b; Do c")
    assert rows["why:0"].below == ("nobody here has the skill motor",)
    assert rows["c/d"].below == ("it waits",)
    assert "c/a" not in rows
    opened = [row.id for row in day_plan_rows(ON, day, Wish(), None, {"why:0"})]
    at = opened.index("why:0")
    assert opened[at : at + 5] == ["why:0", "c/a", "c/b", "c/c", "c/d"]
    assert [task_of_row(row) for row in ("why:0", "person:ada", "change:c/a", "c/a")] == [
        *("", "", "c/a", "c/a")
    ]


def test_how_good_it_is_is_said_in_what_it_was_counted_in() -> None:
    assert worth_in_words(a_day(value=100, bound=114)) == (
        "Counted by what goes first, at most 14 % more could be got done by any plan made in this "
        "way; this one was found by the solver."
    )
    # A part of a percent is rounded up: the bound is no promise.
    assert "at most 1 % more could" in worth_in_words(a_day(value=1000, bound=1001))
    assert "no plan made in this way gets more done" in worth_in_words(a_day())
    assert "proven" not in worth_in_words(a_day())
    assert "gets more done" in worth_in_words(a_day(value=0, bound=0))
