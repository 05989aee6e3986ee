"""A mistake in the folder, as a value: where it is, what is wrong, how to mend it."""

from collections.abc import Iterable
from typing import NamedTuple

# The path of a key in a file: table names, keys and places in arrays.
KeyPath = tuple[str | int, ...]


class Fault(NamedTuple):
    """`file` is relative to the folder; `line` and `column` count from 1.

    `code` is a short fixed word for programs ("unknown-name"), `sentence` and `hint` are for
    people. `steps` are those of a loop in the order of work, each with the place it is written.
    """

    file: str
    line: int
    column: int
    code: str
    sentence: str
    hint: str = ""
    steps: tuple[str, ...] = ()

    @property
    def whole(self) -> str:
        """The sentence with its steps behind it."""
        return ": ".join(filter(None, (self.sentence, ", then ".join(self.steps))))

    def __str__(self) -> str:
        mend = f"; {self.hint}" if self.hint else ""
        return f"{self.file}:{self.line}:{self.column}: {self.whole}{mend}"


class Misfit(NamedTuple):
    """A mistake at a key, before its place in the text was looked up."""

    path: KeyPath
    code: str
    sentence: str
    hint: str = ""


class Step(NamedTuple):
    """One step of a loop: what comes next, and where it is written (nowhere: in the tree)."""

    says: str
    file: str = ""
    path: KeyPath = ()


class Remark(NamedTuple):
    """A mistake or a question at a key of a file, before its place in the text was looked up; of a
    loop with its steps."""

    file: str
    path: KeyPath
    code: str
    sentence: str
    hint: str = ""
    steps: tuple[Step, ...] = ()


MOST_LETTERS = 600
"""Of a sentence about a name that may be a megabyte long."""


def brief(sentence: str) -> str:
    """The sentence, its middle left out where nobody could read it for length."""
    if len(sentence) <= MOST_LETTERS:
        return sentence
    return f"{sentence[: MOST_LETTERS - 120]} [...] {sentence[-100:]}"


MOST_HINTS = 50
"""As many mistakes of a folder get the nearest name: looking for it among thousands takes long."""
LONGEST_WORD = 100


def nearest(word: str, known: Iterable[str]) -> str:
    """ "did you mean ...?" with the most alike of the known names, or nothing."""
    from difflib import get_close_matches  # only needed once something is wrong

    if len(word) > LONGEST_WORD:
        return ""
    names = sorted(set(known))
    near = get_close_matches(word, names, 1, 0.6) or get_close_matches(
        word.lower(), [n for n in names if n.lower() == word.lower()], 1, 0.1
    )
    if near:
        return f'did you mean "{near[0]}"?'
    if not names:
        return ""
    shown = ", ".join(f'"{name}"' for name in names[:8])
    return f"known are {shown}{' and others' if len(names) > 8 else ''}"
