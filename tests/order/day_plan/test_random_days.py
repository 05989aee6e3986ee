"""Random days with all that a shop's files can say: sound by separate code, lived with nobody
refused, kept when something changes, and worth nearly what another formulation finds.

`CREWBOARD_LONG=1 pytest -s` goes through 200 days and prints the figures.
"""

from __future__ import annotations

from collections.abc import Iterator
from statistics import mean, median
from typing import get_args

import pytest

from crewboard.order.day_plan.following import as_it_can_be_followed
from crewboard.order.day_plan.jobs import shop_day
from crewboard.order.day_plan.lead import as_led
from crewboard.order.day_plan.plain_rule import by_plain_rule
from crewboard.order.day_plan.plan_day import plan_day
from tests.long_form import LONG
from tests.order.day_plan.changed_days import What, changed_day, made_anew, pairs
from tests.order.day_plan.feasible import violations
from tests.order.day_plan.living import Living
from tests.order.day_plan.random_days import full_day
from tests.order.day_plan.time_indexed import best_of

DAYS = 200 if LONG else 10
EFFORT = 0.4 if LONG else 0.2


@pytest.mark.parametrize("effort", [0.0, EFFORT], ids=["plain rule", "solver"])
def test_each_keeps_every_rule_and_nobody_is_refused(effort: float) -> None:
    if effort:
        pytest.importorskip("ortools")
    seen = {"watch": 0, "small": 0, "learning": 0, "looks": 0, "breaks": 0}
    for seed in range(DAYS):
        on, wish = full_day(seed)
        found = plan_day(on, wish, effort)
        assert violations(on, wish, found) == [], seed
        assert Living(on, found).live() == [], seed
        assert found.value <= found.bound
        seen["watch"] += any(each.watch for each in found.placed)
        seen["small"] += bool(found.small)
        seen["learning"] += any(each.learning for each in found.placed)
        seen["looks"] += any(each.looks for each in found.placed)
        seen["breaks"] += any(
            each.start < pause.start < each.end for each in found.placed for pause in found.pauses
        )
    print(f"\n{DAYS} days at effort {effort}: with {seen}")
    assert all(seen.values()) or not LONG


def test_asked_twice_or_five_minutes_later_it_is_the_same_plan() -> None:
    for seed in range(DAYS):
        on, wish = full_day(seed)
        first = plan_day(on, wish, 0)
        assert plan_day(on, wish, 0) == first
        again = plan_day(on, wish, 0, first.placed)
        assert {(p.task, p.people) for p in again.placed} >= {
            (p.task, p.people) for p in first.placed if not again.changes
        }


@pytest.mark.parametrize("effort", [0.0, EFFORT], ids=["plain rule", "solver"])
@pytest.mark.parametrize("what", get_args(What))
def test_a_running_plan_is_kept_as_far_as_it_is_worth(what: What, effort: float) -> None:
    if effort:
        pytest.importorskip("ortools")
    found = list(_kept(what, effort, DAYS if LONG else 3 if effort else 5))
    worth, free, kept, changes = zip(*found, strict=True)
    print(
        f"\n{what}, effort {effort}, {len(found)} days: worth {median(worth):.3f} of a plan made "
        f"anew in the middle, {min(worth):.3f} at least, "
        f"{sum(w < 0.99 for w in worth)} below 0.99; "
        f"{median(free):.3f} of one that also moves what people have begun; "
        f"pairs kept {mean(kept):.2f} in the mean, {median(kept):.2f} in the middle; "
        f"{mean(changes):.1f} changes"
    )
    # Whatever is kept, it is held against the plan made anew with the same effort.
    assert min(worth) >= 0.99
    if what in ("walks in", "nothing"):
        assert mean(kept) >= 0.75


def _kept(what: What, effort: float, days: int) -> Iterator[tuple[float, float, float, int]]:
    for seed in range(days):
        changed = changed_day(seed, what, effort)
        board, wish, running = changed.board, changed.wish, changed.plan.placed
        old = pairs(running, board, wish.people)
        if not old:
            continue
        plan = plan_day(board, wish, effort, running)
        assert violations(board, wish, plan, running) == [], seed
        # Of what nobody is left to go on with the door asks, whatever whoever was on it begins.
        lived = (says for says in Living(board, plan).live() if "left half done" not in says)
        assert list(lived) == [], seed
        anew = made_anew(changed, effort, with_begun=True)
        free = made_anew(changed, effort, with_begun=False)
        share = len(old & pairs(plan.placed, board, wish.people)) / len(old)
        yield plan.value / max(1, anew), plan.value / max(1, free), share, len(plan.changes)


def test_another_formulation_finds_next_to_nothing_better() -> None:
    pytest.importorskip("ortools")
    shares, plain_shares, best_at_all = [], [], 0
    for seed in range(DAYS if LONG else 6):
        on, wish = full_day(seed)
        day = shop_day(on, wish)
        plain = by_plain_rule(day)
        led = as_led(as_it_can_be_followed(day, plain), plain)
        decided = {s.job for s in plain if day.jobs[s.job].fixed or day.jobs[s.job].goes_on}
        jobs = tuple(  # what the lead fixed and can be done is done, whatever it is worth
            job._replace(must=max(1, job.must)) if n in decided else job
            for n, job in enumerate(led.jobs)
        )
        best = best_of(led._replace(jobs=jobs), 3.0)
        if best is None or not best.value:
            continue
        value = plan_day(on, wish, EFFORT).value
        assert value <= best.bound + 1e-6, seed
        shares.append(value / best.value)
        plain_shares.append(plan_day(on, wish, 0).value / best.value)
        best_at_all += best.value >= best.bound - 1e-6
    print(
        f"\n{len(shares)} days, {best_at_all} of which proven: the solver's plan is worth "
        f"{median(shares):.3f} of the time-indexed one in the middle, {min(shares):.3f} at least, "
        f"the plain rule's {median(plain_shares):.3f} and {min(plain_shares):.3f}"
    )
    assert median(shares) >= 0.97
    assert min(shares) >= 0.9
