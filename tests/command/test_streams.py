"""Output never lies about keeping: whatever becomes of the streams, what was kept ends with 0, and
what was not never does."""

from __future__ import annotations

import os
import shlex
import shutil
from pathlib import Path

import pytest

from crewboard.command.catalogue import WRITING, all_commands, chapters
from crewboard.command.exits import Exit
from crewboard.command.run import command_of
from tests.command.calling import SAMPLE
from tests.command.faulty_streams import FAULTS, call, state
from tests.long_form import LONG

pytestmark = pytest.mark.skipif(not os.path.exists("/dev/full"), reason="needs a full device")

COPY = "days/2026/2026-04-25 (copy of the laptop).toml"
# Every command that writes, as it is called in the sample: those of the logbook and the plan by the
# first example of their help.
WRITES = {
    **{
        name: shlex.split(command_of(name).examples[0])[1:]
        for chapter in (WRITING, "Change the plan")
        for name in chapters()[chapter]
    },
    "new": ["new", "another"],
    "findings": ["findings", ".", "--from", "dictated.txt", "--do-it"],
    "fold": ["fold", ".", "--do-it"],
    "came": ["came", ".", "--do-it"],
    "restore": ["restore", ".", "2026-05-02", "--do-it"],
    "report": ["report", "day", ".", "--to", "day.txt"],
    "screenshot": ["screenshot", ".", "--out", "day.svg", "--size", "80x24"],
    "forecast": ["forecast", ".", "--short", "--runs", "3", "--svg", "finish.svg"],
}
# What has to be there before: only the day's first entry makes the copy that is brought back.
BEFORE = {
    "undo": "note . wrong --by mirela",
    "restore": "note . first",
    "undone": 'temporary . "props under the ridge" --component roof',
    "from-finding": "found . 'old screw holes, puttied'",
}
ERRORS = ("", "full", "closed")
# Every command that only looks, and how those are called that need more than the folder.
LOOKS = [
    *sorted(set(all_commands()) - set(WRITES)),
    "report",
    "forecast",
    "fold",
    "came",
    "restore",
    "",
]
LOOKED = {
    "": ["."],
    "task": ["task", ".", "front-brakes"],
    "why": ["why", ".", "lay-boards"],
    "then": ["then", ".", "lay-boards"],
    "plan-keys": ["plan-keys"],
    "plan-day": ["plan-day", ".", "--seconds", "0"],
    "report": ["report", "day", "."],
    "forecast": ["forecast", ".", "--short", "--runs", "3"],
    "restore": ["restore", ".", "2026-05-02"],
}


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the sample is."""
    monkeypatch.delenv("CREWBOARD_BY", raising=False)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.chdir(tmp_path)
    return tmp_path / "sample_project"


def fresh(folder: Path, name: str) -> Path:
    """The sample as it is before the command is called."""
    os.chdir(folder.parent)
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(SAMPLE, folder)
    os.chdir(folder)
    if name in BEFORE:
        assert call(shlex.split(BEFORE[name])).code == 0
    if name == "restore":
        (copy,) = (folder / ".crewboard/copies").iterdir()  # of the real day
        copy.rename(copy.with_name("2026-05-02.zip"))
        shutil.rmtree(folder / "components")
    if name == "came":
        file = folder / "components/frame.toml"  # a crack that was found that day
        file.write_text(file.read_text().replace("added = 2025-03-15", 'finding = "bmrrrept"'))
    if name == "fold":
        original = (folder / "days/2026/2026-04-25.toml").read_text(encoding="utf-8")
        line = 'zz7zz7zz = { at = 2026-04-25T09:10:00, kind = "note", text = "a line of hers" }\n'
        (folder / COPY).write_text(original + line, encoding="utf-8")
    return folder


def chosen(number: int) -> list[tuple[str, str]]:
    """The faults of both streams that are tried on a command: a part of them in the short form."""
    pairs = [(out, err) for out in FAULTS for err in ("", "closed", "gone", "full")]
    return pairs if LONG else [pairs[5 * number % len(pairs)]]


@pytest.mark.parametrize("name", WRITES)
def test_what_was_kept_ends_well_and_is_said_on_the_other_stream(name: str, shop: Path) -> None:
    for out, err in chosen(list(WRITES).index(name)):
        folder = fresh(shop, name)
        before = state(folder)
        ended = call(WRITES[name], out, err)
        after = state(folder)
        assert after != before, (out, err, ended)
        unseen = name == "forecast" and FAULTS[out].wanted  # its dates were to be seen
        assert ended.code == (Exit.DISK if unseen else Exit.FINE), (out, err, ended)
        if not err:
            assert "Traceback" not in ended.err
            assert "saved all the same:\n" in ended.err or "written to" in ended.err
            if name in ("restore", "new"):
                new = after.keys() - before.keys()
                assert all(path.removeprefix("another/") in ended.err for path in new)


@pytest.mark.parametrize("name", WRITES)
def test_what_was_not_kept_never_ends_well(name: str, shop: Path) -> None:
    for out, err in chosen(list(WRITES).index(name)):
        folder = fresh(shop, name)
        vehicle = folder / "vehicle.toml"  # of a newer program: it is only shown
        vehicle.write_text(vehicle.read_text().replace("format = 1\n", "format = 99\n"))
        for there in ("day.txt", "day.svg", "finish.svg"):
            (folder / there).write_text("not to be written over")
        before = state(folder)
        ended = call(["new", "."] if name == "new" else WRITES[name], out, err)
        assert state(folder) == before
        assert ended.code in (Exit.REFUSED, Exit.DISK), (out, err, ended)
        if not err:
            assert ended.err.strip()
            assert "Traceback" not in ended.err
            assert "saved all the same" not in ended.err


@pytest.mark.parametrize("name", LOOKS)
def test_a_look_that_nobody_reads_ends_quietly_and_one_that_cannot_be_written_says_so(
    name: str, shop: Path
) -> None:
    typed = LOOKED.get(name, [name, "."])
    folder = fresh(shop, name)
    before = state(folder)
    usual = call(typed)
    assert "Traceback" not in usual.err
    first = LOOKS.index(name)
    for turn, (fault, (_, wanted)) in enumerate(FAULTS.items(), first):
        if not LONG and turn % 2 == first // len(FAULTS) % 2:
            continue  # every other one: half of the looks have the others
        lost = wanted and bool(usual.out)
        for err in ERRORS if LONG else (ERRORS[turn % len(ERRORS)],):
            ended = call(typed, fault, err)
            assert ended.code == (Exit.DISK if lost and usual.code == 0 else usual.code)
            if not err:
                more = ended.err.removeprefix(usual.err)
                assert more.count("\n") == lost, more
                assert more.startswith("crewboard: standard output: " if lost else "")
    assert state(folder) == before
