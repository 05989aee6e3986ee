"""How a command ends: what it tells the shell, and the exceptions that end it early.

Exception
  WrongCall    it was typed wrongly                         typed, opened: ends with 2
  Refused      what was asked is not done, with the reason  anywhere: ends with 1 or 3
    NoSuch     nothing is called what was typed             naming
"""

from __future__ import annotations

from enum import IntEnum


class Exit(IntEnum):
    """Exit codes; they stay the same from version to version."""

    FINE = 0
    REFUSED = 1  # refused, not found, or mistakes in the folder
    WRONG_CALL = 2  # the command was typed wrongly
    DISK = 3  # the disk or the system would not let us read or write
    BROKE_OFF = 70  # a fault of the program itself: EX_SOFTWARE of the BSDs' sysexits
    # Ended by a signal, as shells have it: 128 and the signal's number.
    HUNG_UP = 129
    STOPPED = 130  # Ctrl-C
    QUIT = 131
    TERMINATED = 143


class WrongCall(Exception):
    """The command was typed wrongly: what is wrong, and how to mend it."""

    def __init__(self, sentence: str, hint: str = "") -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.hint = hint


class Refused(Exception):
    """What was asked is not done: the reason, and how to mend it."""

    def __init__(self, sentence: str, mend: str = "", exit_code: Exit = Exit.REFUSED) -> None:
        super().__init__(f"{sentence}; {mend}" if mend else sentence)
        self.exit = exit_code


class NoSuch(Refused):
    """Nothing of that kind ("person", "task") is called what was typed, as far as can be read."""

    def __init__(self, thing: str, sentence: str, mend: str = "") -> None:
        super().__init__(sentence, mend)
        self.thing = thing
        self.sentence = sentence
