"""A text dictated elsewhere becomes findings, line by line, on what each line begins with."""

from __future__ import annotations

import io
import json
from pathlib import Path
from types import SimpleNamespace

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Found
from crewboard.telling.dictated import cut_into_findings
from tests.command.calling import Shell
from tests.naughty import CLASSES
from tests.terminal.shop import make_shop

CAB = """\
name = "Driver's cab"
[pieces.ribs]
name = "Rib"
count = 9
[pieces.sill]
name = "Left sill"
"""
AT = ("--at", "2026-05-02T10:00", "--by", "ada")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "van", components={"cab": CAB})


def findings_of(shop: Path, text: str) -> list[tuple[str, str, str, str]]:
    """Of each finding: the piece or component, what was seen, and what is thought."""
    cut = [one.found for one in cut_into_findings(Folder(shop).plan, text)]
    return [(one.piece, one.component, one.seen, one.thought) for one in cut]


@pytest.mark.parametrize(
    ("line", "finding"),
    [
        ("ribs 3: the foot is soft", ("cab/ribs/3", "", "the foot is soft", "")),
        ("Rib 3: the foot is soft", ("cab/ribs/3", "", "the foot is soft", "")),
        ("cab/ribs/3:  soft", ("cab/ribs/3", "", "soft", "")),
        ("driver's cab rib 3: soft", ("cab/ribs/3", "", "soft", "")),
        ("- LEFT SILL: wet at 9:30", ("cab/sill", "", "wet at 9:30", "")),
        ("2) roof: green", ("", "roof", "green", "")),
        ("Rib 3 is soft", ("cab/ribs/3", "", "Rib 3 is soft", "")),
        ("Left sill, at the back: wet", ("cab/sill", "", "Left sill, at the back: wet", "")),
        ("vehicle: ribs 30: soft", ("", "", "ribs 30: soft", "")),
        ("gate 30: soft", ("", "", "gate 30: soft", "")),
        ("vehicle: ribs 30 soft", ("", "", "ribs 30 soft", "")),
        ("3 brass screws in a tin", ("", "", "3 brass screws in a tin", "")),
        ("the roofing felt: torn", ("", "", "the roofing felt: torn", "")),
        ("roof: wet; thought: from the vent", ("", "roof", "wet", "from the vent")),
        ("roof: wet (Thought: the vent)", ("", "roof", "wet", "the vent")),
        ("thought: nothing seen", ("", "", "thought: nothing seen", "")),
    ],
)
def test_a_line_is_a_finding_on_what_it_begins_with(
    shop: Path, line: str, finding: tuple[str, ...]
) -> None:
    assert findings_of(shop, f"\n  {line}  \r\n\n") == [finding]


def test_several_pieces_named_by_their_numbers_have_a_finding_each(shop: Path) -> None:
    three = findings_of(shop, "ribs 1 to 3: nail holes")
    assert [piece for piece, *_ in three] == ["cab/ribs/1", "cab/ribs/2", "cab/ribs/3"]
    assert {seen for _, _, seen, _ in three} == {"nail holes"}
    assert [piece for piece, *_ in findings_of(shop, "Rib 2 and 5: x")] == [
        "cab/ribs/2",
        "cab/ribs/5",
    ]


def test_the_command_shows_what_it_would_save_and_saves_all_or_nothing(
    call: Shell, shop: Path, tmp_path: Path
) -> None:
    text = tmp_path / "dictated.txt"
    text.write_text("ribs 3: the foot is soft\nroof: green\na tin of screws\n", encoding="utf-8")
    shown = call("findings", shop, "--from", text, *AT)
    assert shown.code == 0
    assert shown.out.splitlines() == [
        "Rib 3 (Driver's cab): the foot is soft",
        "Roof: green",
        "the vehicle: a tin of screws",
    ]
    assert "Nothing is saved yet" in shown.err
    assert not list(Folder(shop).logbook.record())
    kept = call("findings", shop, "--from", text, "--do-it", *AT)
    assert kept.code == 0, kept.err
    acts = [e.act for e in Folder(shop).logbook.record()]
    assert acts == [
        Found("the foot is soft", piece="cab/ribs/3"),
        Found("green", component="roof"),
        Found("a tin of screws"),
    ]
    form = call("findings", shop, "--from", text, "--json", *AT).form
    assert form["findings"][0] == {
        "line": 1,
        "seen": "the foot is soft",
        "thought": "",
        "piece": "cab/ribs/3",
        "component": None,
        "could_be": [],
        "no_such_piece": None,
    }


def test_a_line_that_could_be_of_several_things_saves_none(
    call: Shell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    two = {"cab": CAB, "bay": CAB.replace("Driver's cab", "Bay")}
    shop = make_shop(tmp_path / "van", components=two)
    spoken = b"roof: green\nrib 3: soft\n"
    monkeypatch.setattr("sys.stdin", SimpleNamespace(buffer=io.BytesIO(spoken)))
    ended = call("findings", shop, "--from", "-", "--do-it", *AT)
    assert ended.code == 1
    assert "Which? soft (Rib 3 (Bay) and Rib 3 (Driver's cab) have that name)" in ended.out
    assert "line 2 could be of several things" in ended.err
    assert not list(Folder(shop).logbook.record())
    assert findings_of(shop, "bay rib 3: soft") == [("bay/ribs/3", "", "soft", "")]


@pytest.mark.parametrize(
    "name", ["ribs 30", "Rib 30", "rib-30", "cab/ribs/30", "ribs 8-12", "ribs 9 and 10"]
)
def test_a_piece_that_there_is_not_is_asked_about(
    call: Shell, shop: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    spoken = f"roof: green\n{name}: odd\n".encode()
    monkeypatch.setattr("sys.stdin", SimpleNamespace(buffer=io.BytesIO(spoken)))
    ended = call("findings", shop, "--from", "-", "--do-it", *AT)
    assert ended.code == 1
    assert f'Which? odd (there is no "{name}")' in ended.out
    assert f'which piece is line 2 of? There is no "{name}"' in ended.err
    assert not list(Folder(shop).logbook.record())


@pytest.mark.parametrize("line", ["ribs 30 is odd", "Rib 30, at the foot, is odd", "rib 30"])
def test_a_piece_that_there_is_not_is_asked_about_without_a_colon_too(
    shop: Path, line: str
) -> None:
    (one,) = cut_into_findings(Folder(shop).plan, line)
    assert one.nothing == line[: line.index("30") + 2]
    assert not one.found.piece


@pytest.mark.parametrize(
    ("line", "pieces"),
    [
        ("ribs 1 and 2 are dry", ["cab/ribs/1", "cab/ribs/2"]),
        ("Ribs 2-4, at the foot", ["cab/ribs/2", "cab/ribs/3", "cab/ribs/4"]),
        ("rib 3 and 4 nails in it", ["cab/ribs/3"]),
    ],
)
def test_several_pieces_are_told_without_a_colon_by_the_plural(
    shop: Path, line: str, pieces: list[str]
) -> None:
    found = findings_of(shop, line)
    assert [piece for piece, *_ in found] == pieces
    assert {seen for _, _, seen, _ in found} == {line}


@pytest.mark.parametrize("line", ["ribs 30x40 are odd", "Rib 3.5 is odd", "30 ribs", "oak 30 mm"])
def test_other_numbers_ask_nothing(shop: Path, line: str) -> None:
    (one,) = cut_into_findings(Folder(shop).plan, line)
    assert not one.nothing


@pytest.mark.parametrize(
    ("bytes_there", "sentence"),
    [
        (b"", "there is no line in it"),
        (b"\n \r\n", "there is no line in it"),
        (b"\xff\xfe\0", "is no text in UTF-8"),
        (b"x\n" * 600, "it has 600 lines, and 500 at a time are taken"),
        (b"x" * 1_000_001, "is longer than the 1 MB that are read"),
    ],
)
def test_what_is_no_such_text_is_one_sentence(
    call: Shell, shop: Path, tmp_path: Path, bytes_there: bytes, sentence: str
) -> None:
    (tmp_path / "text").write_bytes(bytes_there)
    ended = call("findings", shop, "--from", tmp_path / "text", "--do-it", *AT)
    assert ended.code == 1
    assert sentence in ended.err
    assert len(ended.err.splitlines()) == 1


def test_without_a_text_or_with_one_that_is_not_there_it_says_so(call: Shell, shop: Path) -> None:
    assert call("findings", shop).code == 2
    assert "cannot be read" in call("findings", shop, "--from", shop / "no", *AT).err
    assert "cannot be read" in call("findings", shop, "--from", shop, *AT).err


def test_naughty_text_stays_data_in_each_line_and_name(call: Shell, tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van", components={"cab": CAB})
    text = tmp_path / "text"
    for name, naughty in CLASSES.items():
        text.write_text(f"ribs 3: {naughty}\n", encoding="utf-8", newline="")
        ended = call("findings", shop, "--from", text, "--do-it", *AT)
        assert ended.code == 0, (name, ended.err)
        assert "\x1b" not in ended.out + ended.err, name
        assert "\u202e" not in ended.out + ended.err, name
    plan = Folder(shop).plan
    lines = [one for naughty in CLASSES.values() for one in cut_into_findings(plan, naughty)]
    assert all(one.found.seen.strip() for one in lines)
    json.dumps([one.found._asdict() for one in lines])
    assert Folder(shop).faults == []


def test_a_long_line_of_signs_is_read_at_once(shop: Path) -> None:
    plan = Folder(shop).plan
    for sign in ("; ", "(", ":", "1 ", "thought:", "- ", "1-"):
        assert cut_into_findings(plan, sign * 300_000 + "x")
