"""The same work on several pieces begun together by one party: they are on all of it, and none of
it is other work to them. Common practice, no source: a crew strips three sashes side by side."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell, open_shop
from tests.terminal.shop import make_shop

SASHES = """\
name = "Windows"

[pieces.sashes]
name = "Sash"
count = 4

[tasks.strip]
title = "Strip"
each = ["sashes"]
hazards = ["lead-paint"]
place = "tent"
hours = 2
"""
AT = ("--at", "2026-05-02T09:30", "--by", "ada")
LATER = ("--at", "2026-05-02T09:40", "--by", "ada")
BOTH = ("--who", "ada", "--who", "ben")


@pytest.fixture
def shop(tmp_path: Path, call: Shell) -> Path:
    """Ada and Ben have the papers for lead, and every check of the sashes is signed."""
    root = make_shop(tmp_path / "van", components={"windows": SASHES})
    crew = root / "crew.toml"
    papers = 'certificates = { "fit test" = 2027-01-31 }'
    text = crew.read_text().replace('certificates = { "hot work" = 2027-01-31 }', papers)
    crew.write_text(text.replace('name = "Ben Holt"\n', f'name = "Ben Holt"\n{papers}\n'))
    assert call("sign-in", root, "ada", "ben", "dov", "--at", "2026-05-02T09:00").code == 0
    open_shop(call, root, "--at", "2026-05-02T09:05")
    sheet = call("task", root, "strip/sashes/1", "--at", "2026-05-02T09:10", "--json").form
    for check in sheet["checks"]:
        if check["when"] == "before":
            who = ("--for", check["who"]) if check["who"] else ()
            for number in (1, 2, 3, 4):
                words = (f"strip/sashes/{number}", f"{check['hazard']}/{check['check']}", *who)
                call("sign", root, *words, "--who", "ada", "--at", "2026-05-02T09:20")
    return root


def began(call: Shell, shop: Path) -> list[str]:
    tasks = call("day", shop, "--at", "2026-05-02T09:50", "--json").form["tasks"]
    return [task["id"] for task in tasks if task["state"] == "under way"]


def test_two_sashes_are_begun_together_in_a_place_that_the_work_closes(
    call: Shell, shop: Path
) -> None:
    begun = call("begin", shop, "strip/sashes/1-2", *BOTH, *AT)
    assert begun.code == 0, begun.err
    assert began(call, shop) == ["windows/strip/sashes/1", "windows/strip/sashes/2"]


def test_others_are_kept_out_of_that_place(call: Shell, shop: Path) -> None:
    assert call("begin", shop, "strip/sashes/1-2", *BOTH, *AT).code == 0
    refused = call("begin", shop, "strip/sashes/3", "--who", "dov", *LATER)
    assert refused.code == 1
    assert "tent" in refused.err


def test_whoever_begins_another_sash_later_leaves_those_before(call: Shell, shop: Path) -> None:
    assert call("begin", shop, "strip/sashes/1-2", *BOTH, *AT).code == 0
    refused = call("begin", shop, "strip/sashes/3", *BOTH, *LATER)
    assert refused.code == 1, "the place is closed by the two sashes that still go on"
