"""`crewboard release`: a hold is let go; of a bend it takes what that came to in the same write."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from crewboard.command import naming
from crewboard.command.entries import command_for, options_of
from crewboard.command.entry_values import TypedValues
from crewboard.command.exits import Exit, Refused
from crewboard.command.opened import as_read, moment, open_bench
from crewboard.command.typed import Call
from crewboard.command.write import write
from crewboard.logbook.acts import Act, Bent, Released
from crewboard.logbook.fields import fields_of
from crewboard.logbook.kinds import BY_COMMAND
from crewboard.order.reckoning.released import bend_on, bend_said, forms_by_now

if TYPE_CHECKING:
    from datetime import datetime

    from crewboard.order.board import Board
    from crewboard.workbench import Workbench

_NOT_ASKED = ("task", "piece", "pictures", "note")
_SAID = tuple(field for field in fields_of(Bent) if field.name not in _NOT_ASKED)
_BY_KIND = command_for(BY_COMMAND["release"])


def _release(call: Call) -> Exit:
    bench = open_bench(call)
    at = moment(call, bench.plan)
    board = bench.board(at)
    hold = board.holds[naming.hold(board, call.word("HOLD"))]
    known, said = bend_on(board, hold), _said(call, bench, at)
    if call.given("refused"):
        return write(call, bench, [Released(hold.id, call.option("why"), refused=True)])
    if known is None and said:
        raise Refused("that hold keeps no bend on its form", "release it without what it came to")
    if "came_to" not in said and set(said) - {"stored"}:
        raise Refused("say what the bend came to", "write --came-to, or all of it later: bent")
    bend = as_read(lambda: bend_said(known, said)) if known is not None else None
    why = call.option("why")
    if bend is None and "stored" in said:  # it is measured later, and written with `bent`
        why = "; ".join(filter(None, (why, f"stored {said['stored']}")))
    acts: list[Act] = [Released(hold.id, why), *((bend,) if bend is not None else ())]
    done = write(call, bench, acts)
    if bend is not None and done == Exit.FINE and not call.given("json"):
        _tell_next(call, bench.board(at), bend)
    return done


def _said(call: Call, bench: Workbench, at: datetime) -> dict[str, Any]:
    """What was typed of the bend."""
    values = TypedValues(bench, at)
    return {
        field.name: values.value(field, call.every(option.name)[-1:])
        for field in _SAID
        for option in options_of(field)
        if call.given(option.name)
    }


def _tell_next(call: Call, board: Board, bend: Bent) -> None:
    """What the form of the next bend is by now, and how to keep that."""
    from crewboard.telling.reckoning import form_by_now

    for form in forms_by_now(board, bend.species):
        call.out.line(form_by_now(board, form))
        if form.before.result != form.now.result:
            call.out.line(f"  to keep it: crewboard reckon DIR --again {form.kept.id} --keep")


release = _BY_KIND._replace(
    run=_release,
    says=f"{_BY_KIND.says} Of a bend it takes what that came to, kept with the wood and thickness "
    "of the plan and, where nothing else is said, on the form of the last bend of this wood; then "
    "it says what the next form is by now.",
    options=(*(option for field in _SAID for option in options_of(field)), *_BY_KIND.options),
    examples=(
        *_BY_KIND.examples,
        'crewboard release . bend/arches/4 --came-to "322 mm" --stored "loft, flat" --by mirela',
    ),
)
