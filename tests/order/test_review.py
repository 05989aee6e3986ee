"""The order checked as a good schedule reviewer would."""

from __future__ import annotations

import random
from datetime import date, datetime
from typing import Any

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewboard.logbook.acts import Finished, Ordered, SetAside
from crewboard.logbook.logbook import Logbook
from crewboard.order.review import RULES, Question, review
from crewboard.plan.component import Component
from crewboard.plan.duration import parse_duration
from crewboard.plan.hazard import CertificateNeed, Hazard, Number
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task
from crewboard.plan.volunteer import Certificate, Volunteer
from crewboard.plan.workdays import WorkDays
from tests.order.small_plans import FIRST_SATURDAY, board, hold, logbook, plan, random_tasks, task

nx: Any = networkx
ADA = Volunteer("ada", "Ada Test", ("joinery",))


def _asked(of: Plan, log: Logbook | None = None, at: datetime = FIRST_SATURDAY) -> list[Question]:
    return review(board(of, at, log))


def _rules(*tasks: Task, **more: Any) -> dict[str, list[str]]:
    """Rule -> the ids that it asks about."""
    more.setdefault("crew", [ADA])
    found: dict[str, list[str]] = {}
    for each in _asked(plan(tasks, **more)):
        found.setdefault(each.rule, []).append(each.id)
    return found


def _chain(*tasks: Task) -> list[Task]:
    pairs = zip(tasks, [None, *tasks], strict=False)
    return [t._replace(after=(*t.after, b.id)) if b else t for t, b in pairs]


RANGE = (1, 2, 4)


def test_a_good_plan_is_asked_nothing() -> None:
    tasks = _chain(
        task("c/bend", RANGE, hold=hold("bend set", "3 days")),
        task("c/fit", RANGE, skills=("joinery",)),
        task("c/oil", RANGE),
    )
    assert _rules(*tasks) == {}


def test_every_rule_has_a_source_and_a_mark() -> None:
    for name, rule in RULES.items():
        assert rule.source, name
        assert rule.mark in ("second-hand", "from memory", "common practice")
        assert (rule.mark == "from memory") == ("from memory" in rule.source)


def test_a_task_that_leads_nowhere_and_hangs_on_nothing_is_asked_about() -> None:
    tasks = [*_chain(task("c/a", RANGE), task("c/b", RANGE)), task("d/lone", RANGE)]
    found = _rules(*tasks)
    assert found["stands alone"] == ["d/lone"]
    loose = _rules(*tasks[:2], task("c/lone", RANGE), task("e/e", RANGE, after=("c",)))
    assert loose["loose in its component"] == ["c/lone"]


def test_a_component_nobody_reaches_is_asked_about() -> None:
    parts = [Component("a", "A"), Component("b", "B", after=("a",)), Component("c", "C")]
    parts.append(Component("empty", "Empty", after=("b",)))
    tasks = [task("a/x", RANGE), task("b/x", RANGE), task("c/x", RANGE)]
    found = _rules(*tasks, components=parts)
    assert found["component stands alone"] == ["c"]
    assert found["nothing to do"] == ["empty"]


def test_many_open_ends_are_asked_about_once() -> None:
    first = task("c/first", RANGE)
    ends = [task(f"c/end{n}", RANGE, after=("c/first",)) for n in range(30)]
    assert _rules(first, *ends) == {"many open ends": [""]}
    assert "many open ends" not in _rules(first, *ends[:3])


@settings(max_examples=120, deadline=None)
@given(seed=st.integers(0, 10**9))
def test_what_follows_anyway_is_what_the_transitive_reduction_leaves_out(seed: int) -> None:
    # networkx's transitive_reduction is the outside check.
    rnd = random.Random(seed)
    tasks = random_tasks(rnd, rnd.randint(2, 20), holds=False)
    graph = nx.DiGraph()
    graph.add_nodes_from(t.id for t in tasks)
    graph.add_edges_from((before, t.id) for t in tasks for before in t.after)
    kept = set(nx.transitive_reduction(graph).edges)
    left_out = [(b, t.id) for t in tasks for b in t.after if (b, t.id) not in kept]
    asked = [q for q in _asked(plan(tasks)) if q.rule == "follows anyway"]
    assert sorted(q.id for q in asked) == sorted(after for _, after in left_out)
    for before, after in left_out:
        assert any(q.id == after and f'"{before}"' in q.do for q in asked)


def test_a_link_that_waits_for_a_hold_does_not_follow_from_one_that_need_not() -> None:
    glue = task("c/glue", RANGE, hold=hold("glue", "36 hours"))
    trim = task("c/trim", RANGE, during=("c/glue",))
    load = task("c/load", RANGE, after=("c/glue", "c/trim"))
    assert "follows anyway" not in _rules(glue, trim, load)


def test_what_follows_through_whole_components_is_asked_about() -> None:
    parts = [Component("a", "A"), Component("b", "B", after=("a",))]
    tasks = [task("a/x", RANGE), task("b/y", RANGE, after=("a/x",))]
    assert _rules(*tasks, components=parts) == {"follows anyway": ["b/y"]}


@pytest.mark.parametrize(
    ("waits", "rule"),
    [
        (hold("glue", "36 days"), "long hold"),
        (hold("dry", "1 year"), "long hold"),
        (hold("cure", "6 weeks"), "hold without a reason"),
        (hold("cure", "6 weeks")._replace(source="the label"), ""),
        (hold("bend set", "1 month")._replace(note="the book"), ""),
        (hold("dry", "36 hours"), ""),
        (hold("inspection"), ""),
    ],
)
def test_implausible_and_unexplained_holds_are_asked_about(waits: Any, rule: str) -> None:
    found = _rules(*_chain(task("c/a", RANGE, hold=waits), task("c/b", RANGE)))
    assert list(found) == ([rule] if rule else [])


def test_missing_and_doubtful_estimates_are_asked_about() -> None:
    tasks = _chain(task("c/none", None), task("c/one", 3), task("c/long", (40, 80, 120)))
    found = _rules(*tasks)
    assert found["no estimate"] == ["c/none"]
    assert found["no range"] == [""]
    assert found["long task"] == ["c/long"]


def test_skills_and_people_that_the_crew_does_not_have_are_asked_about() -> None:
    tasks = _chain(
        task("c/gild", RANGE, skills=("gilding",)), task("c/lift", RANGE, least_people=4)
    )
    found = _rules(*tasks)
    assert found["no such skill"] == ["c/gild"]
    assert found["too few people"] == ["c/lift"]


def test_work_for_which_a_hazard_asks_more_people_than_the_crew_has_is_asked_about() -> None:
    """As `begin` would refuse it: the plan itself may say that one person does it."""
    two = Number("two", 2, "people", "", "invented", "anywhere", "", None, "verified")
    hot = Hazard("hot", "Hot work: invented", (), numbers=(two,), least_people="two")
    work = _chain(task("c/weld", RANGE, hazards=("hot",)))
    assert _rules(*work, hazards=[hot])["too few people"] == ["c/weld"]
    assert "too few people" not in _rules(
        *work, hazards=[hot], crew=[ADA, Volunteer("tom", "Tom Test")]
    )


def test_a_certificate_that_lapses_before_it_is_needed_is_asked_about() -> None:
    hot = Hazard(
        "hot", "Hot work: invented", (), certificates=(CertificateNeed("hot work", "one"),)
    )
    tasks = _chain(
        task("c/bend", RANGE, hold=hold("bend set", "2 months")._replace(note="the book")),
        task("c/weld", RANGE, hazards=("hot",)),
    )

    def found(*certificates: Certificate) -> dict[str, list[str]]:
        welder = ADA._replace(certificates=certificates)
        return _rules(*tasks, crew=[welder], hazards=[hot])

    assert found() == {"no certificate": ["c/weld"]}
    assert found(Certificate("hot work", date(2026, 6, 1))) == {"certificate lapses": ["c/weld"]}
    assert found(Certificate("hot work", date(2026, 12, 1))) == {}


def test_supplies_not_ordered_in_time_are_asked_about() -> None:
    weeks = parse_duration("6 weeks")
    supplies = [
        Supply("now", "Now", lead_time=weeks),
        Supply("later", "Later", lead_time=weeks),
        Supply("when", "When"),
        Supply("late", "Late", due=date(2026, 4, 1)),
        Supply("spare", "Spare"),
        Supply("stock", "Stock", in_stock=True),
    ]
    explained = hold("bend set", "3 months")._replace(note="the book")
    tasks = _chain(
        task("c/a", RANGE, supplies=("now", "stock"), hold=explained),
        task("c/b", RANGE, supplies=("later", "when", "late")),
    )
    found = _rules(*tasks, supplies=supplies)
    assert found == {
        "order late": ["now"],
        "delivery overdue": ["late"],
        "no lead time": ["when"],
        "needed nowhere": ["spare"],
    }
    ordered = logbook((FIRST_SATURDAY, Ordered("now", date(2026, 6, 1))))
    of = plan(tasks, supplies=supplies, crew=[ADA])
    asked = _asked(of, ordered, datetime(2026, 5, 2, 10))
    assert not any(q.id == "now" for q in asked)


def test_dates_that_cannot_be_kept_are_asked_about() -> None:
    tasks = _chain(task("c/a", RANGE, hold=hold("dry", "3 days")), task("c/b", RANGE))
    late = tasks[1]._replace(due=date(2026, 5, 10))
    asked = _asked(plan([tasks[0], late], crew=[ADA]))
    assert [(q.rule, q.id, q.key) for q in asked] == [("date cannot be kept", "c/b", "due")]
    assert "before Sat 16 May 2026" in asked[0].says
    future = task("c/c", RANGE, finished=date(2027, 1, 1), after=("c/a",))
    assert "finished in the future" in {q.rule for q in _asked(plan([tasks[0], future]))}


def test_what_waits_behind_a_task_set_aside_is_asked_about() -> None:
    tasks = _chain(task("c/a", RANGE), task("c/b", RANGE))
    log = logbook((FIRST_SATURDAY, SetAside("c/a", "no wood")))
    asked = _asked(plan(tasks, crew=[ADA]), log, datetime(2026, 5, 2, 10))
    assert [(q.rule, q.id) for q in asked] == [("blocked by what is set aside", "c/a")]


def test_a_plan_without_work_days_is_asked_about() -> None:
    assert _rules(task("c/a", RANGE), work_days=WorkDays()) == {"no work days": [""]}


def test_finished_work_is_left_in_peace() -> None:
    of = plan(
        [task("c/a", None, skills=("gilding",)), task("c/b", RANGE, after=("c/a",))], crew=[ADA]
    )
    log = logbook((FIRST_SATURDAY, Finished("c/a")))
    assert _asked(of, log, datetime(2026, 5, 2, 10)) == []
