"""What cannot be read is a hold: it is said first, and nothing that it may hold back begins."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Ended, Shell
from tests.folder.a_vehicle import FILES

DAY = "days/2026/2026-05-02.toml"
FRAME = "components/frame.toml"
AT = ("--at", "2026-05-16T10:00")
WAYS = ("broken", "empty", "blank", "cut off", "a folder", "a link to nowhere", "gone")
BODY = """\
name = "Body"

[tasks.wash]
title = "Wash the panels"

[tasks.strip]
title = "Strip the paint"
hazards = ["lead-paint"]

[tasks.fit]
title = "Fit the panels"
after = ["frame/scrape"]

[tasks.oil]
title = "Oil the hinges"
supplies = ["oak"]
"""


@pytest.fixture
def shop(van: Path) -> Path:
    """The van, with a component that nothing comes after; oak is here."""
    (van / "components/body.toml").write_text(BODY, encoding="utf-8")
    supplies = FILES["supplies.toml"] + "in_stock = true\n"
    (van / "supplies.toml").write_text(supplies, encoding="utf-8")
    return van


def damage(van: Path, file: str, how: str) -> None:
    path = van / file
    text = path.read_text(encoding="utf-8")
    path.unlink()
    match how:
        case "broken":
            path.write_text(f"{text}x = = 3\n", encoding="utf-8")
        case "empty":
            path.touch()
        case "blank":
            path.write_text(" \n\n", encoding="utf-8")
        case "cut off":
            path.write_text(text[: text.rindex('"')], encoding="utf-8")
        case "a folder":
            path.mkdir()
        case "a link to nowhere":
            path.symlink_to(van / "nowhere.toml")


def ready(day: Ended) -> set[str]:
    return {task["id"] for task in day.form["tasks"] if task["state"] == "ready"}


def begin(call: Shell, van: Path, task: str, *more: str) -> Ended:
    return call("begin", van, task, "--who", "ada", *AT, *more)


def test_all_of_it_is_ready_while_everything_can_be_read(shop: Path, call: Shell) -> None:
    assert ready(call("day", shop, *AT, "--json")) == {
        *("body/wash", "body/strip", "body/oil", "body/fit"),
    }
    assert call("day", shop, *AT, "--json").form["unreadable"] == []


@pytest.mark.parametrize("how", WAYS)
@pytest.mark.parametrize("file", ["crew.toml", DAY, "vehicle.toml", FRAME, "supplies.toml"])
def test_a_file_that_cannot_be_read_makes_nothing_ready_and_is_named_first(
    shop: Path, call: Shell, file: str, how: str
) -> None:
    if (file, how) in ((DAY, "gone"), ("vehicle.toml", "gone"), ("vehicle.toml", "a folder")):
        pytest.skip("nobody who looks for the first time knows of it; no vehicle's folder")
    before = ready(call("day", shop, *AT, "--json"))
    damage(shop, file, how)
    day = call("day", shop, *AT, "--json")
    assert ready(day) <= before
    concerned = {"supplies.toml": {"body/oil"}, FRAME: {"body/fit", "body/oil"}}
    assert not ready(day) & concerned.get(file, before)
    assert file in [unread["file"] for unread in day.form["unreadable"]]
    lines = call("day", shop, *AT).out.splitlines()
    assert lines[1].startswith("ON HOLD: ")
    named = "Sat 2 May 2026" if file == DAY else file
    assert lines[1].startswith(f"ON HOLD: {named} cannot be read:"), lines[1]


def test_a_sound_component_goes_on_while_another_cannot_be_read(shop: Path, call: Shell) -> None:
    damage(shop, FRAME, "broken")
    assert ready(call("day", shop, *AT, "--json")) == {"body/wash", "body/strip"}


def test_work_that_may_be_held_back_begins_only_when_a_lead_answers_for_it(
    shop: Path, call: Shell
) -> None:
    damage(shop, DAY, "broken")
    refused = begin(call, shop, "wash")
    assert refused.code == 1
    assert '"Wash the panels" may be held back: Sat 2 May 2026 cannot be read' in refused.err
    assert "let a lead (Ada Test)" in refused.err
    assert begin(call, shop, "wash", "--despite", "I know the day", "--by", "tom").code == 1
    kept = begin(call, shop, "wash", "--despite", "I know the day", "--by", "ada")
    assert kept.code == 0, kept.err
    assert "I know the day" in (shop / "days/2026/2026-05-16.toml").read_text(encoding="utf-8")


def test_without_the_crew_nobody_can_answer_for_work(shop: Path, call: Shell) -> None:
    damage(shop, "crew.toml", "broken")
    refused = call("begin", shop, "wash", *AT, "--despite", "all the same", "--by", "ada")
    assert refused.code != 0
    assert not (shop / "days/2026/2026-05-16.toml").exists()


def test_why_names_the_file(shop: Path, call: Shell) -> None:
    damage(shop, DAY, "broken")
    told = call("why", shop, "wash", *AT).out
    assert "Sat 2 May 2026 cannot be read: line 12" in told
    assert DAY in told
    day = call("day", shop, *AT).out
    assert "On hold: Sat 2 May 2026 cannot be read" in day


@pytest.mark.parametrize("how", ["broken", "gone"])
def test_a_crews_own_sheet_that_cannot_be_read_keeps_its_tasks_shut(
    shop: Path, call: Shell, how: str
) -> None:
    sheet = '[swarf]\nname = "Swarf"\nharm = ["cuts"]\n'
    (shop / "hazards.toml").write_text(sheet, encoding="utf-8")
    body = BODY.replace('title = "Wash', 'hazards = ["swarf"]\ntitle = "Wash')
    (shop / "components/body.toml").write_text(body, encoding="utf-8")
    damage(shop, "hazards.toml", how)
    day = call("day", shop, *AT, "--json")
    assert "body/wash" not in ready(day)
    assert begin(call, shop, "wash").code == 1


@pytest.mark.parametrize(
    ("good", "bad"),
    [
        ('hazards = ["lead-paint"]', 'hazrads = ["lead-paint"]'),
        ('hazards = ["lead-paint"]', 'hazards = "lead", "paint"'),
        ('title = "Strip the paint"', 'title = "Strip the paint"\nafter = ["wahs"]'),
        ('title = "Strip the paint"', 'title = "Strip the paint"\nhold = 3'),
    ],
)
def test_a_task_of_which_a_part_cannot_be_read_is_not_ready(
    shop: Path, call: Shell, good: str, bad: str
) -> None:
    (shop / "components/body.toml").write_text(BODY.replace(good, bad), encoding="utf-8")
    assert "body/strip" not in ready(call("day", shop, *AT, "--json"))


def test_an_entry_that_cannot_be_read_may_have_held_work_back(shop: Path, call: Shell) -> None:
    text = FILES[DAY].replace('kind = "extended"', 'kind = "extendde"')
    (shop / DAY).write_text(text, encoding="utf-8")
    day = call("day", shop, *AT, "--json")
    assert not ready(day)
    assert day.form["unreadable"][0]["says"].startswith("Sat 2 May 2026 cannot be read: line 9")


def test_a_note_that_cannot_be_read_holds_nothing_back(shop: Path, call: Shell) -> None:
    line = 'zzzzzzzz = { at = 2026-05-02T16:00:00, by = "ada", kind = "note", txt = "cold" }\n'
    (shop / DAY).write_text(FILES[DAY] + line, encoding="utf-8")
    assert "body/wash" in ready(call("day", shop, *AT, "--json"))


OILED = "days/2026/2026-05-09.toml"


@pytest.fixture
def oiled(shop: Path) -> Path:
    """The hinges were oiled on 2 May; on 9 May somebody gave them until 30 May to dry."""
    dry = 'title = "Oil the hinges"\nhold = { kind = "dry", lasts = "3 days", release = "time" }'
    body = BODY.replace('title = "Oil the hinges"', dry)
    body += '\n[tasks.hang]\ntitle = "Hang the doors"\nafter = ["oil"]\n'
    (shop / "components/body.toml").write_text(body, encoding="utf-8")
    finished = (
        'f0000001 = { at = 2026-05-02T15:30:00, by = "ada", kind = "finished", '
        'task = "body/oil" }\n'
    )
    (shop / DAY).write_text(FILES[DAY] + finished, encoding="utf-8")
    (shop / OILED).write_text(
        'date = 2026-05-09\n\n[entries]\ne0000001 = { at = 2026-05-09T10:00:00, by = "ada", '
        'kind = "extended", hold = "f0000001", until = 2026-05-30T10:00:00, why = "damp" }\n',
        encoding="utf-8",
    )
    return shop


def holds(call: Shell, van: Path) -> dict[str, dict[str, object]]:
    return {hold["id"]: hold for hold in call("holds", van, *AT, "--json").form["holds"]}


@pytest.mark.parametrize("how", WAYS[:-1])
def test_a_hold_that_a_broken_day_may_have_made_longer_does_not_end(
    oiled: Path, call: Shell, how: str
) -> None:
    assert holds(call, oiled)["f0000001"]["until"] == "2026-05-30T10:00:00"
    damage(oiled, OILED, how)
    hold = holds(call, oiled)["f0000001"]
    assert (hold["stage"], hold["until"]) == ("running", None)
    assert hold["not_before"] == "2026-05-05T15:30:00"
    assert "nobody knows until when: Sat 9 May 2026 cannot be read" in " ".join(
        call("holds", oiled, *AT).out.split()
    )
    task = next(
        t for t in call("day", oiled, *AT, "--json").form["tasks"] if t["id"] == "body/hang"
    )
    assert task["state"] == "waiting"


def test_a_hold_in_doubt_is_let_go_only_with_the_reason(oiled: Path, call: Shell) -> None:
    damage(oiled, OILED, "broken")
    refused = call("release", oiled, "f0000001", "--by", "ada", *AT)
    assert refused.code == 1
    kept = call("release", oiled, "f0000001", "--why", "dry to the touch", "--by", "ada", *AT)
    assert kept.code == 0, kept.err
