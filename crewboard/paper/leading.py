"""Names in a text of a page that lead to another place of the pages."""

import re
from collections.abc import Callable, Sequence
from html import escape

from crewboard.telling.line import Pointer


def leading(text: str, ways: Sequence[Pointer], escaped: Callable[[str], str]) -> str:
    """The text as markup, each whole name in it that leads somewhere as a link."""
    address = {way.name: way.address for way in ways if way.name}
    if not address:
        return escaped(text)
    names = "|".join(re.escape(name) for name in sorted(address, key=len, reverse=True))
    # The pieces between the names and the names take turns.
    parts = re.split(rf"(?<!\w)({names})(?!\w)", text)
    return "".join(
        f'<a href="{escape(address[part])}">{escaped(part)}</a>' if number % 2 else escaped(part)
        for number, part in enumerate(parts)
    )
