"""Tags to hang on what must be left alone: until when, why, and whom to ask."""

from datetime import date, datetime

from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.holds.words import hold_title, outside_in_words
from crewboard.order.left_alone import LeftAlone, left_alone
from crewboard.order.said import component_name, day_and_time, day_in_words, listed, person
from crewboard.plan.hold import KINDS
from crewboard.telling.holds import limits_in_words
from crewboard.telling.report import Card, Cards, Cell, Fill, Request

_LEADS = 2  # named where nobody else is to be asked
_NAME = 120  # characters of a name in large letters


def report(request: Request) -> Cards:
    """A tag for each thing that must not be touched now, the soonest end first."""
    board = request.board
    cards = tuple(
        _held(board, entry, entry.hold) if entry.hold else _kept(board, entry)
        for entry in left_alone(board)
    )
    title = f"Tags, {day_and_time(board.at)}: {board.plan.vehicle.name}"
    return Cards(title, cards, "Nothing has to be left alone now: no tags to hang up.")


def _held(board: Board, entry: LeftAlone, hold: StandingHold) -> Card:
    facts: list[tuple[str, Cell]] = []
    if hold.stage == "due":
        since = f", due since {day_and_time(hold.until)}" if hold.until else ""
        facts.append(("look at it", f"now{since}"))
    else:
        facts += _ends(board, hold)
    where = component_name(board.plan, entry.component)
    around = f"all of {where}" if entry.whole else where
    facts += [
        ("where", around if around != entry.name else ""),
        ("what", hold_title(board.plan, hold) if hold.task else ""),
        ("why", f"{KINDS[hold.kind].words} since {day_and_time(hold.since)}"),
        ("note", hold.note),
        ("ask", _whom(board, hold)),
    ]
    name = entry.name.strip('"')
    shown = tuple(fact for fact in facts if fact[1] and fact[1] != name)
    return Card("DO NOT TOUCH", _short(name), shown, "danger")


def _ends(board: Board, hold: StandingHold) -> list[tuple[str, Cell]]:
    """Until when, and on which day somebody has to look."""
    facts: list[tuple[str, Cell]] = []
    until = day_and_time(hold.until) if hold.until else ""
    if hold.unread:
        facts.append(("until", f"not known: {hold.unread}"))
    elif hold.outside is not None:
        wrong = outside_in_words(hold.outside, board.plan.vehicle.units)
        facts.append(("until", f"not before {until}; its clock stands still: {wrong}"))
    else:
        facts.append(("until", until or "somebody releases it"))
    if hold.until is not None and hold.asks:
        facts.append(("look at it on", day_in_words(_look_on(board, hold.until))))
    if hold.conditions:
        limits = limits_in_words(hold.conditions, board.plan.vehicle.units)
        facts.append(("keep it at", f"{limits}: its clock runs only then"))
    return facts


def _look_on(board: Board, end: datetime) -> date:
    """The first work day on which the shop is still open after that; the day itself where none is
    planned."""
    days = board.plan.vehicle.work_days
    for day in days.coming(end.date(), within=60):
        if datetime.combine(day, days.openings_on(day)[-1].closes) > end:
            return day
    return end.date()


def _kept(board: Board, entry: LeftAlone) -> Card:
    where = component_name(board.plan, entry.component)
    facts: tuple[tuple[str, Cell], ...] = (
        ("until", "for ever"),
        ("where", where),
        ("why", "kept as it is: never cut, stripped or painted over"),
        ("ask", _leads(board)),
    )
    return Card("DO NOT TOUCH", _short(entry.name), facts, "danger")


def _whom(board: Board, hold: StandingHold) -> Cell:
    """Who started it, and the leads."""
    others = _leads(board, but=hold.by)
    if not hold.by:
        return others
    started = person(board.plan, hold.by)
    return f"{started}, or {others}" if isinstance(others, str) else started


def _leads(board: Board, but: str = "") -> Cell:
    """The leads by name, or room to write one."""
    today = board.at.date()
    crew = (one for one in board.plan.crew.values() if one.id != but and one.with_us_on(today))
    names = [volunteer.name for volunteer in crew if volunteer.leads_on(today)]
    more = [f"{len(names) - _LEADS} more"] if len(names) > _LEADS else []
    return listed([*names[:_LEADS], *more]) if names else Fill("line")


def _short(name: str) -> str:
    return name if len(name) <= _NAME else f"{name[: _NAME - 1]}…"
