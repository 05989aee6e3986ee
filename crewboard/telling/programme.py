"""The programme of the next work days, as a lead would read it out, day by day."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from crewboard.order.board import Board
from crewboard.order.holds.words import outside_in_words
from crewboard.order.may.moment import unnamed
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.programme.around import Around, AskToCome, Due, MustBe, around
from crewboard.order.programme.no_day import NoDay, finds_no_day
from crewboard.order.programme.programme import USUAL_DAYS, DayOfWork, Made, TurnAtWork, make
from crewboard.order.said import (
    day_in_words,
    day_shortly,
    how_many,
    listed,
    quoted_title,
    short_names,
    supply_name,
    titled,
    when,
)
from crewboard.order.supplies import supply_in_words
from crewboard.plan.hazard import CAUTION
from crewboard.plan.hold import KINDS
from crewboard.plan.task import Task
from crewboard.telling.line import Line
from crewboard.telling.report import Chapter, Request, Sheet

DECIDES_NOTHING = "It decides nothing: the lead does."
SUPPOSES = "What could be done if all came who are expected and the work took as long as is likely."
_HAZARDS = "hazards:"
_NO_DAY = "Finds no day"
_MOST = 3  # names of those who could come, and tasks that lack somebody


def programme_sheet(board: Board, days: int = USUAL_DAYS) -> Sheet:
    """The next work days; each is a chapter."""
    made = make(board, days)
    beside = around(board, made)
    chapters: list[Chapter] = []
    asked = set[AskToCome]()
    for day, its in zip(made.programme.days, beside, strict=True):
        its = its._replace(ask=_not_yet_asked(its.ask, asked))
        chapters.append(_day(board, day, its, first=not chapters))
    if not chapters:
        chapters = [Chapter("No work day is planned", (Line("Name some in vehicle.toml."),))]
    title = _title(len(made.programme.days))
    chapters += _no_day(board, made)
    dangerous = any(line.word == _HAZARDS for chapter in chapters for line in chapter.points)
    foot = f"{SUPPOSES} {CAUTION}" if dangerous else SUPPOSES
    return Sheet(title, DECIDES_NOTHING, tuple(chapters), flows=True, foot=foot)


def report(request: Request) -> Sheet:
    """For the wall: as many days as were asked for, else as many as stand on one page."""
    if request.days:
        return programme_sheet(request.board, request.days)
    whole = programme_sheet(request.board)
    last = [chapter for chapter in whole.chapters if chapter.heading == _NO_DAY]
    days = whole.chapters[: len(whole.chapters) - len(last)]
    room = _PAGE - _LINE * len(whole.caution + whole.foot) / _WIDE_LETTERS - sum(map(_room, last))
    kept = 0
    for day in days:
        room -= _room(day)
        if room < 0 and kept:
            break
        kept += 1
    return whole._replace(title=_title(kept), chapters=(*days[:kept], *last))


def _room(chapter: Chapter) -> float:
    return _HEADING + sum(map(_height, chapter.points))


# What the two columns of the lower of the two papers hold, and what a line, and the heading of a
# day, take of it: mm. Measured on the printed page.
_PAGE, _LINE, _HEADING = 512, 3.25, 8
_LETTERS, _WIDE_LETTERS = 64, 70  # letters on a line of a column; of the caution, by its height


def _height(line: Line) -> float:
    return _LINE * -(-(len(line.text) + len(line.word) + 1 + line.indent) // _LETTERS) + 0.5


def _title(days: int) -> str:
    return "The next work day" if days == 1 else f"The next {days} work days"


def _not_yet_asked(some: Iterable[AskToCome], asked: set[AskToCome]) -> tuple[AskToCome, ...]:
    """Those that were not said of a day before."""
    new = tuple(ask for ask in some if ask not in asked)
    asked.update(new)
    return new


def _day(board: Board, day: DayOfWork, beside: Around, *, first: bool) -> Chapter:
    hours = listed(map(str, day.openings))
    heading = f"{day_in_words(day.date)}, {hours} ({_expected(day)}{_own_plan(day, first)})"
    lines = [
        *_due(board, beside.due),
        *_must_be(board, beside.must_be),
        *_turns(board, day),
        *_of_its_own_plan(board, day),
        *(_ask(board, ask) for ask in beside.ask),
    ]
    if not day.people:
        lines.append(Line("Nobody is expected: ask who comes.", "caution"))
    elif not (day.turns or day.small):
        lines.append(Line("There is nothing that those expected could do.", "caution"))
    elif day.idle:
        lines.append(
            Line(listed(short_names(board.plan, day.idle)), "plain", 0, "nothing yet for:")
        )
    return Chapter(heading, tuple(lines))


def _expected(day: DayOfWork) -> str:
    """How many come, and whether they said so."""
    people, said = len(day.people), len(day.said)
    if said == people:
        return f"{people} expected"
    usually = f"{people - said} usually come{'s' if people - said == 1 else ''}"
    return f"{said} expected, {usually}" if said else usually


def _own_plan(day: DayOfWork, first: bool) -> str:
    """What the first day runs by, or where that is made."""
    if day.planned_at is not None:
        return f"; by the plan taken over at {day.planned_at:%H:%M}"
    return "; its own plan is made with the day plan" if first else ""


def _of_its_own_plan(board: Board, day: DayOfWork) -> Iterator[Line]:
    """The small jobs of its own plan, and what cannot go on as that has it."""
    for job in day.small:
        names = listed(short_names(board.plan, job.people))
        yield Line(f"{names}: {job.what}", "plain", 0, f"{job.start:%H:%M}")
    if day.otherwise:
        told = f"not as it was taken over: {titled(board.plan, day.otherwise)}"
        yield Line(told, "caution", 0, "make the day plan anew:")


# --- the work ------------------------------------------------------------------------------------


def _turns(board: Board, day: DayOfWork) -> Iterator[Line]:
    """A line for each, but one for those of one series that the same people do one after another;
    below it what sets then, and the hazards."""
    for turns in _folded(board, day.turns):
        names = listed(short_names(board.plan, turns[0].people))
        what = titled(board.plan, [turn.task for turn in turns])
        hours = sum(turn.hours for turn in turns)
        goes_on = "" if turns[-1].finishes else ", not finished by then"
        yield Line(f"{names}: {what} ({hours:g} h{goes_on})", "plain", 0, f"{turns[0].start:%H:%M}")
        yield from _then(board, turns[-1])
        yield from _watched(board, turns[-1])
        hazards = dict.fromkeys(h for turn in turns for h in board.plan.tasks[turn.task].hazards)
        named = [board.plan.hazards[h].short for h in hazards if h in board.plan.hazards]
        if named:
            yield Line(f"{listed(named)}: checks first", "warning", 2, _HAZARDS)
        words = dict.fromkeys(
            o.word for turn in turns for o in unnamed(board, board.plan.tasks[turn.task])
        )
        if words:
            says = listed(f'"{word}"' for word in words)
            yield Line(
                f"it says {says} and names none: a lead answers first", "warning", 2, _HAZARDS
            )


def _folded(board: Board, turns: Iterable[TurnAtWork]) -> list[list[TurnAtWork]]:
    found: list[list[TurnAtWork]] = []
    for turn in turns:
        series = board.plan.tasks[turn.task].series
        for group in found:
            last = group[-1]
            same = last.people == turn.people and board.plan.tasks[last.task].series == series
            if series and same and last.end == turn.start and _sets(last) == _sets(turn):
                group.append(turn)
                break
        else:
            found.append([turn])
    return found


def _sets(turn: TurnAtWork) -> object:
    return turn.sets, turn.sets_until and turn.sets_until.date(), turn.finishes


def _watched(board: Board, turn: TurnAtWork) -> Iterator[Line]:
    if turn.watch:
        until = f", until {turn.watched_until:%H:%M}" if turn.watched_until else ""
        names = listed(short_names(board.plan, turn.watch))
        yield Line(
            f"{names} only watch{'es' if len(turn.watch) == 1 else ''}{until}",
            "plain",
            2,
            "of them",
        )


def _then(board: Board, turn: TurnAtWork) -> Iterator[Line]:
    """ "in clamps until Mon 18 May 11:00, then look at it"."""
    hold = board.plan.tasks[turn.task].hold
    if not turn.sets or hold is None:
        return
    words = KINDS[hold.kind].words
    if turn.sets_until is None:
        yield Line(f"{words}, until somebody says that it is over", "plain", 2, "then")
        return
    air = board.rules.air.outside(hold.conditions, board.at)
    still = (
        f"; its clock stands still: {outside_in_words(air, board.plan.vehicle.units)}"
        if air
        else ""
    )
    until = f"not before {when(turn.sets_until, board.at)}{still}" if still else ""
    until = until or f"until {when(turn.sets_until, board.at)}"
    look = ", then look at it" if turn.look else ""
    yield Line(f"{words} {until}{look}", "plain", 2, "then")


# --- what falls due, what must be there ----------------------------------------------------------


def _due(board: Board, due: Iterable[Due]) -> Iterator[Line]:
    looks = [one for one in due if one.kind == "look"]
    told = []
    for at, some in groupby(looks, key=lambda one: _by(board, one)):
        told.append(f"{titled(board.plan, [one.about for one in some])} ({at})")
    told = [f"look at {listed(told)}"] if told else []
    for one in due:
        if one.kind == "delivery":
            told.append(f"delivery of {supply_name(board.plan, one.about)} ({_by(board, one)})")
        elif one.kind == "date":
            kept = "" if one.kept else ": it will not be"
            what = quoted_title(board.plan, one.about)
            told.append(f"{what} should be finished by {_by(board, one)}{kept}")
    if told:
        yield Line("; ".join(told), "must", 0, "falls due:")


def _by(board: Board, due: Due) -> str:
    today = due.at.date() == board.at.date()
    return f"{due.at:%H:%M}" if today else day_shortly(due.at.date(), board.at.date())


def _must_be(board: Board, things: Iterable[MustBe]) -> Iterator[Line]:
    told = [_thing(board, thing) for thing in things]
    if told:
        yield Line("; ".join(told), "caution", 0, "must be there:")


def _thing(board: Board, thing: MustBe) -> str:
    plan = board.plan
    if thing.certificate:
        name = listed(short_names(plan, (thing.who,)))
        return f'a new "{thing.certificate}" of {name}, or somebody looks at the old one'
    before = quoted_title(plan, thing.task)
    if thing.supply:
        words = supply_in_words(board.stock[thing.supply])
        by = ""
        if thing.unordered:
            day = thing.order_by
            by = f"; order it by {day_shortly(day, board.at.date())}" if day else "; order it now"
        return f"{supply_name(plan, thing.supply)} for {before} ({words}{by})"
    if thing.undo:
        return f"{thing.undo}: undone before {before}"
    if thing.hold is not None:
        noun = KINDS[thing.hold.kind].noun
        held = titled(plan, [thing.hold.task]) if thing.hold.task in plan.tasks else ""
        of = f" of {held}" if held else ""
        return f"the end of the {noun}{of}, for {before}"
    hold = plan.tasks[thing.awaited].hold
    noun = KINDS[hold.kind].noun if hold is not None else "hold"
    return f"the end of the {noun} of {quoted_title(plan, thing.awaited)}, for {before}"


# --- what finds no day ---------------------------------------------------------------------------


def _no_day(board: Board, made: Made) -> Iterator[Chapter]:
    """What must not be left half done and fits none of the days, by the reason."""
    by_reason: dict[str, list[str]] = {}
    for one in finds_no_day(made):
        by_reason.setdefault(_why_no_day(board.plan.tasks[one.task], one), []).append(one.task)
    lines = [
        Line(f"{titled(board.plan, some)}: {why}", "caution") for why, some in by_reason.items()
    ]
    if lines:
        yield Chapter(_NO_DAY, tuple(lines))


def _why_no_day(task: Task, one: NoDay) -> str:
    go = "has to be done in one go" if task.in_one_go else "must not be left half done"
    if one.why == "clock":
        return f"it {go}, and has to end {one.minutes} minutes before closing"
    ends = f" and has to end {one.minutes} minutes before closing" if one.minutes else ""
    if one.why == "long":
        return f"it {go}{ends}, and no day is long enough for those who may do it"
    return f"it {go}{ends}, and beside other work no day has room for all of it"


# --- whom to ask ---------------------------------------------------------------------------------


def _ask(board: Board, ask: AskToCome) -> Line:
    """ "somebody with the skill welding, for "Weld the bracket": Oren"."""
    what = titled(board.plan, ask.tasks[:_MOST])
    more = len(ask.tasks) - _MOST
    what += f" and {how_many(more, 'more task')}" if more > 0 else ""
    names = short_names(board.plan, ask.could[:_MOST])
    who = listed(names) if names else "nobody in the crew could"
    others = len(ask.could) - _MOST
    who += f", or {others} more" if others > 0 else ""
    return Line(f"{_lacks(ask.lacks)}, for {what}: {who}", "caution", 0, "ask to come:")


def _lacks(lacks: Obstacle) -> str:
    if lacks.code == "skill":
        return f"somebody with the skill {lacks.skill}"
    if lacks.code in ("certificate", "paper"):
        return f'somebody with a certificate "{lacks.certificate}" in date'
    if lacks.code == "few" and lacks.needed > lacks.there:
        return f"{how_many(lacks.needed - lacks.there, 'more', 'more')}"
    if lacks.code == "under-18":
        return "somebody of 18 or over"
    if lacks.code == "beside":
        return "whoever has to be beside them"
    return "somebody else"
