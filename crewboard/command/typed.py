"""What was typed after `crewboard`: the words and options of one command.

A reader of our own, since the standard library's costs as much time as reading a folder does.
`--name value`, `--name=value`, a switch `--name`; `--` ends the options. An option that takes
several values takes all words up to the next option.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from crewboard.command.exits import Exit, WrongCall

if TYPE_CHECKING:
    from crewboard.command.output import Output


class Word(NamedTuple):
    """A word that has its place: the folder, a task, a person."""

    name: str
    says: str
    many: bool = False  # one or more; only the last word can be
    optional: bool = False


class Option(NamedTuple):
    """`--name`; with `value` named it takes one, or with `many` several."""

    name: str
    says: str
    value: str = ""
    many: bool = False


class Command(NamedTuple):
    """How a command is called and what it does."""

    run: "Callable[[Call], Exit]"
    says: str
    words: tuple[Word, ...] = ()
    options: tuple[Option, ...] = ()
    examples: tuple[str, ...] = ()


class Call(NamedTuple):
    """One call of a command. Words and options by name, each with all its values."""

    name: str
    out: "Output"
    words: Mapping[str, tuple[str, ...]] = {}
    options: Mapping[str, tuple[str, ...]] = {}

    def word(self, name: str) -> str:
        """The word's only value, empty where an optional one was left out."""
        return " ".join(self.words.get(name, ()))

    def each(self, name: str) -> tuple[str, ...]:
        return self.words.get(name, ())

    def option(self, name: str, otherwise: str = "") -> str:
        return self.options[name][-1] if self.options.get(name) else otherwise

    def every(self, name: str) -> tuple[str, ...]:
        return self.options.get(name, ())

    def given(self, name: str) -> bool:
        return name in self.options


def read_call(name: str, command: Command, typed: Sequence[str], out: "Output") -> Call:
    """The call that was typed. Raises `WrongCall`."""
    known = {option.name: option for option in command.options}
    options: dict[str, tuple[str, ...]] = {}
    loose: list[str] = []
    ahead = list(reversed(typed))
    while ahead:
        word = ahead.pop()
        if word == "--":
            loose += reversed(ahead)
            break
        if word.startswith("-") and word != "-" and not word[1].isdigit():
            option, values = _option(word, known, ahead)
            options[option.name] = (*options.get(option.name, ()), *values)
        else:
            loose.append(word)
    return Call(name, out, _placed(command.words, loose), options)


def _option(
    word: str, known: Mapping[str, Option], ahead: list[str]
) -> tuple[Option, tuple[str, ...]]:
    name, given, value = word.partition("=")
    option = known.get(name.removeprefix("--")) if name.startswith("--") else None
    if option is None:
        raise WrongCall(f"there is no option {name} here", _nearest(name, known))
    if not option.value:
        if given:
            raise WrongCall(f"{name} takes no value")
        return option, ()
    if given:
        return option, (value,)
    values: list[str] = []
    while ahead and (option.many or not values) and not _is_option(ahead[-1]):
        values.append(ahead.pop())
    if not values:
        raise WrongCall(f"{name} needs a value", f"write {name} {option.value}")
    return option, tuple(values)


def _is_option(typed: str) -> bool:
    return typed.startswith("--") or typed == "-h"


def _nearest(name: str, known: Mapping[str, Option]) -> str:
    from crewboard.folder.read.fault import nearest

    if not name.startswith("--"):
        return 'write "--" before a text that begins with "-"'
    return nearest(name, (f"--{option}" for option in known))


def _placed(words: Iterable[Word], loose: Sequence[str]) -> dict[str, tuple[str, ...]]:
    left = list(loose)
    placed: dict[str, tuple[str, ...]] = {}
    for word in words:
        if not left:
            if not word.optional:
                raise WrongCall(f"{word.name} is missing: {word.says}")
            continue
        placed[word.name] = tuple(left) if word.many else (left[0],)
        left = [] if word.many else left[1:]
    if left:
        raise WrongCall(
            f'there is a word too many: "{left[0]}"', "put names of several words in quotes"
        )
    return placed
