"""What is a reason in words: more than a mark, a shrug or the question said again."""

import re

_WORD = re.compile(r"[^\W\d_]{2,}")
_FEWEST_WORDS = 2
_FEWEST_LETTERS = 7
_LETTERS_WITHOUT_SPACES = 4  # in a script that sets no space between its words
# What fills a blank and says nothing: the question said again, a refusal to answer.
_SAYS_NOTHING = frozenset(
    {
        "does not apply", "do not apply", "not applicable", "no reason", "none given", "not needed",
        "not necessary", "no need", "see above", "as above", "just because", "bla bla", "blah blah",
        "all good", "all fine", "all ok", "it is fine", "not relevant", "to be done", "no idea",
    }
)  # fmt: skip

MEND = "write in a few words why it is so"


def is_a_reason(text: str) -> bool:
    """Whether the text says why: "x", "-", "n/a", "not needed" do not; "no paint on it" does.

    In a script that sets no spaces some letters are enough.
    """
    words = [word.casefold() for word in _WORD.findall(text)]
    if " ".join(words) in _SAYS_NOTHING:
        return False
    letters = sum(map(len, words))
    if len(set(words)) >= _FEWEST_WORDS and letters >= _FEWEST_LETTERS:
        return len(set("".join(words))) > _FEWEST_WORDS
    return any(not word.isascii() and _no_spaces(word) for word in words)


def _no_spaces(word: str) -> bool:
    """Whether the word is of a script without cases and spaces, and long enough to say much."""
    return len(word) >= _LETTERS_WITHOUT_SPACES and word.upper() == word.lower()
