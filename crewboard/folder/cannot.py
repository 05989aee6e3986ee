"""Why something could not be done in a folder: every exception of this room, and who raises it.

    ValueError
      CannotSpell         TOML has no form for the value                    toml/values
      CannotPlace         there is no safe place for the edit in this text  toml/sections, shapes
        NotForTomlkit     the edit is for the splices instead               toml/document
      CannotEdit          the text cannot be changed as was meant           toml/edit
      CannotAppend        the text has no place for a line                  toml/append
      CannotKeep          the entries do not fit into the day's file        edit/keep
      CannotFold          the copy cannot be folded in                      disk/conflicts
      CannotChange        the change of the plan is refused, with reasons   edit/
    LookupError
      NoSuchPlace         the key path leads nowhere                        toml/meant
    Exception
      NotKept             the disk did not take it                          disk/
      ChangedMeanwhile    somebody else wrote the file in between           disk/

Whichever is raised, nothing was written. `order.admit.refusal.Refusal` is what people are told: the
workbench and `edit/keep.py` turn these into refusals.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from crewboard.order.admit.refusal import Refusal


class _Said(ValueError):
    """With the reason as a sentence for a person."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


class CannotSpell(_Said):
    """The value has no spelling in TOML."""


class CannotPlace(_Said):
    """There is no safe place for the edit in this text."""


class NotForTomlkit(CannotPlace):
    """This edit is for the splices; no reason that a person needs to hear."""


class CannotEdit(_Said):
    """The edit cannot be made in this text. Nothing was changed."""


class CannotAppend(_Said):
    """The text is not one that a line can safely be added to."""


class CannotKeep(_Said):
    """The entries do not fit into the day's file."""


class CannotFold(_Said):
    """The two are not wordings of one day, or one cannot be read."""


class CannotChange(ValueError):
    """The change of the plan is refused, with its reasons."""

    def __init__(self, *refusals: Refusal) -> None:
        super().__init__("; ".join(map(str, refusals)))
        self.refusals = refusals


class NoSuchPlace(LookupError):
    """The key path leads nowhere in this value, or to something that cannot hold the key."""


class NotKept(Exception):
    """Nothing was kept: `sentence` says why, `hint` what to do. What was there is untouched.

    `doubtful` is True in the one case where the new bytes stand in place but the drive would not
    confirm it: read the file again before trying again. `full`: room on the drive would help.
    """

    def __init__(
        self,
        path: str | os.PathLike[str],
        sentence: str,
        hint: str,
        *,
        doubtful: bool = False,
        full: bool = False,
    ) -> None:
        self.path = os.fspath(path)
        self.sentence = sentence
        self.hint = hint
        self.doubtful = doubtful
        self.full = full
        super().__init__(f"{self.path}: {sentence}")


class ChangedMeanwhile(Exception):
    """The file no longer holds the bytes that the change was made for; nothing was written.

    `found` is what it holds now, None where it is gone.
    """

    def __init__(self, path: str | os.PathLike[str], found: bytes | None) -> None:
        self.path = os.fspath(path)
        self.found = found
        super().__init__(f"{self.path}: changed meanwhile")


def cannot(code: str, sentence: str, mend: str = "") -> CannotChange:
    """A change refused for one reason, ready to be raised."""
    from crewboard.order.admit.refusal import Refusal

    return CannotChange(Refusal(code, sentence, mend))
