"""What `day`, `why`, `holds` and `log` tell of the sample, as facts and not as words.

`sample_facts.json` beside it was written by an earlier program: by that before its words were told
in one room until the sample had pieces, which that one cannot read, and since then by the first
that can read all of it. Where the sample itself is changed, let that program write it anew:

    git archive 557262b crewboard | tar -x -C /tmp/before
    PYTHONPATH=/tmp/before python tests/telling/facts.py > tests/telling/sample_facts.json

Kinds of entries that came later ("stopped", those of the record) are counted in it by hand, as is
the approval that is awaited for the shade, and
what was done to a piece that failed is left out of the reasons: nobody waits for it where the
others are enough. What that
program called "held" is "on hold", "waiting" or "needs supplies": that word alone was written anew,
with all that stands behind it as it was.
"""

from __future__ import annotations

import contextlib
import io
import json
from collections import Counter
from pathlib import Path
from typing import Any

from crewboard.command.run import main

SAMPLE = Path(__file__).parent.parent.parent / "sample_project"
STORED = Path(__file__).parent / "sample_facts.json"
# A day with nobody there, a working Saturday early on, and the latest one from open to close.
MOMENTS = ("2025-06-24T12:00", "2026-02-07T11:30", "2026-05-02T09:00", "2026-05-02T15:30")

Facts = dict[str, Any]


def facts() -> Facts:
    """All of them, by moment and subject."""
    return {
        **{moment: {"day": _day(moment), "holds": _holds(moment)} for moment in MOMENTS},
        "why": _why(MOMENTS[-2]),
        "log": _log(),
    }


def _asked(*typed: str) -> Any:
    name, *rest = typed
    with contextlib.redirect_stdout(io.StringIO()) as out:
        main([name, str(SAMPLE), *rest, "--json"])
    return json.loads(out.getvalue())


def _day(moment: str) -> Facts:
    form = _asked("day", "--at", moment)
    return {
        "open": form["open"],
        "here": [each["who"] for each in form["here"]],
        "coming": {each["who"]: each["coming"] for each in form["expected"]},
        "behind": {each["task"]: [each["behind"], each["lets_go"]] for each in form["first"]},
        "tasks": {each["id"]: _standing(each) for each in form["tasks"]},
        "leave_alone": form["leave_alone"],
    }


def _standing(task: Facts) -> str:
    """As one line: state, when it ends, what holds it, what is missing, the hours."""
    told = [task["state"], task["until"], *task["holds"], *task["short_of"], task["hours"]]
    return " ".join(str(each) for each in told if each)


def _holds(moment: str) -> Facts:
    keys = ("kind", "task", "component", "since", "until", "stage", "leave_alone")
    form = _asked("holds", "--all", "--at", moment)
    return {each["id"]: " ".join(str(each[key]) for key in keys) for each in form["holds"]}


def _why(moment: str) -> Facts:
    """Of each task that is not finished, what its chain of reasons is about; roots are starred."""
    tasks = [task for task in _asked("day", "--at", moment)["tasks"] if not task["finished"]]
    return {task["id"]: _reasons(task["id"], moment) for task in tasks}


def _reasons(task: str, moment: str) -> str:
    reasons = _asked("why", task, "--at", moment)["reasons"]
    told = {f"{each['about']}:{each['id']}{'*' if each['root'] else ''}" for each in reasons}
    return " ".join(sorted(told))


def _log() -> Facts:
    """By day, how many entries of each kind, and which of them do not count and by what line."""
    days: dict[str, Counter[str]] = {}
    struck = {}
    for entry in _asked("log")["entries"]:
        days.setdefault(entry["day"], Counter())[entry["kind"]] += 1
        if not entry["counts"]:
            struck[entry["id"]] = entry["fate"]
    return {"entries": {day: dict(sorted(kinds.items())) for day, kinds in days.items()}} | {
        "struck": struck
    }


if __name__ == "__main__":
    print(json.dumps(facts(), indent=0))
