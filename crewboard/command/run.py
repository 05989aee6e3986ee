"""Carrying out one call of `crewboard`: find the command, read the call, speak, end quietly."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from typing import TYPE_CHECKING

from crewboard.command.catalogue import ENTRIES, all_commands
from crewboard.command.exits import Exit, WrongCall
from crewboard.command.output import Output, forgiving_streams
from crewboard.command.typed import Command, read_call
from crewboard.logbook.kinds import BY_COMMAND

if TYPE_CHECKING:
    from collections.abc import Callable

    from crewboard.command.exits import NoSuch, Refused

_HELP = ("--help", "-h", "help")


def main(argv: Sequence[str] | None = None) -> int:
    """Run one call and return its exit code. Never raises for anything that was typed."""
    typed = list(sys.argv[1:] if argv is None else argv)
    gc.disable()  # a run is short: looking for circles takes a fifth of its time and finds none
    forgiving_streams()
    if argv is None:
        _finish_what_is_being_written()
    out = Output()
    code = out.ended(_ended_quietly(out, lambda: _run(typed, out)))
    if argv is None:
        gc.freeze()  # the process ends here: no last look for circles either
    return int(code)


def _ended_quietly(out: Output, act: Callable[[], Exit]) -> Exit:
    try:
        return act()
    except WrongCall as wrong:
        out.talk(f"crewboard: {wrong.sentence}" + (f"; {wrong.hint}" if wrong.hint else ""))
        return Exit.WRONG_CALL
    except KeyboardInterrupt:
        return Exit.FINE if out.kept else Exit.STOPPED
    except OSError as error:
        where = f": {error.filename}" if error.filename else ""
        out.talk(f"crewboard: {error.strerror or error}{where}")
        return Exit.FINE if out.kept else Exit.DISK


def _finish_what_is_being_written() -> None:
    """Ctrl-C while the folder is being written lets the writing end and say what was kept.

    Pressed again it ends the program.
    """
    import signal

    def stop(*_: object) -> None:
        lock = sys.modules.get("crewboard.folder.disk.lock")
        signal.signal(signal.SIGINT, signal.default_int_handler)
        if lock is None or not lock.was_had():
            raise KeyboardInterrupt

    with suppress(ValueError):  # not the main thread
        if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
            signal.signal(signal.SIGINT, stop)


def _run(typed: list[str], out: Output) -> Exit:
    first = typed[0] if typed else ""
    if first in _HELP:
        return _help(typed[1:], out)
    if first == "--version":
        from crewboard import __version__

        out.line(f"crewboard {__version__}")
        return Exit.FINE
    if first in all_commands():
        if _asks_for_help(typed[1:]):
            return _help([first], out)
        return _called(first, command_of(first), typed[1:], out)
    from crewboard.command.screens import screens

    if first and not first.startswith("-") and not os.path.isdir(first):
        raise WrongCall(*_no_such(first))
    if _asks_for_help(typed):
        return _help([], out)
    return _called("", screens, typed, out)


def _asks_for_help(typed: list[str]) -> bool:
    """Whatever stands behind "--" is a text, and asks for nothing."""
    options = typed[: typed.index("--")] if "--" in typed else typed
    return "--help" in options or "-h" in options


def command_of(name: str) -> Command:
    """The command of that name; its module is imported now."""
    listed = all_commands()[name]
    module = __import__(f"crewboard.command.{listed.module}", fromlist=["*"])
    if listed.module == ENTRIES:
        made = module.command_for(BY_COMMAND[name])
        assert isinstance(made, Command)
        return made
    command = getattr(module, name.replace("-", "_"))
    assert isinstance(command, Command)
    return command


def _called(name: str, command: Command, typed: list[str], out: Output) -> Exit:
    from crewboard.command.exits import NoSuch, Refused

    try:
        call = read_call(name, command, typed, out)
        try:
            code = command.run(call)
            if out.kept and os.path.lexists(os.path.join(call.word("DIR"), ".crewboard", "wall")):
                from crewboard.command.wall import keep_up

                keep_up(call)
            return code
        except NoSuch as none:
            raise _because_of_what_is_not_read(none, call.word("DIR")) from None
    except WrongCall as wrong:
        hint = wrong.hint or f"crewboard {name} --help".replace("  ", " ") + " shows examples"
        raise WrongCall(wrong.sentence, hint) from None
    except Refused as refused:
        out.talk(str(refused))
        return refused.exit


def _because_of_what_is_not_read(none: NoSuch, root: str) -> Refused:
    """The same, with the file that cannot be read and may hold the name."""
    from crewboard.command.exits import Refused
    from crewboard.folder.read.cause import MEND, cause_of
    from crewboard.folder.read.folder import Folder

    cause = cause_of(Folder(root), none.thing)
    return Refused(f"{none.sentence} that can be read: {cause}", MEND) if cause else none


def _help(asked: list[str], out: Output) -> Exit:
    from crewboard.command.help import command_help, overview

    if not asked:
        out.lines(overview(out.width))
    elif asked[0] in all_commands():
        out.lines(command_help(asked[0], command_of(asked[0]), out.width))
    else:
        raise WrongCall(*_no_such(asked[0]))
    return Exit.FINE


def _no_such(first: str) -> tuple[str, str]:
    from difflib import get_close_matches

    near = get_close_matches(first, list(all_commands()), 1, 0.6)
    hint = f'did you mean "{near[0]}"?' if near else "crewboard --help lists the commands"
    if os.path.exists(first):
        return f'"{first}" is a file, not a folder', "name the vehicle's folder"
    return f'there is no command and no folder "{first}"', hint
