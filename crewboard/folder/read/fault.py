"""A mistake in the folder, as a value: where it is, what is wrong, how to mend it."""

from collections.abc import Collection, Iterable
from typing import NamedTuple

MISSING = "missing-file"
"""The code of a file that is not there and is needed."""

# The path of a key in a file: table names, keys and places in arrays.
KeyPath = tuple[str | int, ...]


class Fault(NamedTuple):
    """`file` is relative to the folder; `line` and `column` count from 1.

    `code` is a short fixed word for programs ("unknown-name"), `sentence` and `hint` are for
    people. `steps` are those of a loop in the order of work, each with the place it is written.
    `rests_on` are the files (or folders, with a last `/`) in which that would stand which is missed
    here: where one of those cannot be read, this is no fault of its own, and `follow` of that
    file's fault counts it.
    """

    file: str
    line: int
    column: int
    code: str
    sentence: str
    hint: str = ""
    steps: tuple[str, ...] = ()
    rests_on: tuple[str, ...] = ()
    follow: int = 0

    @property
    def whole(self) -> str:
        """The sentence with its steps behind it."""
        return ": ".join(filter(None, (self.sentence, ", then ".join(self.steps))))

    @property
    def following(self) -> str:
        """ "38 questions follow from it"; nothing where none do."""
        if self.follow < 2:
            return "1 question follows from it" if self.follow else ""
        return f"{self.follow} questions follow from it"

    def __str__(self) -> str:
        says = "; ".join(filter(None, (self.whole, self.hint.rstrip("."), self.following)))
        return f"{self.file}:{self.line}:{self.column}: {says}"


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
    rests_on: tuple[str, ...] = ()


def causes_first(faults: Iterable[Fault], unread: Collection[str]) -> list[Fault]:
    """The faults by file and line, those of what cannot be read before all others.

    `unread` are the files, and folders with a last `/`, of which nothing could be read. What only
    follows from one of them is left out, and counted there.
    """
    in_order = sorted(faults)
    if not unread:
        return in_order
    follow: dict[str, int] = {}
    causes, others = list[Fault](), list[Fault]()
    for fault in in_order:
        cause = next((path for path in unread if _rests_on(fault, path)), "")
        if cause:
            follow[cause] = follow.get(cause, 0) + 1 + fault.follow
        else:
            (causes if fault.file in unread else others).append(fault)
    for place, fault in enumerate(causes):
        causes[place] = fault._replace(follow=fault.follow + follow.pop(fault.file, 0))
    return causes + others


def _rests_on(fault: Fault, unread: str) -> bool:
    """Whether what is missed there may stand in a file, or below a folder, that is not read."""
    if unread.endswith("/"):  # "Days/" may be what should be called "days/"
        return any(needed.startswith(unread.lower()) for needed in fault.rests_on)
    return any(
        unread == needed or (needed.endswith("/") and unread.startswith(needed))
        for needed in fault.rests_on
    )


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
