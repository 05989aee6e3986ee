"""What a shop reading does to the clocks of holds, said as soon as it is written down."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import outside_in_words
from crewboard.order.said import how_many

_LOST = "the time since the last reading does not count"


def clock_news(before: Board, after: Board) -> tuple[str, ...]:
    """ "3 clocks stopped: too cold (4 °C, it wants 10 °C)"; which go on, which ended later or run
    again. `before` and `after` are boards of the same moment, without and with the reading."""
    both = [(old, after.holds[i]) for i, old in before.holds.items() if i in after.holds]
    moved = [(old, new) for old, new in both if new.released_at is None and old != new]
    stopped = [new for old, new in moved if new.outside and new.stops_work and not old.outside]
    going = [new for old, new in moved if old.outside and not new.outside and new.stops_work]
    again = [new for old, new in moved if not old.stops_work and new.stops_work]
    later = [new for old, new in moved if _later(old, new) and new not in [*stopped, *again]]
    return (
        *_stopped(after, stopped),
        *_said(going, "{} again", "goes on", "go on"),
        *_said(again, "{} again: " + _LOST, "runs", "run"),
        *_said(later, "{} later: " + _LOST, "ends", "end"),
    )


def _later(old: StandingHold, new: StandingHold) -> bool:
    """Whether more hours are lost than those up to the board's moment while it stands still."""
    known = old.until is not None and new.until is not None
    return known and not new.outside and not old.outside and new.lost > old.lost


def _stopped(board: Board, stopped: Iterable[StandingHold]) -> Iterator[str]:
    reasons: dict[str, int] = {}
    for hold in stopped:
        assert hold.outside is not None
        words = outside_in_words(hold.outside, board.plan.vehicle.units)
        reasons[words] = reasons.get(words, 0) + 1
    return (f"{how_many(count, 'clock')} stopped: {words}" for words, count in reasons.items())


def _said(holds: list[StandingHold], sentence: str, one: str, many: str) -> Iterator[str]:
    if holds:
        does = one if len(holds) == 1 else many
        yield sentence.format(f"{how_many(len(holds), 'clock')} {does}")
