"""A day played at the workbench, looked over by the second reading after every step."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from crewboard.workbench import Workbench
from tests.safety_machine.books import Line, Plan, counting, read_log, read_plan
from tests.safety_machine.moments import Wrong
from tests.safety_machine.second_reading import (
    badly_closed,
    by_a_lead,
    everything_wrong,
    goes_on,
)
from tests.safety_machine.small_shop import Shop


class Played:
    """Two workbenches on one folder, and what the second reading has seen of it."""

    def __init__(self, root: Path) -> None:
        self.shop = Shop(root)
        self.benches = (Workbench(root), Workbench(root))
        assert self.benches[0].faults == []
        self.plans: dict[str, Plan] = {}  # line -> the plan as it stood when it was written
        self.read: list[Line] = []
        self.excused: set[Wrong] = set()

    def wrong(self, now: datetime) -> set[Wrong]:
        """What should not be, and is new: nobody who leads gave a reason for it, neither in the
        line itself nor in what was just written."""
        lines = read_log(self.shop.root)
        known = {line["id"] for line in self.read}
        new = [line for line in lines if line["id"] not in known]
        if not new:
            return set()
        plan = read_plan(self.shop.root)
        self.plans |= {line["id"]: plan for line in new}
        self.read = lines
        count = counting(lines)
        found = everything_wrong(count, self.plans)
        badly = set(badly_closed(count, self.plans)) - self.excused
        fresh = found - self.excused
        self.excused |= found | badly
        # A finish is always taken; what a lead said of earlier hours has their reason beside it.
        if all(line["kind"] == "finished" for line in new):
            return badly
        if any(by_a_lead(line, plan) for line in new):
            return badly
        ids = {line["id"] for line in new} | {line.get("replaces") for line in new}
        going = goes_on(count, self.plans, now)
        return badly | {one for one in fresh if one.line in ids or one.line in going}
