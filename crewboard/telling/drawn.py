"""Text fitted to columns, and lengths drawn as bars of characters."""

_MARKS = "\u0300"  # before the combining marks every character takes one column
_EIGHTHS = " ▏▎▍▌▋▊▉█"


class _Columns(dict[str, int]):
    """The columns of each character, worked out when it is first met."""

    def __missing__(self, char: str) -> int:
        from unicodedata import category, east_asian_width

        wide = 2 if east_asian_width(char) in ("W", "F") else 1
        columns = self[char] = 0 if category(char) in ("Mn", "Me") else wide
        return columns


_COLUMNS = _Columns()


def cells(text: str) -> int:
    """Columns the text takes on a screen: wide characters take two, combining marks none.

    Source: Unicode Standard Annex 11, East Asian Width.
    """
    if text.isascii() or max(text) < _MARKS:
        return len(text)
    return sum(map(_COLUMNS.__getitem__, text))


def padded(text: str, width: int) -> str:
    """The text, filled up with blanks to `width` columns."""
    return text + " " * max(0, width - cells(text))


def drawn_bar(share: float, room: int, *, plain: bool = False) -> str:
    """A bar of `share` (0 to 1) of `room` columns; in eighths of a column unless `plain`."""
    if plain:
        return "#" * round(share * room)
    full, eighth = divmod(round(share * room * 8), 8)
    return "█" * full + _EIGHTHS[eighth].strip()


def track(share: float, width: int, *, plain: bool = False) -> str:
    """ "━━━━──", or "####--" for ASCII: how far of the whole way."""
    # Full only at the end: a bar must not say that something is over before it is.
    filled = width if share >= 1 else min(width - 1, int(share * width))
    done, ahead = ("#", "-") if plain else ("━", "─")
    return done * filled + ahead * (width - filled)
