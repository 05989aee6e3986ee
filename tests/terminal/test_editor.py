"""A file is opened in the person's own editor, as POSIX and Windows write its command."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from crewboard.terminal.editor import editor_command


def test_the_editor_is_the_persons_own_and_opens_at_the_line() -> None:
    assert editor_command({"EDITOR": "nano -w"}, "a b.toml", 7) == ["nano", "-w", "+7", "a b.toml"]
    assert editor_command({"VISUAL": "ed", "EDITOR": "nano"}, "x", 1) == ["ed", "x"]
    assert editor_command({}, "x", 3) == ["vi", "+3", "x"]


def test_an_editor_of_blanks_or_of_half_a_quote_is_still_a_command() -> None:
    assert editor_command({"VISUAL": "  ", "EDITOR": "nano"}, "x", 1) == ["nano", "x"]
    assert editor_command({"EDITOR": "\t"}, "x", 1) == ["vi", "x"]
    assert editor_command({"EDITOR": 'ed "a'}, "x", 1) == ['ed "a', "x"]
    assert editor_command({"EDITOR": '""'}, "x", 1) == ["", "x"]


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (r"C:\Program Files\X\x.exe --wait", [r"C:\Program Files\X\x.exe", "--wait"]),
        (r'"C:\Program Files\X\x.exe" --wait', [r"C:\Program Files\X\x.exe", "--wait"]),
        (r"C:\Program Files (x86)\X\X.EXE", [r"C:\Program Files (x86)\X\X.EXE"]),
        (r"C:\tools\new\tab.exe -n", [r"C:\tools\new\tab.exe", "-n"]),
        (r"C:\tools\ed", [r"C:\tools\ed"]),
        (r"C:\my.executables\ed.cmd -w", [r"C:\my.executables\ed.cmd", "-w"]),
        (r'x.exe --log "C:\a b\c.txt" -w', ["x.exe", "--log", r"C:\a b\c.txt", "-w"]),
        (r"\\server\share\ed it\x.bat", [r"\\server\share\ed it\x.bat"]),
        ("code --wait", ["code", "--wait"]),
        ("it's.exe -w", ["it's.exe", "-w"]),
        ('"half', ['"half']),
    ],
)
@pytest.mark.parametrize("variable", ["EDITOR", "VISUAL"])
def test_a_path_of_windows_is_read_as_windows_writes_it(
    variable: str, asked: str, words: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "name", "nt")
    path = r"C:\van\crew.toml"
    assert editor_command({variable: asked}, path, 1) == [*words, path]
    assert editor_command({variable: asked}, path, 7) == [*words, "+7", path]


def test_on_windows_the_editor_is_notepad_where_none_is_named(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(os, "name", "nt")
    assert editor_command({}, r"C:\van\crew.toml", 7) == ["notepad", r"C:\van\crew.toml"]


def test_a_program_with_blanks_in_its_path_and_no_ending_is_looked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    program = tmp_path / "my tools" / "ed"
    program.parent.mkdir()
    program.write_text("")
    monkeypatch.setattr(os, "name", "nt")
    assert editor_command({"EDITOR": f"{program} -w"}, "x", 1) == [str(program), "-w", "x"]
