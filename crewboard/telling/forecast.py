"""The forecast in words: the dates, the ruler, how the plan grew, what is supposed, the rest."""

from collections.abc import Sequence
from datetime import date, datetime

from crewboard.order.board import Board
from crewboard.order.forecast.finish import Forecast, Growth, Rough, Sooner, Supposed
from crewboard.order.said import SHORT_MONTHS, day_in_words, how_long, how_many, listed, piece_first
from crewboard.telling.date_ruler import Mark, Side, drawn, scale_of
from crewboard.telling.drawn import track
from crewboard.telling.forecast_components import YEARS, component_table
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.row import STATE_TONE, Row, heading

EXPECTED, PLANNED = "with what usually turns up", "as the plan stands"
_FEW = 8  # tasks of the longest chain that are named where there is no list to go through
_CHANCES = (  # word, tone, beside its mark on the ruler
    ("even chance (50 %)", "caution", "50 %"),
    ("four in five (80 %)", "must", "80 %"),
    ("nearly sure (95 %)", "safe", "95 %"),
)


def forecast_lines(
    board: Board, forecast: Forecast, width: int, *, plain: bool, running: str = ""
) -> list[Line]:
    """All but the chain, for lines of at most `width` columns; `plain` draws in ASCII. `running`
    says beside the title what is still being worked out."""
    ways = way_lines(forecast)
    return [
        *date_lines(board, forecast, width, plain=plain, running=running),
        *([GAP, *ways] if ways else []),
        *rest_lines(board, forecast, width),
    ]


def date_lines(
    board: Board, forecast: Forecast, width: int, *, plain: bool, running: str = ""
) -> list[Line]:
    """What is read first: the dates, the ruler, how the plan grew, what is supposed."""
    head = title_of(board)
    beside = bool(running) and len(head) + len(running) + 3 <= width
    return [
        *([Line(running, "strong", 0, f"{head}  ")] if beside else [title(head)]),
        *([Line(running, "strong", 2)] if running and not beside else []),
        *finish_lines(forecast, width, plain=plain),
        *_growth_lines(forecast),
        *supposed_lines(forecast.supposed),
    ]


def rest_lines(board: Board, forecast: Forecast, width: int) -> list[Line]:
    """The components, and what else is to be known of the dates; a gap before each."""
    remarks = [Line(remark, "warning") for remark in forecast.remarks]
    if not forecast.too_little:
        remarks.append(Line(basis_in_words(forecast), "faint"))
    parts = (_component_lines(board, forecast, width), remarks)
    return [line for part in parts if part for line in (GAP, *part)]


def how_far(what: str, done: int, of: int, *, plain: bool) -> str:
    """ "━━━━────── the trial runs": how far something that takes a while is."""
    return f"{track(done / max(1, of), 10, plain=plain)} {what}"


def title_of(board: Board) -> str:
    """What heads it all."""
    return f"When {board.plan.vehicle.name} will be finished"


# --- the dates -----------------------------------------------------------------------------------


def finish_lines(forecast: Forecast, width: int, *, plain: bool) -> list[Line]:
    """The dates of the whole vehicle, with the ruler; a range where too little is known."""
    if forecast.too_little:
        return _rough_lines(forecast, width, plain=plain)
    at, wide = forecast.at, max(len(word) for word, _, _ in _CHANCES)
    expected = [finish_date(day, at) for day in forecast.vehicle]
    planned = [finish_date(day, at) for day in forecast.as_planned]
    roomy = width >= wide + 50
    heads = (EXPECTED, PLANNED) if roomy else ("with what turns up", "as planned")
    column = max(map(len, (heads[0], *expected)))
    lines = [Line(f"{heads[0]:<{column}}  {heads[1]}", "strong", 2, " " * wide)]
    for (word, tone, _), one, other in zip(_CHANCES, expected, planned, strict=True):
        lines.append(Line(f"{one:<{column}}  {other}", tone, 2, f"{word:<{wide}}"))
    soonest = f"{finish_date(forecast.soonest, at)}, {'with ' * roomy}people always free"
    lines.append(Line(soonest, "faint", 2, f"{'earliest possible':<{wide}}"))
    return [*lines, *(Line(row, indent=2) for row in ruler(forecast, width - 2, plain=plain))]


def ruler(forecast: Forecast, width: int, *, plain: bool = False) -> list[str]:
    """The dates on the years ahead: what is expected above, the plan as it stands below. Where too
    little is known, the range. Nothing where no date lies within fifty years."""
    above, below = sides_of(forecast)
    days = [mark.day for mark in (*above.marks, *below.marks)]
    if not days:
        return []
    beyond = 2 + max(len(mark.label) for mark in (*above.marks, *below.marks))
    scale = scale_of(forecast.at.date(), days, width, beyond)
    return drawn(scale, above, below, plain=plain)


def sides_of(forecast: Forecast) -> tuple[Side, Side]:
    """What stands above the ruler and below it."""
    if forecast.too_little:
        rough = forecast.rough
        ends = ((rough.first, "from"), (rough.last, "to")) if rough is not None else ()
        marks = [Mark(day, label) for day, label in ends if day is not None]
        return Side("by the estimates alone", marks), Side("", ())
    above, below = (
        [
            Mark(day, label)
            for day, (_, _, label) in zip(finish, _CHANCES, strict=True)
            if day is not None
        ]
        for finish in (forecast.vehicle, forecast.as_planned)
    )
    return Side(EXPECTED, above), Side(PLANNED, below)


def _rough_lines(forecast: Forecast, width: int, *, plain: bool) -> list[Line]:
    lines = [Line(f"{forecast.too_little[0].upper()}{forecast.too_little[1:]}.", "caution", 2)]
    rough = forecast.rough
    if rough is None:
        return lines
    return [
        *lines,
        Line(range_in_words(rough, forecast.at), "must", 2, "by the estimates alone:"),
        *(Line(row, indent=2) for row in ruler(forecast, width - 2, plain=plain)),
        Line(rough_in_words(rough), "plain", 2),
    ]


def range_in_words(rough: Rough, at: datetime) -> str:
    """ "between Mar 2027 and Sep 2031"."""
    first, last = _month(rough.first), _month(rough.last)
    if last is None:
        return f"not before {first}, and it can be later than {at.year + YEARS}"
    return f"in {first}" if first == last else f"between {first} and {last}"


def rough_in_words(rough: Rough) -> str:
    """How the range came about, and what it is not."""
    hours = f"{rough.low:,.0f} h" if rough.low == rough.high else ""
    hours = hours or f"{rough.low:,.0f} to {rough.high:,.0f} h"
    people = how_many(rough.many, "person")
    people = people if rough.few == rough.many else f"{rough.few} to {people}"
    crew = f"of {rough.crew} in the crew list" if rough.crew else "(the crew list names nobody)"
    return (
        f"{hours} of work are left by the estimates, for {people} {crew} on each of "
        f"{how_many(rough.days, 'work day')} in the coming year. The early end takes the low "
        "estimates and many people; the late end the high ones, few people who spend six tenths "
        "of the day on tasks, and all holds on top. No chance can be given yet, and what turns up "
        "on the way is not in it."
    )


def _month(day: date | None) -> str | None:
    return None if day is None else f"{SHORT_MONTHS[day.month - 1]} {day.year}"


def finish_date(day: date | None, at: datetime) -> str:
    """The date in words; none means that it lies further off than is looked."""
    return f"later than {at.year + YEARS}" if day is None else day_in_words(day)


# --- how the plan grew, and what is supposed -----------------------------------------------------


def _growth_lines(forecast: Forecast) -> list[Line]:
    if forecast.too_little:
        return []
    if forecast.growth is None:
        return [Line("Work that turns up on the way and is not in the plan yet is not counted.")]
    return [Line(growth_in_words(forecast.growth), "strong")]


def growth_in_words(growth: Growth) -> str:
    """How much the plan has grown so far."""
    if growth.since is None:
        return (
            "How far the plan has grown is not known, as no task says when it came: the first "
            "dates go by what is usual elsewhere."
        )
    since = f"since {SHORT_MONTHS[growth.since.month - 1]} {growth.since.year}"
    if not growth.found:
        return f"The plan has not grown {since}: no task was found on the way."
    tasks = f"{how_many(growth.found, 'task')} ({growth.found_hours:,.0f} h)"
    if not growth.planned_hours:
        return f"{tasks} came into the plan {since}."
    share = growth.found_hours / growth.planned_hours * 100
    return f"The plan has grown by {share:.0f} % {since}: {tasks} turned up."


def supposed_lines(supposed: Sequence[Supposed]) -> list[Line]:
    """What nobody has seen to yet, by name, those alike in one line."""
    if not supposed:
        return []
    alike: dict[tuple[str, str], list[str]] = {}
    for each in supposed:
        why = each.why if each.kind in ("nobody may", "too few come", "no crew") else ""
        alike.setdefault((each.kind, why), []).append(each.name)
    words: dict[str, list[str]] = {}  # names -> the words that hold of them
    lines = [Line("The dates suppose what nobody has seen to yet:", "strong")]
    for (kind, why), names in alike.items():
        if kind == "nobody may":
            lines.append(Line(f"somebody for {listed(names)}: {why}", "caution", 2, "found:"))
        elif kind == "no crew":
            lines.append(Line(f"{listed(names)}: {why}", "caution", 2, "found:"))
        elif kind == "too few come":
            lines.append(Line(f"enough people for {listed(names)}: {why}", "caution", 2, "there:"))
        else:
            word = "here, though overdue" if kind == "overdue" else kind.removeprefix("not ")
            words.setdefault("; ".join(dict.fromkeys(names)), []).append(word)
    lines += [Line(names, "caution", 2, f"{listed(said)}:") for names, said in words.items()]
    return lines


# --- what sets the date, and what would help -----------------------------------------------------


def chain_rows(board: Board, forecast: Forecast, most: int | None = None) -> list[Row]:
    """The tasks by how often they set the date, `most` of them or all. Without shares where no
    chance can be given."""
    if not forecast.on_chain:
        return []
    rough = bool(forecast.too_little)
    rows = [
        heading("What comes to set the date" if rough else "What sets the date, in how many runs")
    ]
    for link in forecast.on_chain[:most]:
        standing = board[link.task]
        tone = "warning" if link.share >= 0.5 else "plain"
        cells_of = (
            "" if rough else f"{link.share * 100:.0f} %",
            piece_first(board.plan, standing.task),
            standing.state,
        )
        rows.append(Row(link.task, cells_of, tone, find=STATE_TONE[standing.state]))
    return rows


def few_chain_rows(board: Board, forecast: Forecast) -> list[Row]:
    """The tasks that most often set the date."""
    return chain_rows(board, forecast, _FEW)


def way_lines(forecast: Forecast) -> list[Line]:
    """What would bring the dates forward, where that was tried."""
    ways = forecast.sooner
    if not ways:
        return []
    return [title("What would bring it forward, on average"), *sooner_lines(ways)]


def sooner_lines(ways: Sequence[Sooner]) -> list[Line]:
    """What each change brings, where that is above its error; the others are counted."""
    lines = [
        Line(way.says, "safe", 2, f"{how_long(way.gain)} sooner:") for way in ways if way.tells
    ]
    others = sum(not way.tells for way in ways)
    tried = how_many(others, "other change")
    return [*lines, Line(tried, "faint", 2, "no clear gain:")] if others else lines


def basis_in_words(forecast: Forecast) -> str:
    """On how much the dates stand."""
    stopped = f" of {forecast.asked:,}, stopped" if forecast.stopped else ""
    runs = "1 trial run" if forecast.runs == 1 else f"{forecast.runs:,} trial runs"
    days = how_many(forecast.basis.work_days, "work day")
    tasks = how_many(forecast.basis.tasks_with_hours, "finished task")
    return f"{runs}{stopped}, seed {forecast.seed}; from {days} of sign-ins and {tasks} with hours."


def _component_lines(board: Board, forecast: Forecast, width: int) -> list[Line]:
    if forecast.too_little:
        return []
    table = component_table(board, forecast, width)
    rows = (Line(row, indent=2) for row in table or ["no work is left"])
    return [title(f"Components, {EXPECTED}"), *rows]
