"""What is typed at a command, and what files are named, is kept as typed or refused."""

from __future__ import annotations

import re
from pathlib import Path

from crewboard.folder.disk.lock import LOCK_NAME
from crewboard.folder.read.folder import Folder
from crewboard.legible import legible
from tests.command.calling import Shell
from tests.text_is_data.as_shown import AT, STEERS, is_harmless, slow, squeezed


def calls_with(text: str) -> list[tuple[str, ...]]:
    """Every command that writes, with the text in each of its text fields."""
    return [
        ("expect", "tom", "--note", text),
        ("sign-in", "ada", "tom", "--note", text),
        ("reading", "--celsius", "12", "--note", text),
        ("ordered", "oak", "--note", text),
        ("arrived", "oak", "--note", text),
        ("note", "--", text),
        ("incident", "--place", text, "--done", text, "--", text),
        ("hours", "ada", "2", "frame/d", "--note", text),
        ("hours-left", "frame/b", "4", "--why", text),
        ("set-aside", "frame/b", "--why", text),
        ("set-aside", "frame/b", "--back", "--why", text),
        ("hold", "decision", "--component", "frame", "--why", text),
        ("begin", "frame/d", "--who", "ada", "--despite", text, "--note", text),
        ("finish", "frame/d", "--note", text),
        ("extend", "eaaaaaah", "--by-span", "1 day", "--why", text),
        ("release", "eaaaaaah", "--why", text),
        ("reopen", "frame/a", "--why", text),
        ("sign", "frame/d", "odd/look", "--does-not-apply", "--why", text),
        ("sign-out", "ada", "--note", text),
        ("correct", "eaaaaaar", "--set", f"text={text}"),
        ("take-back", "eaaaaaao", "--why", text),
        *record_with(text),
        ("close-day", "--despite", text, "--note", text),
    ]


def record_with(text: str) -> list[tuple[str, ...]]:
    """Every command of the record, with the text in each of its text fields."""
    rib, rail = "frame/ribs/1", "frame/one"
    return [
        ("found", "--piece", rib, "--thought", text, "--place", text, "--sample", text,
         "--kept-at", text, "--minute", text, "--", text),
        ("found", "--pictures", text, "--recording", text, "--", text),
        ("measured", "2 m", "--piece", rib, "--from", text, "--to", text, "--with", text,
         "--note", text),
        ("measured", "--", text),
        ("layers", "--piece", rib, "--place", text, "--sample", text, "--", text),
        ("source", "--dated", text, "--kept", text, "--rights", text, "--note", text, "--", text),
        ("caption", "--words", text, "--", text),
        ("done", rib, "cleaned", "--how", text, "--why", text, "--materials", text, "--mark", text),
        ("made", rail, "--of", text, "--source", text, "--batch", text, "--how", text),
        ("take-off", rib, "--how", text),
        ("store", rib, "--note", text, "--", text),
        ("gone", rib, "given away", "--to", text, "--why", text),
        ("reuse", rail, "--into", rib, "--how", text),
        ("pattern", "--traced-from", text, "--kept", text, "--note", text, "--", text),
        ("departure", "--why", text, "--", text),
        ("temporary", "--note", text, "--", text),
        ("undone", "--how", text, "--", text),
        ("earlier-repair", "--whom", text, "--", text),
        ("decide-size", "--why", text, "--", text, "3 mm"),
        ("findings", text),
        ("take-in", text),
        ("from-finding", text),
    ]  # fmt: skip


@slow
def test_what_is_typed_at_a_command_is_kept_as_typed_or_refused_in_a_sentence(
    call: Shell, van: Path, text: str
) -> None:
    (van / "days/2026/2026-05-02.toml").write_text(
        "date = 2026-05-02\n\n[entries]\n"
        'eaaaaaah = { at = 2026-05-02T09:00:00, kind = "finished", task = "frame/a" }\n'
        'eaaaaaar = { at = 2026-05-02T09:01:00, kind = "note", text = "x" }\n'
        'eaaaaaao = { at = 2026-05-02T09:02:00, kind = "note", text = "y" }\n'
    )
    kept = 0
    for number, (name, *rest) in enumerate(calls_with(text)):
        at = () if name in ("correct", "take-back") else ("--at", f"2026-05-02T10:{number:02}")
        before = set(Folder(van).logbook.days)
        ended = call(name, van, *at, "--by", "ada", *rest)
        is_harmless(ended)
        if ended.code:
            assert ended.err.strip(), name
            continue
        kept += 1
        assert squeezed(legible(text))[:200] in squeezed(ended.out) or name != "note"
        assert before <= set(Folder(van).logbook.days)
    assert kept >= 12
    acts = [entry.act for day in Folder(van).logbook.days.values() for entry in day.entries]
    assert sum(text in act for act in acts) >= 12
    assert not Folder(van).broken
    data = b"".join(path.read_bytes() for path in van.rglob("*.toml"))
    # The joiners belong to the spelling of several languages and stay as typed in the file.
    assert not STEERS.search(re.sub("[\u200c\u200d\r]", "", data.decode()))
    for word in ("task", "why", "then", "begin", "log", "sign-in"):
        is_harmless(call(word, van, text))
    is_harmless(call(text))
    is_harmless(call("report", text, van))
    is_harmless(call("day", van, "--at", text))
    is_harmless(call("hazards", van, text))


@slow
def test_names_of_files_and_folders_show_as_typed(call: Shell, van: Path, text: str) -> None:
    name = "n" + text.replace("/", "|").replace("\0", "0")[:60]
    for place in ("components", "days/2026", "."):
        (van / place / f"{name}.toml").write_text("x = \n")
    ended = call("check", van, *AT)
    is_harmless(ended)
    assert squeezed(legible(name)) in squeezed(ended.out)
    is_harmless(call("fold", van))
    moved = van.rename(van.with_name(name))
    for command in ("check", "day", "copies"):
        is_harmless(call(command, moved, *(AT if command != "copies" else ())))
    assert not [p for p in moved.iterdir() if p.name.startswith(LOCK_NAME) and p.is_dir()]
