"""What a review asks: a rule, whom it is about, what to do. Rules with their sources."""

from __future__ import annotations

from typing import Literal, NamedTuple

from crewboard.plan.hazard import Mark

About = Literal["task", "component", "supply", "vehicle"]


class Rule(NamedTuple):
    """Where a rule comes from, and how surely that was read."""

    source: str
    mark: Mark


_GAO = "GAO-16-89G, Schedule Assessment Guide (2015), best practice"
_DCMA = "DCMA-EA PAM 200.1 (2012), section 4, point"

# By the word that names the rule.
RULES: dict[str, Rule] = {
    "stands alone": Rule(f"{_GAO} 2 (sequence all); {_DCMA} 1 (logic)", "second-hand"),
    "loose in its component": Rule(f"{_GAO} 2 (sequence all); {_DCMA} 1 (logic)", "second-hand"),
    "many open ends": Rule(f"{_DCMA} 1 (at most 5 % without what follows)", "second-hand"),
    "nothing to do": Rule(f"{_GAO} 1 (capture all)", "second-hand"),
    "component stands alone": Rule(f"{_GAO} 2 (sequence all)", "second-hand"),
    "follows anyway": Rule("redundant links; common sense", "common practice"),
    "long hold": Rule("longest plausible time of each kind; common sense", "common practice"),
    "follows too soon": Rule("common sense: it could never be in time", "common practice"),
    "hold without a reason": Rule(
        f"{_DCMA} 3 (lags justified), {_GAO} 2; taken over for waits of over two weeks",
        "second-hand",
    ),
    "no estimate": Rule(f"{_GAO} 4 (establish durations)", "second-hand"),
    "no range": Rule(f"{_GAO} 8 (three-point estimates, risk)", "second-hand"),
    "long task": Rule(
        f"{_DCMA} 8 (44 working days), from memory; here: over six work days of the crew",
        "from memory",
    ),
    "no such skill": Rule(f"{_GAO} 3 (assign resources)", "second-hand"),
    "too few people": Rule(f"{_GAO} 3 (assign resources)", "second-hand"),
    "no certificate": Rule(f"{_GAO} 3 (assign resources)", "second-hand"),
    "certificate lapses": Rule(f"{_GAO} 3 (assign resources)", "second-hand"),
    "order late": Rule(f"{_GAO} 1 and 2 (deliveries are part of the order)", "second-hand"),
    "no lead time": Rule(f"{_GAO} 4 (establish durations)", "second-hand"),
    "delivery overdue": Rule(f"{_GAO} 9 (update with what is so)", "second-hand"),
    "needed nowhere": Rule("common sense", "common practice"),
    "date cannot be kept": Rule(f"{_DCMA} 7 (negative float: none), from memory", "from memory"),
    "finished in the future": Rule(f"{_DCMA} 9 (dates), from memory", "from memory"),
    "blocked by what is set aside": Rule(f"{_GAO} 6 (valid critical path)", "second-hand"),
    "kept for ever": Rule("what is kept as evidence is not worked on", "common practice"),
    "too few pieces": Rule(f"{_GAO} 6 (valid critical path)", "second-hand"),
    "more than there are": Rule("common sense: it would never be so", "common practice"),
    "work on no piece": Rule(f"{_GAO} 2 (sequence all)", "second-hand"),
    "spares nobody makes": Rule("common sense", "common practice"),
    "jig nothing uses": Rule("common sense", "common practice"),
    "hidden faces first": Rule(
        "hidden faces before shown faces, and before what covers them", "common practice"
    ),
    "in one go, and too long": Rule(f"{_GAO} 4 (establish durations)", "second-hand"),
    "no work days": Rule(f"{_GAO} 4 (calendars)", "second-hand"),
}


class Question(NamedTuple):
    """Something in the plan that may be wrong. `id` is empty where it is about the vehicle, or the
    name of one of its jigs; of the same work on several pieces it is that of the series.

    `key` is the key of the table that it is about ("after", "hold"), empty for the whole table.
    `do` says what to do.
    """

    rule: str
    about: About
    id: str
    says: str
    do: str
    key: str = ""

    @property
    def source(self) -> Rule:
        return RULES[self.rule]
