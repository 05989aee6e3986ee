"""What is typed as a text is kept as that text, whatever it begins with or looks like."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.command.catalogue import all_commands
from crewboard.command.output import Output
from crewboard.command.run import command_of, main
from crewboard.command.typed import read_call
from crewboard.logbook.acts import Noted
from crewboard.workbench import Workbench
from tests.command.calling import Shell
from tests.folder.a_vehicle import make
from tests.long_form import cases

AT = ("--at", "2026-05-16T10:00", "--by", "ada")
ODD = ["--help", "-h", "--", "-x", "--why", "--why=y", "-", "-5", "a\nb", "\t--x", "=1", "\0"]


@pytest.mark.parametrize("text", ODD)
def test_a_note_behind_two_dashes_is_kept_whatever_it_is(text: str, call: Shell, van: Path) -> None:
    kept = call("note", van, *AT, "--json", "--", text)
    assert kept.code == 0, kept.err
    assert kept.form["entries"][0]["text"] == text
    assert call("note", *AT, "--", van, text).code == 0


def test_a_note_of_nothing_is_refused_in_a_sentence(call: Shell, van: Path) -> None:
    for text in ("", " ", "\n"):
        ended = call("note", van, *AT, "--", text)
        assert (ended.code, ended.out) == (1, "")
        assert ended.err == "say which text\n"


@given(st.text(st.characters(exclude_categories=["Cs"]), min_size=1).filter(str.strip))
@cases(40, 3_000)
def test_any_text_is_kept_as_it_was_typed(
    tmp_path_factory: pytest.TempPathFactory, text: str
) -> None:
    van = make(tmp_path_factory.mktemp("van"))
    assert main(["note", str(van), *AT, "--task=lay", "--", text]) == 0
    day = Workbench(van).logbook.days[date(2026, 5, 16)]
    assert [entry.act.text for entry in day.entries if isinstance(entry.act, Noted)] == [text]


@pytest.mark.parametrize("name", all_commands())
def test_an_option_takes_any_text_behind_its_equals_sign(name: str) -> None:
    command = command_of(name)
    words = ["word"] * sum(not word.optional for word in command.words)
    for option in command.options:
        for text in (*ODD, "", "a b", "=") if option.value else ():
            read = read_call(name, command, [*words, f"--{option.name}={text}"], Output())
            assert read.every(option.name) == (text,)


@pytest.mark.parametrize("text", ["-x", "--help", "--", "-h", "a\nb"])
def test_a_reason_is_kept_as_typed_behind_its_equals_sign(
    text: str, call: Shell, van: Path
) -> None:
    note = call("note", van, "first", *AT, "--json").form["entries"][0]["id"]
    assert call("take-back", van, note, f"--why={text}", "--by", "ada").code == 0
    off = call("call-off", van, "2026-06-06", f"--why={text}")
    assert off.code == 0, off.err
    assert text.split("\n")[0] in off.out
    corrected = call("note", van, "second", *AT, "--json").form["entries"][0]["id"]
    ended = call("correct", van, corrected, f"--set=text={text}", "--json", "--by", "ada")
    assert ended.form["entries"][0]["text"] == text


def test_who_types_a_text_that_begins_with_a_dash_is_told_how(call: Shell, van: Path) -> None:
    ended = call("note", van, "-x marks it")
    assert ended.code == 2
    assert 'write "--" before a text that begins with "-"' in ended.err
