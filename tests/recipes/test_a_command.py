"""The recipe "A command" of DEVELOPERS.md, followed with a toy: one file and one line."""

from __future__ import annotations

import sys
from pathlib import Path
from types import ModuleType

import pytest

from crewboard.command import catalogue
from crewboard.command.catalogue import Listed
from tests.command.calling import Shell
from tests.folder.a_vehicle import make

# The file: crewboard/command/counting.py.
FILE = '''
"""`crewboard count-tasks`: how many tasks there are."""

from crewboard.command.exits import Exit, Refused
from crewboard.command.json_form import form_of
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command, Option


def _count_tasks(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    wanted = call.option("state")
    tasks = [each for each in board.standings.values() if wanted in ("", each.state)]
    if wanted and not tasks:
        raise Refused(f'no task is "{wanted}"', "look at the states with crewboard day")
    if call.given("json"):
        call.out.json(form_of("count-tasks", at=board.at, tasks=len(tasks)))
    else:
        call.out.line(f"{len(tasks)} tasks")
        call.out.talk("counted as things stand now")
    return Exit.FINE


count_tasks = Command(
    _count_tasks,
    "Counts the tasks, all of them or those that stand in one way.",
    (DIR,),
    (Option("state", "only these: ready, waiting ...", "STATE"), AT, JSON),
    ("crewboard count-tasks sample_project",),
)
'''
# The line in crewboard/command/catalogue.py.
LINE = {"count-tasks": Listed("counting", "how many tasks there are")}


@pytest.fixture
def toy(monkeypatch: pytest.MonkeyPatch) -> None:
    module = ModuleType("crewboard.command.counting")
    exec(compile(FILE, "counting.py", "exec"), module.__dict__)
    monkeypatch.setitem(sys.modules, module.__name__, module)
    look = next(iter(catalogue.CHAPTERS))
    monkeypatch.setitem(catalogue.CHAPTERS, look, {**catalogue.CHAPTERS[look], **LINE})


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Shell:
    monkeypatch.setenv("COLUMNS", "80")
    return Shell(capsys)


@pytest.mark.usefixtures("toy")
def test_a_command_is_one_file_and_one_line(call: Shell, tmp_path: Path) -> None:
    van = make(tmp_path)
    ended = call("count-tasks", van)
    assert (ended.code, ended.out, ended.err) == (0, "4 tasks\n", "counted as things stand now\n")
    form = call("count-tasks", van, "--at", "2026-05-02T09:30", "--json").form
    assert form == {"form": 1, "what": "count-tasks", "at": "2026-05-02T09:30:00", "tasks": 4}
    assert "  count-tasks" in call("--help").out, "the overview lists it"
    shown = call("count-tasks", "--help").out
    assert "Counts the tasks" in shown
    assert "--state STATE" in shown
    assert "crewboard count-tasks sample_project" in shown


@pytest.mark.usefixtures("toy")
def test_what_is_typed_wrongly_and_what_is_refused_end_in_one_sentence(
    call: Shell, tmp_path: Path
) -> None:
    van = make(tmp_path)
    refused = call("count-tasks", van, "--state", "ruddy")
    assert (refused.code, refused.out) == (1, "")
    assert refused.err == 'no task is "ruddy"; look at the states with crewboard day\n'
    wrong = call("count-tasks", van, "--stat", "ready")
    assert wrong.code == 2
    assert 'did you mean "--state"?' in wrong.err
    assert 'did you mean "count-tasks"?' in call("count-task", van).err
