"""A task's hazards and checks, with the caution beside them."""

from collections.abc import Iterator, Mapping

from crewboard.order.board import Board
from crewboard.order.safety.checks import Asked, checks_of, hazards_of
from crewboard.order.safety.clocks import must_end_by
from crewboard.order.safety.signing import who_signs
from crewboard.order.said import how_many, listed, person, short_names, shortly, signed_by, when
from crewboard.plan.hazard import CAUTION, EVERY_IN_WORDS, Hazard
from crewboard.telling.bench_card import card_lines
from crewboard.telling.hazard_sheet import if_it_goes_wrong, limits
from crewboard.telling.line import GAP, Line, Tone, title

_WHOLE = "Law, sources and numbers stand on its whole sheet."
AUTHORISES_NOTHING = "A signed check authorises nothing: law, labels and licensed trades prevail."


def check_state(board: Board, asked: Asked) -> tuple[str, Tone]:
    """How a check stands, in words, and its tone."""
    if asked.answer == "unsigned":
        state = "due now" if asked.overdue(board.at) else "to sign"
        return state, "warning" if asked.check.when == "before" else "must"
    at = f" {when(asked.at, board.at)}" if asked.at else ""
    if asked.check.when == "during" and asked.overdue(board.at):
        return f"due again, last{at}", "must"
    by = signed_by(board.plan, asked.signed_by, asked.written_by)
    return f"{asked.answer}{at}, {by}", "safe" if asked.answer == "signed" else "faint"


def check_state_shortly(board: Board, asked: Asked) -> tuple[str, Tone]:
    """The same for a narrow list: "signed 13:15, Ada", "signed 18 Apr, Ben"."""
    state, tone = check_state(board, asked)
    if asked.answer == "unsigned" or asked.at is None or state.startswith("due again"):
        return state.partition(",")[0], tone
    by = short_names(board.plan, [asked.signed_by])
    return ", ".join([f"{asked.answer} {shortly(asked.at, board.at)}", *filter(None, by)]), tone


def safety_short(board: Board, task_id: str) -> Iterator[Line]:
    """The hazards in a line, what is still to sign, what must end when."""
    hazards = hazards_of(board, task_id, board[task_id].crew)
    if not hazards:
        return
    yield Line(listed(hazard.short for hazard in hazards), "warning", 0, "hazards:")
    if board[task_id].work_done:
        return
    yield from _to_sign(board, task_id)
    for hazard in hazards:
        latest = must_end_by(board, hazard)
        if latest is not None:
            end, clock, rule = latest
            reason = f"{hazard.short}, for its {clock.kind} ({rule.amount})"
            yield Line(reason, "warning", 0, f"must end by {end:%H:%M}:")
    gear = dict.fromkeys(hazard.told(piece) for hazard in hazards for piece in hazard.gear)
    if gear:
        yield Line(listed(gear), "must", 0, "wear, have at hand:")
    yield Line(AUTHORISES_NOTHING, "faint")


def _to_sign(board: Board, task_id: str) -> Iterator[Line]:
    before = checks_of(board, task_id, when="before")
    still = [asked for asked in before if asked.open]
    if still:
        titles = listed(dict.fromkeys(f'"{asked.check.short}"' for asked in still))
        count = how_many(len(before), "check")
        sentence = f"{len(still)} of {count} to sign before it begins: {titles}"
        yield Line(sentence, "warning", 0, "checks:")
    elif before:
        yield Line(f"all {len(before)} before the work are signed", "safe", 0, "checks:")


def safety_lines(board: Board, task_id: str) -> Iterator[Line]:
    """Each hazard with every check, gear, limits and sources."""
    hazards = hazards_of(board, task_id, board[task_id].crew)
    if not hazards:
        return
    yield GAP
    yield title("Hazards and checks", "warning")
    yield Line(CAUTION, "faint", 2)
    if not board[task_id].work_done:
        yield from (line._replace(indent=2) for line in _to_sign(board, task_id))
    asked = checks_of(board, task_id)
    for hazard in hazards:
        yield GAP
        yield title(hazard.name, "warning")
        yield from _in_short(hazard)
        yield from _checks(board, hazard, asked)
        yield from _as_on_its_sheet(hazard, board.plan.sheets)


def _in_short(hazard: Hazard) -> Iterator[Line]:
    """Its bench card; the risks of a sheet that has none."""
    if hazard.card or hazard.do_not_use:
        for line in card_lines(hazard, named=False):
            yield line._replace(indent=line.indent + 2)
        return
    for harm in hazard.harm:
        yield Line(hazard.told(harm), "plain", 2)


def _checks(board: Board, hazard: Hazard, asked: list[Asked]) -> Iterator[Line]:
    for phase in ("before", "during", "after"):
        own = [a for a in asked if a.hazard.id == hazard.id and a.check.when == phase]
        if own:
            yield Line(f"{phase.capitalize()} the work", "strong", 2)
        yield from (_check(board, asking) for asking in own)


def _check(board: Board, asked: Asked) -> Line:
    state, tone = check_state(board, asked)
    of = f" for {person(board.plan, asked.who)}" if asked.who else ""
    why = f"; {asked.why}" if asked.why else ""
    how = f"{EVERY_IN_WORDS[asked.check.every]}; {who_signs(asked.check)}{why}"
    text = f"{asked.check.short}: {asked.text} ({how})"
    return Line(text, tone, 4, f"{state}{of}:")


def _as_on_its_sheet(hazard: Hazard, sheets: Mapping[str, Hazard]) -> Iterator[Line]:
    yield from (line._replace(indent=line.indent + 2) for line in limits(hazard, sheets))
    if not hazard.card.wrong:
        yield from (line._replace(indent=line.indent + 2) for line in if_it_goes_wrong(hazard))
    yield Line(_WHOLE, "faint", 2)
