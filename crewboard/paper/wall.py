"""The page on the wall: one HTML file that refreshes itself, for any old tablet or television."""

from crewboard.order.board import Board
from crewboard.paper.page import escaped, whole_page
from crewboard.paper.style import WALL
from crewboard.telling.wall import Wall, WallLine, WallPart, wall

WALL_PAGE = "crewboard wall"
"""By this mark in its head a file is known to be such a page, which may be written over."""

_SECONDS = 20  # after which it is read again


def wall_page(board: Board) -> str:
    """The page of the board's moment."""
    shown = wall(board)
    refresh = f'<meta http-equiv="refresh" content="{_SECONDS}">\n'
    refresh += '<meta name="viewport" content="width=device-width">\n'
    return whole_page(f"{shown.vehicle}: the wall", WALL_PAGE, WALL, _body(shown), refresh)


def _body(shown: Wall) -> str:
    missing = "".join(f'<div class="missing">{escaped(text)}</div>\n' for text in shown.missing)
    call = f"<span>emergency: {escaped(shown.emergency)}</span>" if shown.emergency else ""
    parts = "".join(map(_part, shown.parts))
    return (
        f"<body>\n<header><b>{escaped(shown.vehicle)}</b>{call}"
        f"<span>as of {escaped(shown.at)}</span></header>\n{missing}"
        f'<main>\n<div class="side">{_part(shown.alone)}</div>\n<div class="side">\n{parts}</div>\n'
        "</main>\n</body>\n"
    )


def _part(part: WallPart) -> str:
    more = f'<p class="more">+{part.more} more</p>' if part.more else ""
    lines = "".join(map(_line, part.lines))
    heading = f"<h2>{escaped(part.heading)}</h2>"
    return f'<section class="{part.tone}">{heading}\n{lines}{more}</section>\n'


def _line(line: WallLine) -> str:
    large = f"<b>{escaped(line.text)}</b>" if line.text else ""
    small = f" <span>{escaped(line.small)}</span>" if line.small else ""
    return f"<p>{large}{small}</p>\n"
