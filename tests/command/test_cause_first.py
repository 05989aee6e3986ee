"""One broken file is one sentence, and what follows from it is counted, not told before it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.folder.a_vehicle import FILES

pytestmark = pytest.mark.usefixtures("begun")

FRAME = "components/frame.toml"
DAY = "days/2026/2026-05-02.toml"


def _break(van: Path, file: str, how: str) -> None:
    path = van / file
    match how:
        case "broken":
            path.write_text(FILES[file] + "x = = 3\n", encoding="utf-8")
        case "empty":
            path.write_bytes(b"")
        case "gone":
            path.unlink()


@pytest.mark.parametrize("how", ["broken", "empty", "gone"])
@pytest.mark.parametrize("file", ["crew.toml", "supplies.toml", "vehicle.toml", FRAME])
def test_one_file_that_is_not_read_is_one_sentence(
    van: Path, call: Shell, file: str, how: str
) -> None:
    _break(van, file, how)
    ended = call("check", van, "--at", "2026-05-02T18:00")
    assert ended.code == 1
    assert ended.out.startswith(f"{file}:"), ended.out
    assert ended.err.startswith("1 mistake in"), ended.out


def test_the_questions_that_follow_are_counted_and_can_be_asked_for(van: Path, call: Shell) -> None:
    _break(van, "supplies.toml", "gone")
    told = call("check", van, "--at", "2026-05-02T18:00").out.splitlines()
    assert len(told) == 1
    assert told[0].endswith("; 1 question follows from it")
    every = call("check", van, "--at", "2026-05-02T18:00", "--all").out
    assert 'there is no supply "oak"' in every


def test_a_person_of_nothing_is_told_once_however_many_entries_name_them(
    van: Path, call: Shell
) -> None:
    crew = van / "crew.toml"
    crew.write_text(FILES["crew.toml"].replace("people.ada", "people.ida"), encoding="utf-8")
    told = call("check", van, "--at", "2026-05-02T15:30").out
    assert told.count('there is no person "ada"; 11 more entries name it') == 1
    assert told.count('"ada"') == 1


def test_a_mistake_that_has_nothing_to_do_with_the_broken_file_is_told_beside_it(
    van: Path, call: Shell
) -> None:
    _break(van, "supplies.toml", "broken")
    deck = van / "components/deck.toml"
    text = FILES["components/deck.toml"].replace('["frame"]', '["nothing"]')
    deck.write_text(text, encoding="utf-8")
    told = call("check", van, "--at", "2026-05-02T15:30").out.splitlines()
    assert [line.partition(":")[0] for line in told] == ["supplies.toml", "components/deck.toml"]


def test_a_day_that_is_not_read_is_the_cause_of_a_hold_that_nothing_starts(
    van: Path, call: Shell
) -> None:
    later = van / "days/2026/2026-05-03.toml"
    later.write_text(
        "date = 2026-05-03\n\n[entries]\n"
        'zzzzzzzz = { at = 2026-05-03T09:00:00, by = "ada", kind = "extended", '
        'hold = "k7f3q2mn", lasts = "1 day", why = "damp" }\n',
        encoding="utf-8",
    )
    assert call("check", van, "--at", "2026-05-02T15:30").out == ""
    _break(van, DAY, "broken")
    told = call("check", van, "--at", "2026-05-02T15:30").out.splitlines()
    assert [line.partition(":")[0] for line in told] == [DAY]
    assert "follow" in told[0]


def test_a_program_is_told_how_many_follow(van: Path, call: Shell) -> None:
    _break(van, "supplies.toml", "empty")
    (mistake,) = call("check", van, "--json").form["mistakes"]
    assert mistake["file"] == "supplies.toml"
    assert mistake["follow"] == 1


UNKNOWN: list[tuple[str, tuple[str, ...]]] = [
    ("crew.toml", ("sign-in", "DIR", "ben")),
    ("crew.toml", ("crew", "DIR", "ben")),
    ("crew.toml", ("note", "DIR", "x", "--by", "ben")),
    ("supplies.toml", ("supplies", "DIR", "elm")),
    (FRAME, ("task", "DIR", "sand")),
    (FRAME, ("hours", "DIR", "ada", "2", "sand", "--by", "ada")),
    ("hazards.toml", ("hazards", "DIR", "our-own")),
    (DAY, ("take-back", "DIR", "k7f3q2zz", "--by", "ada")),
    (DAY, ("release", "DIR", "lay", "--why", "dry", "--by", "ada")),
]


@pytest.mark.parametrize(("file", "typed"), UNKNOWN)
def test_a_name_that_is_not_known_is_put_down_to_the_file_that_cannot_be_read(
    van: Path, call: Shell, file: str, typed: tuple[str, ...]
) -> None:
    words = [str(van) if word == "DIR" else word for word in typed]
    whole = call(*words, "--at", "2026-05-02T15:30") if typed[0] not in _NO_AT else call(*words)
    assert whole.code == 1
    assert "cannot be read" not in whole.err
    _break(van, file, "broken")
    ended = call(*words, "--at", "2026-05-02T15:30") if typed[0] not in _NO_AT else call(*words)
    assert ended.code == 1
    assert f"that can be read: {file} cannot be read (line" in ended.err
    assert "did you mean" not in ended.err


_NO_AT = {"hazards", "take-back"}


@pytest.mark.parametrize("how", ["broken", "empty", "gone"])
@pytest.mark.parametrize("file", ["crew.toml", "supplies.toml", FRAME])
def test_logging_goes_on_by_what_the_logbook_names(
    van: Path, call: Shell, file: str, how: str
) -> None:
    _log(van, 'kind = "reopened", task = "frame/scrape", why = "x"', "15:20")
    _log(van, 'kind = "begun", task = "frame/scrape", crew = ["ada"]', "15:21")
    _break(van, file, how)
    assert call("check", van, "--at", "2026-05-02T15:30").out.startswith(f"{file}:")
    for typed in (
        ("hours", van, "ada", "2", "frame/scrape"),
        ("finish", van, "frame/scrape"),
        ("note", van, "sills done"),
        ("sign-out", van, "ada"),
        ("sign-in", van, "ada"),
    ):
        ended = call(*typed, "--by", "ada", "--at", "2026-05-02T15:30")
        assert ended.code == 0, ended.err
    begun = call("begin", van, "frame/prime", "--by", "ada", "--at", "2026-05-02T15:40")
    assert begun.code == 1, begun
    if how != "gone":
        (van / file).write_text(FILES[file], encoding="utf-8")
        log = call("log", van, "--json").form["entries"]
        assert log[-1]["by"] == "ada"
        assert call("check", van, "--at", "2026-05-02T15:41").out.count("there is no") == 0


def test_nobody_lets_go_of_anything_while_the_leads_are_not_known(van: Path, call: Shell) -> None:
    call("note", van, "x", "--by", "ada", "--at", "2026-05-02T15:30")
    (van / "hazards.toml").unlink()
    _break(van, "crew.toml", "broken")
    ended = call("meant", van, "--why", "x", "--by", "ada", "--at", "2026-05-02T15:31")
    assert ended.code == 1
    assert "nobody is known as a lead" in ended.err


def _log(van: Path, says: str, at: str) -> None:
    with (van / DAY).open("a", encoding="utf-8") as day:
        name = f"zz{at.replace(':', '')}"
        day.write(f'{name} = {{ at = 2026-05-02T{at}:00, by = "ada", {says} }}\n')
