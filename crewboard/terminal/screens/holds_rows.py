"""Holds as rows: those due for a look first, then by their end; under them those lately over."""

from __future__ import annotations

from crewboard.order.board import LATELY, Board
from crewboard.order.running import StandingHold
from crewboard.order.said import day_and_time, how_long, how_many, person
from crewboard.plan.hold import KINDS
from crewboard.plan.units import temperature
from crewboard.telling.holds import conditions_in_words
from crewboard.telling.row import Row, heading
from crewboard.terminal.told import hold_title
from crewboard.terminal.widgets.bar import bar
from crewboard.terminal.widgets.rows import Column

COLUMNS = (
    Column(14),
    Column(),
    Column(14, right=True, wide_only=True, tone="faint"),
    Column(18, right=True, tone="plain"),
)


def hold_rows(board: Board, *, plain: bool = False) -> list[Row]:
    """A row for each hold, with headings."""
    stopping = board.stopping()
    due = [hold for hold in stopping if hold.stage == "due"]
    running = [hold for hold in stopping if hold.stage != "due"]
    over = board.lately_over()
    rows: list[Row] = []
    for head, tone, holds in (
        (f"Due for a look ({len(due)})", "must", due),
        (f"Held ({len(running)})", "caution", running),
        (f"Over in the last {LATELY.days} days ({len(over)})", "faint", over),
    ):
        if holds:
            rows += [heading(head, tone), *(_row(board, hold, plain) for hold in holds)]
    return rows


def _row(board: Board, hold: StandingHold, plain: bool) -> Row:
    word, tone = {
        "due": ("due for a look", "must"),
        "running": ("held", "caution"),
        "over": ("released" if hold.released_at else "over", "faint"),
    }[hold.stage]
    if hold.leave_alone and hold.stage == "running":
        word, tone = "leave alone", "danger"
    title = hold_title(board, hold)
    share = hold.share(board.at) if hold.stage != "over" else None
    cells = (word, title, _to_go(board, hold), bar(share, plain=plain))
    below = _let_go(board, hold)
    if hold.stage != "over":
        below = [_when(hold), *_marks(board, hold)]
    component = board.plan.components.get(hold.component)
    return Row(
        hold.id,
        cells,
        tone,
        tuple(below),
        find=f"{hold.kind} {component.name if component else ''}",
    )


def _to_go(board: Board, hold: StandingHold) -> str:
    if hold.stage != "running" or hold.until is None:
        return ""
    return f"{how_long(hold.until - board.at)} to go"


def _when(hold: StandingHold) -> str:
    """ "on the form since Sat 2 May 2026 16:00, until Tue 2 Jun 2026 16:00"."""
    since = f"{KINDS[hold.kind].words} since {day_and_time(hold.since)}"
    if hold.until is None:
        return f"{since}, until released"
    earliest = " at the earliest" if hold.outside else ""
    return f"{since}, until {day_and_time(hold.until)}{earliest}"


def _marks(board: Board, hold: StandingHold) -> list[str]:
    marks = []
    if hold.leave_alone:
        component = board.plan.components.get(hold.component)
        marks.append(f"nobody works on {component.name if component else 'it'}")
    if hold.outside:
        marks.append("STANDS STILL: the shop is outside its conditions")
    elif hold.conditions:
        words = conditions_in_words(hold.conditions, board.plan.vehicle.units)
        marks.append(f"counts only {words}")
    if hold.stood_still:
        marks.append(f"{how_long(hold.lost)} did not count")
    if hold.extended:
        last = hold.extended[-1]
        by = f" by {person(board.plan, last.by)}" if last.by else ""
        times = f" ({how_many(len(hold.extended), 'time')})" if len(hold.extended) > 1 else ""
        marks.append(f"extended{by}{times}: {last.why}")
    return marks


def _let_go(board: Board, hold: StandingHold) -> list[str]:
    if hold.released_at is None:
        return [_when(hold)]
    by = f" by {person(board.plan, hold.released_by)}" if hold.released_by else ""
    why = f": {hold.released_why}" if hold.released_why else ""
    since = f"{KINDS[hold.kind].words} since {day_and_time(hold.since)}"
    return [f"released {day_and_time(hold.released_at)}{by}{why}", since]


def shop_in_words(board: Board) -> str:
    """The last shop reading, or that there is none."""
    if not board.history.readings:
        return "no shop reading yet: t writes one down"
    at, reading = board.history.readings[-1]
    told = []
    if reading.celsius is not None:
        told.append(temperature(reading.celsius, board.plan.vehicle.units))
    if reading.humidity is not None:
        told.append(f"{reading.humidity:g} % humidity")
    return f"{', '.join(told)}, read {day_and_time(at)}"
