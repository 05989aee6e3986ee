"""The help texts: all commands in a list, and one command with its words, options, examples."""

from __future__ import annotations

from collections.abc import Iterable

from crewboard.command.catalogue import chapters
from crewboard.command.typed import Command, Option, Word
from crewboard.paper.plain import Paper


def overview(width: int) -> list[str]:
    """What `crewboard --help` says."""
    paper = Paper(width)
    paper.line("What can be done today, what must be left alone and until when.")
    paper.line()
    paper.line("crewboard DIR                opens the screens on a vehicle's folder")
    paper.line("crewboard DIR --plain        the same in ASCII, for a terminal that lacks signs")
    paper.line("crewboard COMMAND DIR ...    does one thing and ends")
    for chapter, commands in chapters().items():
        paper.heading(chapter)
        _pairs(paper, ((name, listed.says) for name, listed in commands.items()))
    paper.heading("Examples")
    for example in (
        "crewboard sample_project --at 2026-05-02T09:00",
        "crewboard day sample_project --at 2026-05-02T09:00",
        "crewboard why sample_project lay-boards",
        "crewboard begin --help",
    ):
        paper.line(example, indent=2)
    paper.line()
    paper.line("Exit codes: 0 fine, 1 refused or mistakes found, 2 wrongly called, 3 disk trouble.")
    return paper.lines


def command_help(name: str, command: Command, width: int) -> list[str]:
    """What `crewboard NAME --help` says."""
    paper = Paper(width)
    words = " ".join(_as_typed(word) for word in command.words)
    paper.line(f"crewboard {name} {words}{' [options]' if command.options else ''}")
    paper.line()
    paper.line(command.says)
    if command.words:
        paper.line()
        _pairs(paper, ((word.name, word.says) for word in command.words))
    if command.options:
        paper.heading("Options")
        _pairs(paper, ((_option(option), option.says) for option in command.options))
    paper.heading("Examples" if len(command.examples) > 1 else "Example")
    # Not wrapped: an example is there to be copied.
    paper.lines += [f"  {example}" for example in command.examples]
    return paper.lines


def _as_typed(word: Word) -> str:
    named = f"{word.name}..." if word.many else word.name
    return f"[{named}]" if word.optional else named


def _option(option: Option) -> str:
    return f"--{option.name} {option.value}{'...' if option.many else ''}".rstrip()


def _pairs(paper: Paper, pairs: Iterable[tuple[str, str]]) -> None:
    listed = list(pairs)
    across = min(max(len(name) for name, _ in listed), 20)
    for name, meaning in listed:
        paper.line(f"{name:<{across}}  {meaning}", indent=2, hang=across + 2)
