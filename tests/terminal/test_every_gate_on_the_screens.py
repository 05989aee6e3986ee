"""Each gate on the screens: what it refuses is said in the dialog, and nothing is written.

One hazard a gate, the days of `tests/safety_machine/scripts.py`: the last step of each is done on
the screens. All hazards against all gates are tried from the command line, by the same rules.
"""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

import pytest

from crewboard.logbook.entry import Said
from crewboard.workbench import Outcome, Workbench
from tests.safety_machine.books import read_log
from tests.safety_machine.gates import GATES
from tests.safety_machine.played import Played
from tests.safety_machine.scripts import SCRIPTS
from tests.terminal.shop import Watch, asked, open_app, until

# A signature that does not count leaves its check unsigned, which has its own row.
ON_SCREENS = tuple(gate for gate in GATES if gate not in ("signed_for_themselves", "is_waived"))


@pytest.mark.parametrize("gate", ON_SCREENS)
async def test_the_screens_refuse_it_and_say_why(
    gate: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    written: list[tuple[Sequence[Said], str, datetime]] = []
    record = Workbench.record

    def remembered(bench: Workbench, lines: Sequence[Said], *, by: str, now: datetime) -> Outcome:
        written.append((lines, by, now))
        return record(bench, lines, by=by, now=now)

    monkeypatch.setattr(Workbench, "record", remembered)
    *_, last = SCRIPTS[gate](Played(tmp_path))
    lines, by, now = written[-1]
    kept = len(read_log(tmp_path))
    app = open_app(tmp_path, Watch(now), by=by)
    async with app.run_test(size=(110, 36)) as pilot:
        task = asyncio.ensure_future(app.keep([one.act for one in lines]))
        try:
            first = " ".join(last.refused[0].says.split()[:4])
            await until(pilot, lambda: first.casefold() in asked(app).casefold())
            await pilot.press("escape")
            await until(pilot, lambda: not asked(app))
        finally:
            task.cancel()
    assert len(read_log(tmp_path)) == kept
