"""The page on the wall: one HTML file that refreshes itself, for any old tablet or television."""

from base64 import b64encode
from datetime import datetime
from hashlib import sha256

from crewboard.order.board import Board
from crewboard.order.said import day_and_time
from crewboard.paper.page import escaped, whole_page
from crewboard.paper.style import WALL
from crewboard.telling.wall import Wall, WallLine, WallPart
from crewboard.telling.wall_ahead import walls

WALL_PAGE = "crewboard wall"
"""By this mark in its head a file is known to be such a page, which may be written over."""

_SECONDS = 20  # after which it is read again

# Of what stands on the page it shows the last whose moment has come, by the clock of whatever shows
# it. It reads nothing else; without it the moment at which the page was made stays.
TURN = """
function turn() {
  var two = function (n) { return (n < 10 ? "0" : "") + n; };
  var d = new Date();
  var now = d.getFullYear() + "-" + two(d.getMonth() + 1) + "-" + two(d.getDate())
    + "T" + two(d.getHours()) + ":" + two(d.getMinutes());
  var stages = document.querySelectorAll(".stage");
  var shown = stages[0];
  for (var i = 1; i < stages.length; i++) {
    if (stages[i].getAttribute("data-from") <= now) { shown = stages[i]; }
  }
  for (i = 0; i < stages.length; i++) { stages[i].hidden = stages[i] !== shown; }
}
turn();
setInterval(turn, 5000);
"""
_ALLOWED = b64encode(sha256(TURN.encode()).digest()).decode()


def wall_page(board: Board) -> str:
    """The page of the board's moment, and of those to come should nobody write anything."""
    stages = walls(board)
    vehicle = stages[0][1].vehicle
    refresh = f'<meta http-equiv="refresh" content="{_SECONDS}">\n'
    refresh += '<meta name="viewport" content="width=device-width">\n'
    shown = "".join(_stage(at, wall, hidden=at != board.at) for at, wall in stages)
    made = f"Made {day_and_time(board.at)}. What another computer wrote since may be missing."
    body = f"<body>\n{shown}<footer>{escaped(made)}</footer>\n<script>{TURN}</script>\n</body>\n"
    return whole_page(f"{vehicle}: the wall", WALL_PAGE, WALL, body, refresh, script=_ALLOWED)


def _stage(at: datetime, shown: Wall, *, hidden: bool) -> str:
    missing = "".join(f'<div class="missing">{escaped(text)}</div>\n' for text in shown.missing)
    call = f"<span>emergency: {escaped(shown.emergency)}</span>" if shown.emergency else ""
    parts = "".join(map(_part, shown.parts))
    return (
        f'<div class="stage" data-from="{at:%Y-%m-%dT%H:%M}"{" hidden" if hidden else ""}>\n'
        f"<header><b>{escaped(shown.vehicle)}</b>{call}"
        f"<span>as of {escaped(shown.at)}</span></header>\n{missing}"
        f'<main>\n<div class="side">{_part(shown.alone)}</div>\n<div class="side">\n{parts}</div>\n'
        "</main>\n</div>\n"
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
