"""Which files of tests took longest, said at the end of a run of nearly all of them."""

from __future__ import annotations

from operator import itemgetter

import pytest

MOST, MANY = 10, 1000
PHASES = ("passed", "failed", "error", "")  # the last: what was made ready and put away again


def slowest_files(reporter: pytest.TerminalReporter) -> list[str]:
    """A line each, in seconds of one worker; nothing where only some tests were run."""
    seconds, tests = dict[str, float](), 0
    for phase in PHASES:
        for report in reporter.stats.get(phase, ()):
            if isinstance(report, pytest.TestReport):
                file = report.nodeid.partition("::")[0]
                seconds[file] = seconds.get(file, 0.0) + report.duration
                tests += report.when == "call"
    if tests < MANY:
        return []
    longest = sorted(seconds.items(), key=itemgetter(1), reverse=True)
    whole = f"{tests} tests took {sum(seconds.values()):.0f} s of work; the longest of their files:"
    return [whole, *(f"{took:6.1f} s  {file}" for file, took in longest[:MOST])]
