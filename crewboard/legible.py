"""Text from a file, made safe to show: nothing in it can steer a terminal or turn a line around.

Names, notes and file names are data. An escape code, a direction-changing or a zero-width
character in them is shown as a visible mark, never obeyed and never swallowed.
"""

from __future__ import annotations

# Letters that are drawn as nothing at all, though Unicode calls them letters or marks (fillers,
# the joiner U+034F, Mongolian selectors, the blank braille cell): a name could hide behind them.
_BLANK_LETTERS = frozenset(
    (0x034F, 0x115F, 0x1160, 0x17B4, 0x17B5, 0x180B, 0x180C, 0x180D, 0x180F, 0x2800, 0x3164, 0xFFA0)
)
# Control, format, surrogate, line separator, paragraph separator: Unicode's general categories.
_STEERING = frozenset(("Cc", "Cf", "Cs", "Zl", "Zp"))


class _Marks(dict[int, str]):
    """What each character is shown as, worked out when it is first met."""

    def __missing__(self, code: int) -> str:
        shown = self[code] = _shown(code)
        return shown


def _shown(code: int) -> str:
    from unicodedata import category

    if code < 0x20:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "\u2421"
    if category(chr(code)) in _STEERING or code in _BLANK_LETTERS or 0xE0100 <= code <= 0xE01EF:
        return f"<U+{code:04X}>"
    return chr(code)


_ONE_LINE = _Marks()
_LINES = _Marks({0x09: "\t", 0x0A: "\n"})


def legible(text: str, *, lines: bool = False) -> str:
    """The text with every unseen or steering character replaced by a visible mark.

    C0 controls and DEL become their control pictures (U+2400 block); C1 controls,
    direction-changing, zero-width, other format characters and lone surrogates become marks like
    ``<U+202E>``. With `lines`, newline and tab stay. Everything else, brackets and
    markup too, stays as typed. Applying it twice changes nothing more.
    """
    if text.isascii() and text.isprintable():
        return text
    return text.translate(_LINES if lines else _ONE_LINE)
