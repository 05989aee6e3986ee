"""One day of the programme in words: what falls due, what must be there, the work, whom to ask."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from crewboard.order.board import Board
from crewboard.order.holds.words import outside_in_words
from crewboard.order.may.moment import unnamed
from crewboard.order.may.obstacle import Obstacle
from crewboard.order.programme.around import Around, AskToCome, Due, MustBe
from crewboard.order.programme.programme import DayOfWork, TurnAtWork
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
from crewboard.plan.hold import KINDS
from crewboard.telling.line import Line
from crewboard.telling.report import Chapter

HAZARDS = "hazards:"
_MOST = 3  # names of those who could come, and tasks that lack somebody


def day_chapter(board: Board, day: DayOfWork, beside: Around, *, first: bool) -> Chapter:
    """What is read of a day; the first says by what plan it runs."""
    hours = listed(map(str, day.openings))
    heading = f"{day_in_words(day.date)}, {hours} ({_expected(day)}{_own_plan(day, first)})"
    lines = [
        *_due(board, beside.due),
        *_must_be(board, beside.must_be),
        *_turns(board, day),
        *_of_its_own_plan(board, day),
        *(_ask(board, ask) for ask in beside.ask),
    ]
    if not (day.people and (day.turns or day.small)):
        lines.append(Line(nothing(day), "caution"))
    elif day.idle:
        lines.append(
            Line(listed(short_names(board.plan, day.idle)), "plain", 0, "nothing yet for:")
        )
    return Chapter(heading, tuple(lines))


def nothing(day: DayOfWork) -> str:
    """Why there is no work on a day that has none."""
    if not day.people:
        return "Nobody is expected: ask who comes."
    return "There is nothing that those expected could do."


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
            yield Line(f"{listed(named)}: checks first", "warning", 2, HAZARDS)
        words = dict.fromkeys(
            o.word for turn in turns for o in unnamed(board, board.plan.tasks[turn.task])
        )
        if words:
            says = listed(f'"{word}"' for word in words)
            yield Line(
                f"it says {says} and names none: a lead answers first", "warning", 2, HAZARDS
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
