"""`crewboard reckon`: a reckoning of the shop, filled in from a task, kept in the logbook."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from crewboard.command import naming
from crewboard.command.exits import Exit, NoSuch, Refused, WrongCall
from crewboard.command.json_form import Form, form_of
from crewboard.command.opened import DIR, as_read, moment, open_bench
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import NOTE, WRITING, write
from crewboard.logbook.acts import Act, Reckoned, Steamed
from crewboard.logbook.entry import Entry
from crewboard.order.reckoning.asked import (
    For,
    filled_in,
    learned_since,
    started_from,
    to_keep,
    was_for,
)
from crewboard.order.reckoning.clock import clock_started
from crewboard.order.reckoning.known import kinds_for
from crewboard.trade.boards.drawn import drawn_as_svg, drawn_with_widths, in_ascii
from crewboard.trade.given import Given
from crewboard.trade.kind import (
    KindOfReckoning,
    kept_known,
    typed_given,
)
from crewboard.trade.kind import (
    reckon as reckoned,
)
from crewboard.trade.kinds import KINDS, kind_named
from crewboard.trade.reckoning import Reckoning

if TYPE_CHECKING:
    from crewboard.order.board import Board
    from crewboard.telling.line import Line
    from crewboard.workbench import Workbench


_WRITTEN = (
    "keep",
    "need",
    "pieces",
    "clock",
)  # options that write: then the answer is not had as JSON
_WIDEST = 120  # columns of a drawing


def _reckon(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    before = _before(bench, call.option("again")) if call.given("again") else None
    of = _for_what(call, bench, before)
    name = before.act.about if before and isinstance(before.act, Reckoned) else call.word("KIND")
    if not name:
        return _kinds(call, board, of)
    kind = _kind(name)
    given = _given(call, board, kind, before, of)
    try:
        answer = as_read(lambda: reckoned(kind, given))
    except WrongCall:
        if call.given("given") or before is not None or call.given("keep"):
            raise
        return _asked(call, kind, given)
    if call.given("svg"):
        return _svg(call, kind, answer, board.plan.vehicle.units)
    if not call.given("json"):
        _print(call, board, kind, answer, given, before, of)
    elif not any(map(call.given, _WRITTEN)):
        call.out.json(reckoning_form(kind, given, answer, before))
    done = _into_the_plan(call, bench, kind, given, answer, of)
    acts: list[Act] = []
    if call.given("keep"):
        note, anew = call.option("note"), before.id if before else ""
        told = answer.figures.get("told", ())
        looked = told if isinstance(told, list) else ()
        acts.append(to_keep(board, kind, given, answer, of, before=anew, note=note, looked=looked))
    if call.given("clock"):
        acts += _clock(board, kind, given, answer, of)
    return write(call, bench, acts) if acts and done == Exit.FINE else done


def _clock(
    board: Board, kind: KindOfReckoning, given: Given, answer: Reckoning, of: For
) -> list[Steamed]:
    """The clock of the day that the answer sets."""
    clocks = clock_started(board, kind, given, answer, of)
    if not clocks:
        mend = "write --task" if kind.clock else "crewboard reckon DIR steaming"
        raise Refused(f"{kind.title.lower()} starts no clock here", mend)
    return clocks


def _into_the_plan(
    call: Call, bench: Workbench, kind: KindOfReckoning, given: Given, answer: Reckoning, of: For
) -> Exit:
    """What of the answer becomes a part of the plan."""
    done = Exit.FINE
    if call.given("need"):
        from crewboard.command.reckoned_need import write_need

        done = write_need(call, bench, kind, given, answer, of.task)
    if call.given("pieces") and done == Exit.FINE:
        from crewboard.command.reckoned_pieces import write_pieces

        done = write_pieces(call, bench, answer, of)
    return done


def _before(bench: Workbench, typed: str) -> Entry:
    """The kept answer that is to be redone."""
    _, entry = naming.entry(bench, typed)
    if not isinstance(entry.act, Reckoned):
        raise Refused(f'the entry "{typed}" is no reckoning', "crewboard log DIR --kind reckoned")
    return entry


def _for_what(call: Call, bench: Workbench, before: Entry | None) -> For:
    plan, of = bench.plan, For()
    if before is not None and isinstance(before.act, Reckoned):
        of = was_for(before.act)
    if call.given("task"):
        from crewboard.command.naming_several import task_or_series

        of = of._replace(task=task_or_series(plan, call.option("task")))
    if call.given("piece"):
        of = of._replace(piece=naming.piece(plan, call.option("piece")))
    return of


def _kind(name: str) -> KindOfReckoning:
    if name not in KINDS:
        from crewboard.folder.read.fault import nearest

        raise NoSuch("reckoning", f'nothing is reckoned by "{name}"', nearest(name, KINDS))
    return kind_named(name)


def _given(call: Call, board: Board, kind: KindOfReckoning, before: Entry | None, of: For) -> Given:
    """What was typed, now or at the answer that is redone, and what is known by now."""
    typed: dict[str, str] = {}
    if before is not None and isinstance(act := before.act, Reckoned):
        typed |= as_read(lambda: started_from(act)).typed
    typed |= as_read(lambda: typed_given(call.every("given")))
    return filled_in(board, kind, typed, of)


def _kinds(call: Call, board: Board, of: For) -> Exit:
    fitting = kinds_for(board, of.task) if of.task else []
    if call.given("json"):
        kinds = [{"kind": n, "says": k.says, "fits": n in fitting} for n, k in KINDS.items()]
        call.out.json(
            form_of("reckonings", kinds=kinds, task=of.task or None, piece=of.piece or None)
        )
    else:
        from crewboard.telling.reckoning import kind_lines

        _tell(call, kind_lines(fitting))
    return Exit.FINE


def _asked(call: Call, kind: KindOfReckoning, given: Given) -> Exit:
    """What a kind asks for, where nothing was given yet."""
    if call.given("json"):
        call.out.json(asked_form(kind, given))
    else:
        from crewboard.telling.reckoning import asked_lines

        _tell(call, asked_lines(kind, given.known))
    return Exit.FINE


def _print(
    call: Call,
    board: Board,
    kind: KindOfReckoning,
    answer: Reckoning,
    given: Given,
    before: Entry | None,
    of: For,
) -> None:
    from crewboard.order.reckoning.plan_says import hazards_of_task, plan_says
    from crewboard.telling.reckoning import answer_lines, plan_lines, redone_lines

    _tell(call, answer_lines(kind, answer, board.plan.sheets, hazards_of_task(board, of)))
    if answer.laid:
        units = board.plan.vehicle.units
        drawing = drawn_with_widths(answer.laid, units, min(call.out.width, _WIDEST))
        call.out.lines(in_ascii(drawing) if call.out.plain else drawing)
    _tell(call, plan_lines(plan_says(board, kind, of)))
    if before is not None:
        _tell(call, redone_lines(board, before, answer, _learned(kind, before, given)))


def _learned(kind: KindOfReckoning, before: Entry, given: Given) -> list[str]:
    assert isinstance(before.act, Reckoned)
    return learned_since(kind, before.act, given)


def _tell(call: Call, lines: Iterable[Line]) -> None:
    from crewboard.paper.plain import plain_lines

    call.out.lines(plain_lines(lines, call.out.width))


def _svg(call: Call, kind: KindOfReckoning, answer: Reckoning, units: str) -> Exit:
    if not answer.laid:
        raise Refused(f"of {kind.title.lower()} there is no drawing", "crewboard reckon DIR boards")
    call.out.lines(drawn_as_svg(answer.laid, units, answer.result[0]).splitlines())
    return Exit.FINE


# --- as JSON --------------------------------------------------------------------------------------


def reckoning_form(
    kind: KindOfReckoning, given: Given, answer: Reckoning, before: Entry | None
) -> Form:
    """The answer with its figures as numbers."""
    return form_of(
        "reckoning",
        kind=kind.name,
        given=dict(given.typed),
        known=list(kept_known(kind, given)),
        result=(*answer.result, *answer.further),
        how=answer.how,
        sources=[source._asdict() for source in answer.sources],
        assumes=answer.assumes,
        cautions=answer.cautions,
        hazards=answer.hazards,
        figures=_as_numbers(answer.figures),
        drawing=drawn_with_widths(answer.laid, given.units) if answer.laid else [],
        before=before.id if before is not None else None,
        learned=_learned(kind, before, given) if before is not None else [],
    )


def asked_form(kind: KindOfReckoning, given: Given) -> Form:
    """What a kind asks for."""
    known = {name: fact.typed for name, fact in given.known.items()}
    asks = [ask._asdict() | {"known": known.get(ask.name)} for ask in kind.asks]
    return form_of("reckoning asks", kind=kind.name, asks=asks)


def _as_numbers(value: Any) -> Any:
    if isinstance(value, Fraction):
        return int(value) if value.denominator == 1 else float(value)
    if isinstance(value, Mapping):
        return {key: _as_numbers(part) for key, part in value.items()}
    return [_as_numbers(part) for part in value] if isinstance(value, list) else value


reckon = Command(
    _reckon,
    "Reckons what a wood shop reckons: without a kind it lists what can be reckoned, without "
    "anything given it says what is asked. A task fills in what the plan, its pieces and the last "
    "shop reading say. --keep writes the answer into the logbook, --again redoes a kept one with "
    "what the shop has learned since, and shows both. --need writes the quantity into the plan: "
    "tins, boards or nails that the task needs of a supply; --pieces the boards of a layout. "
    "--clock starts the clock of the steam box.",
    (DIR, Word("KIND", "what is reckoned: arc, form, boards, coats ...", optional=True)),
    (
        Option("given", 'what is given: "chord=96 in" rise=12in', "NAME=VALUE", many=True),
        Option("task", "the task it is for", "TASK"),
        Option("piece", "or the piece", "PIECE"),
        Option("keep", "write the answer into the logbook"),
        Option("again", "a kept answer, by its entry, redone with what is known now", "ENTRY"),
        Option("need", "makes it the amount that the task needs of this supply", "SUPPLY"),
        Option("pieces", "the boards laid become pieces, so called, of its component", "NAME"),
        Option("clock", "into the steam box now: starts its clock of the day"),
        Option("svg", "only the drawing, as SVG"),
        NOTE,
        *WRITING,
    ),
    (
        "crewboard reckon sample_project",
        "crewboard reckon sample_project arc --given 'chord=2060 mm' 'rise=320 mm' 'every=200 mm'",
        "crewboard reckon sample_project boards --given 'width=2438 mm' 'gap=2 mm' "
        "'stock=12 x 98, 10 x 133, 6 x 190 mm' 'tolerance=3 mm'",
        "crewboard reckon . steaming --given 'thickness=26 mm' 'rate=25 min/cm' --task bend-test "
        "--keep --by mirela",
    ),
)
