"""A picture of a screen as an SVG file, made without a terminal.

`python -m crewboard.terminal.screenshot DIR --at 2026-05-02T10:40 --size 100x30 --out day.svg`
"""

from __future__ import annotations

import re
import sys
from collections.abc import Sequence
from datetime import datetime

from crewboard.order.said import day_in_words
from crewboard.terminal.app import CrewboardApp
from crewboard.workbench import Workbench

_SIZE = (100, 30)
_BLANK = "&#160;"
_TEXT = re.compile(
    r'<text(?P<a>[^>]*?) x="(?P<x>[\d.]+)"(?P<b>[^>]*?) textLength="(?P<long>[\d.]+)"(?P<c>[^>]*)>'
    r"(?P<text>[^<]*)</text>"
)
# A web font would be fetched from elsewhere by whoever looks at it.
_FETCHED = re.compile(r"\s*@font-face\s*\{[^}]*\}")
# The buttons of one maker's windows say nothing of the shop.
_BUTTONS = re.compile(r"\s*<g [^>]*>(?:\s*<circle [^>]*/>)+\s*</g>")
_CHARACTER = re.compile(r"&#?\w+;|.", re.DOTALL)


async def screenshot(
    root: str, at: datetime, size: tuple[int, int] = _SIZE, keys: Sequence[str] = ()
) -> str:
    """The SVG text of the screen at that moment, `size` in columns and lines, after `keys`."""
    app = CrewboardApp(Workbench(root), lambda: at)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        for key in keys:
            await pilot.press(key)
            await pilot.pause()
        title = f"{app.board.plan.vehicle.name}, {day_in_words(at)}"
        return set_in(_BUTTONS.sub("", _FETCHED.sub("", app.export_screenshot(title=title))))


def set_in(svg: str) -> str:
    """The SVG with blanks at the ends of its texts told by their place.

    Some renderers swallow blanks at the start of a text and stretch what is left.
    """

    def shifted(drawn: re.Match[str]) -> str:
        characters = _CHARACTER.findall(drawn["text"])
        if not characters:
            return drawn[0]
        advance = float(drawn["long"]) / len(characters)
        before = next((n for n, c in enumerate(characters) if c != _BLANK), len(characters))
        kept = characters[before:]
        while kept and kept[-1] == _BLANK:
            kept.pop()
        if not kept:
            return ""
        x, long = float(drawn["x"]) + before * advance, len(kept) * advance
        return (
            f'<text{drawn["a"]} x="{x:.1f}"{drawn["b"]} textLength="{long:.1f}"{drawn["c"]}>'
            f"{''.join(kept)}</text>"
        )

    return _TEXT.sub(shifted, svg)


def main(arguments: Sequence[str] | None = None) -> int:
    """Write the screenshot; 0 where it was written, 2 where something was asked for wrongly."""
    from argparse import ArgumentParser
    from asyncio import run

    parser = ArgumentParser(prog="python -m crewboard.terminal.screenshot", description=__doc__)
    parser.add_argument("folder")
    parser.add_argument("--at", required=True, help="the moment: 2026-05-02T10:40")
    parser.add_argument("--size", default="100x30", help="columns x lines")
    parser.add_argument("--out", required=True, help="the file to write")
    parser.add_argument("--keys", default="", help="keys to press first, with blanks between")
    asked = parser.parse_args(arguments)
    size = re.fullmatch(r"(\d{2,3})x(\d{2,3})", asked.size)
    try:
        at = datetime.fromisoformat(asked.at)
    except ValueError:
        at = None
    if size is None or at is None:
        wrong = f"--size {asked.size}" if size is None else f"--at {asked.at}"
        print(
            f"{wrong} cannot be read: write --size 100x30, --at 2026-05-02T10:40", file=sys.stderr
        )
        return 2
    svg = run(screenshot(asked.folder, at, (int(size[1]), int(size[2])), asked.keys.split()))
    try:
        with open(asked.out, "w", encoding="utf-8") as file:
            file.write(svg)
    except OSError as error:
        print(f"{asked.out} cannot be written: {error.strerror}", file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main())
