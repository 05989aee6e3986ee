"""The same facts before and after, and the same sentences on a screen and from a command."""

from __future__ import annotations

import json

import pytest

from tests.telling.facts import STORED, Facts, facts

SAMPLE_CHANGED = "where the sample itself was changed: tests/telling/facts.py says what to do"


@pytest.fixture(scope="module")
def before() -> Facts:
    stored: Facts = json.loads(STORED.read_text(encoding="utf-8"))
    return stored


@pytest.fixture(scope="module")
def now() -> Facts:
    return facts()


@pytest.mark.parametrize("subject", ["day", "holds"])
def test_day_and_holds_tell_the_facts_that_they_always_told(
    subject: str, before: Facts, now: Facts
) -> None:
    moments = [each for each in before if each.startswith("20")]
    assert len(moments) == 4
    for moment in moments:
        assert now[moment][subject] == before[moment][subject], SAMPLE_CHANGED


def test_the_log_tells_the_facts_that_it_always_told(before: Facts, now: Facts) -> None:
    assert now["log"] == before["log"], SAMPLE_CHANGED


def test_why_leaves_out_no_reason_that_it_always_told(before: Facts, now: Facts) -> None:
    """It has come to name more: the holds that stand before a task which waits for work too."""
    assert now["why"].keys() == before["why"].keys(), SAMPLE_CHANGED
    for task, reasons in before["why"].items():
        told = now["why"][task].split()
        assert set(reasons.split()) <= set(told), task
        assert all(each.startswith("hold:") for each in set(told) - set(reasons.split())), task
