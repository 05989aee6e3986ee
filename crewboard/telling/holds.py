"""Holds: those due for a look first, then by their end, and those that are over."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Literal

from crewboard.order.board import LATELY, Board
from crewboard.order.holds.running import Extension, StandingHold
from crewboard.order.holds.shop_air import NoReading
from crewboard.order.holds.words import (
    course_in_words,
    hold_title,
    no_reading_in_words,
    outside_in_words,
)
from crewboard.order.left_alone import alike
from crewboard.order.said import (
    component_name,
    day_and_time,
    how_long,
    listed,
    person,
    pieces_in_words,
    when,
)
from crewboard.plan.hold import KINDS, Conditions, Hold
from crewboard.plan.units import temperature
from crewboard.telling.clocks import clock_rows
from crewboard.telling.line import Line, Tone
from crewboard.telling.row import Row, heading, percent
from crewboard.telling.series import FoldedSeries, titled

Over = Literal["none", "lately", "all"]


def hold_rows(board: Board, *, over: Over = "lately", full: bool = False) -> list[Row]:
    """A row for each hold, with headings; `full` with all that is known of it below."""
    stopping = board.stopping()
    past = {"none": [], "lately": board.lately_over(), "all": _all_over(board)}[over]
    late = f" in the last {LATELY.days} days" if over == "lately" else ""
    clocks = clock_rows(board)
    rows = [heading(f"Clocks that protect ({len(clocks)})", "warning"), *clocks] if clocks else []
    for head, tone, holds in (
        ("Due for a look", "must", [hold for hold in stopping if hold.stage == "due"]),
        ("On hold", "caution", [hold for hold in stopping if hold.stage != "due"]),
        (f"Over{late}", "faint", past),
    ):
        if holds:
            rows.append(heading(f"{head} ({len(holds)})", tone))
            rows += [_row(board, hold, full) for hold in holds] if full else _folded(board, holds)
    return rows


def _folded(board: Board, holds: Iterable[StandingHold]) -> list[Row]:
    """A row for each, but one for those of one series that stand alike and end on one day; of
    those that are over, that ended alike."""
    together: dict[object, list[StandingHold]] = {}
    for hold in holds:
        ended = _course(board, hold) if hold.stage == "over" else ""
        together.setdefault((alike(board.plan, hold), ended), []).append(hold)
    return [_as_one(board, group) for group in together.values()]


def _as_one(board: Board, holds: Sequence[StandingHold]) -> Row:
    """Their row, by the one that ends last: what all have in common once, the courses of each."""
    rows = [_row(board, hold, full=False) for hold in holds]
    row = rows[-1]
    if len(rows) < 2:
        return row
    tasks = tuple(hold.task for hold in holds)
    name = titled(board, FoldedSeries(board.plan.tasks[tasks[0]].series, tasks))
    each = _by_course(board, holds, _course)
    common = (line for line in row.below[1:] if all(line in other.below for other in rows))
    ids = tuple(hold.id for hold in holds)
    cells = (row.cells[0], name, *row.cells[2:])
    return row._replace(id=ids[0], cells=cells, below=(*each, *common), tasks=ids)


def courses(board: Board, holds: Sequence[StandingHold]) -> list[str]:
    """Since when and until when; of several that differ each with its pieces before it."""
    return _by_course(board, holds, lambda b, hold: course_in_words(b.plan, hold, b.at))


def _by_course(
    board: Board, holds: Sequence[StandingHold], told: Callable[[Board, StandingHold], str]
) -> list[str]:
    pieces: dict[str, list[str]] = {}
    for hold in holds:
        pieces.setdefault(told(board, hold), []).extend(hold.pieces)
    if len(pieces) < 2:
        return list(pieces)
    return [f"{pieces_in_words(board.plan, on)} {course}" for course, on in pieces.items()]


def _all_over(board: Board) -> list[StandingHold]:
    over = (hold for hold in board.holds.values() if not hold.stops_work)
    return sorted(over, key=lambda hold: hold.ended, reverse=True)


def _row(board: Board, hold: StandingHold, full: bool) -> Row:
    word, tone = hold_state(hold)
    share = hold.share(board.at) if hold.stage == "running" and not full else None
    known = _known(board, hold, full) if full or hold.stage != "over" else ()
    below = [line.text for line in known]
    return Row(
        hold.id,
        (word, hold_title(board.plan, hold), "" if full else _to_go(board, hold)),
        tone,
        (_course(board, hold), *below),
        find=f"{hold.kind} {component_name(board.plan, hold.component)}",
        handle=hold.id,
        share=share,
    )


def hold_state(hold: StandingHold) -> tuple[str, Tone]:
    """The word of the state a hold is in, and its tone."""
    if hold.stage == "due":
        return "due for a look", "must"
    if hold.stage == "over":
        return ("released" if hold.released_at else "over"), "faint"
    return ("leave alone", "danger") if hold.leave_alone else ("on hold", "caution")


def _to_go(board: Board, hold: StandingHold) -> str:
    if hold.stage != "running" or hold.until is None:
        return ""
    return f"{how_long(board.plan.clock.between(board.at, hold.until))} to go"


def _course(board: Board, hold: StandingHold) -> str:
    """Since when and until when; of one that was released, by whom and why first."""
    if hold.released_at is None:
        return _since(board, hold)
    since = f"{KINDS[hold.kind].words} since {when(hold.since, board.at)}"
    return f"{_released(board, hold)}; {since}"


def _released(board: Board, hold: StandingHold) -> str:
    by = f" by {person(board.plan, hold.released_by)}" if hold.released_by else ""
    why = f": {hold.released_why}" if hold.released_why else ""
    return f"released {when(hold.released_at, board.at)}{by}{why}" if hold.released_at else ""


def hold_lines(board: Board, hold: StandingHold, *, named: bool = False) -> list[Line]:
    """Everything known of a hold; `named` with the pieces that it is on."""
    word, tone = hold_state(hold)
    on = f"{pieces_in_words(board.plan, hold.pieces)}, " if named and hold.pieces else ""
    lines = [Line(f"{on}{_since(board, hold)}", tone, 0, f"{word}:")]
    if hold.released_at is not None:
        lines.append(Line(_released(board, hold), "plain", 2))
    lines += [line._replace(indent=2) for line in _known(board, hold, full=True)]
    return lines


def _since(board: Board, hold: StandingHold) -> str:
    """Its course behind the word of its state, which says already that it is due."""
    if hold.stage != "due" or hold.until is None:
        return course_in_words(board.plan, hold, board.at)
    since = f"{KINDS[hold.kind].words} since {when(hold.since, board.at)}"
    return f"since {when(hold.until, board.at)}, {since}"


def _known(board: Board, hold: StandingHold, full: bool) -> Iterator[Line]:
    """What is known besides its course; with `full` also what its end asks for, and its note."""
    if full and hold.stage == "running" and hold.until is not None:
        passed = percent(hold.share(board.at) or 0)
        ends = "then it is due for a look" if hold.asks else "then it ends by itself"
        yield Line(f"{passed} % passed, {_to_go(board, hold)}; {ends}")
    if hold.leave_alone and hold.stops_work:
        yield Line(nobody_works_on(board, hold), "danger")
    elif full and hold.keeps_pieces and hold.stops_work:
        yield Line(nobody_works_on(board, hold))
    yield from _clock(board, hold)
    yield from (Line(_extension(board, extension)) for extension in hold.extended)
    if full and hold.note:
        yield Line(hold.note)
    if full and hold.source:
        yield Line(f"source of the time: {hold.source}")


def nobody_works_on(board: Board, hold: StandingHold) -> str:
    """What leaving a component or pieces alone means."""
    on = component_name(board.plan, hold.component) or "it"
    if hold.keeps_pieces and not hold.leave_alone:
        on = pieces_in_words(board.plan, hold.pieces)
    return f"nobody works on {on} until it is {'released' if hold.asks else 'over'}"


def _clock(board: Board, hold: StandingHold) -> Iterator[Line]:
    if hold.conditions:
        yield Line(conditions_in_words(hold.conditions, board.plan.vehicle.units))
    if hold.outside is not None and hold.stage == "running":
        stopped = outside_in_words(hold.outside, board.plan.vehicle.units)
        yield Line(f"stopped: {stopped}", "warning")
    if hold.no_reading is not None:
        yield _unread(board, hold, hold.no_reading)
    if hold.stood_still:
        yield Line(f"{how_long(hold.lost)} did not count")


def _unread(board: Board, hold: StandingHold, no_reading: NoReading) -> Line:
    """What the readings leave open: a look that is due, or one that a reading can still spare."""
    if not no_reading.to_come:
        return Line(f"due for a look: {no_reading_in_words(no_reading)}", "must")
    read = no_reading.since
    last = f"last read {when(read, board.at)}" if read is not None else "not read yet"
    if hold.release == "look":
        return Line(f"read the shop again meanwhile: {last}")
    return Line(f"read the shop, or it is due for a look: {last}")


def _extension(board: Board, extension: Extension) -> str:
    by = f" by {person(board.plan, extension.by)}" if extension.by else ""
    until, at = when(extension.until, board.at), when(extension.at, board.at)
    return f"extended{by} to {until}: {extension.why} (said {at})"


def planned_hold(hold: Hold, units: str) -> str:
    """A hold as the plan foresees it: "on the form, 1 month, then a look; ..."."""
    ends = "then a look" if hold.release == "look" else "ends by itself"
    words = KINDS[hold.kind].words
    parts = [f"{words}, {hold.lasts}, {ends}" if hold.lasts else f"{words}, until released"]
    if hold.conditions:
        parts.append(conditions_in_words(hold.conditions, units))
    if hold.leave_alone:
        parts.append("the whole component is left alone")
    parts += [text for text in (hold.note, hold.source and f"source: {hold.source}") if text]
    return "; ".join(parts)


def conditions_in_words(conditions: Conditions, units: str = "metric") -> str:
    """ "its clock runs only at 10 °C or above and 85 % humidity or below"."""
    return f"its clock runs only at {limits_in_words(conditions, units)}"


def limits_in_words(conditions: Conditions, units: str = "metric") -> str:
    """ "10 °C or above and 85 % humidity or below"."""
    limits = []
    if conditions.at_least_c is not None:
        limits.append(f"{temperature(conditions.at_least_c, units)} or above")
    if conditions.at_most_c is not None:
        limits.append(f"{temperature(conditions.at_most_c, units)} or below")
    if conditions.at_least_humidity is not None:
        limits.append(f"{conditions.at_least_humidity:g} % humidity or above")
    if conditions.at_most_humidity is not None:
        limits.append(f"{conditions.at_most_humidity:g} % humidity or below")
    return listed(limits)


def shop_in_words(board: Board) -> str:
    """The last shop reading, or that there is none."""
    if not board.history.readings:
        return "no shop reading yet"
    at, reading = board.history.readings[-1]
    measured = []
    if reading.celsius is not None:
        measured.append(temperature(reading.celsius, board.plan.vehicle.units))
    if reading.humidity is not None:
        measured.append(f"{reading.humidity:g} % humidity")
    return f"{', '.join(measured)}, read {day_and_time(at)}"
