"""Hot work under way that no longer ends in time for its watch: the word comes at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.logbook.acts import SignIn
from crewboard.workbench import Said, Workbench
from tests.command.calling import Shell
from tests.terminal.shop import SATURDAY, make_shop

AT = ("--by", "ada", "--at", "2026-05-02T10:05")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """Ada welds and Ben watches, by whatever way that came about."""
    root = make_shop(tmp_path / "van")
    here = [Said(SignIn("ada"), SATURDAY), Said(SignIn("ben"), SATURDAY)]
    assert Workbench(root).record(here, by="ada", now=SATURDAY).kept
    file = root / "days/2026/2026-05-02.toml"
    (weld,) = [task for task in Workbench(root).plan.tasks if task.endswith("weld")]
    begun = f'kind = "begun", task = "{weld}", crew = ["ada"], watch = ["ben"]'
    file.write_text(file.read_text() + f"wwwwwww1 = {{ at = {SATURDAY.isoformat()}, {begun} }}\n")
    return root


def test_an_earlier_closing_says_at_once_that_the_fire_watch_no_longer_fits(
    shop: Path, call: Shell
) -> None:
    fits = call("hours-left", shop, "weld", "0.5", *AT)
    assert fits.code == 0
    assert "must end by" not in fits.out + fits.err
    earlier = call("open-until", shop, "11:15", *AT)
    assert earlier.code == 0
    assert '"Weld the bracket": hot work must end by 10:15' in earlier.out + earlier.err


def test_more_hours_to_go_say_at_once_that_the_fire_watch_no_longer_fits(
    shop: Path, call: Shell
) -> None:
    longer = call("hours-left", shop, "weld", "9", *AT)
    assert longer.code == 0
    assert '"Weld the bracket": hot work must end by 15:00' in longer.out + longer.err
