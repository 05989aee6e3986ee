"""A task's dangers and checks as lines to read, with the caution beside them."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.order.board import Board
from crewboard.order.safety.checks import Asked, checks_of, hazards_of
from crewboard.order.safety.clocks import must_end_by
from crewboard.order.safety.signing import who_signs
from crewboard.order.said import how_many, listed, person
from crewboard.paper.plain import Paper
from crewboard.plan.hazard import CAUTION, Hazard
from crewboard.telling.hazard_sheet import gear_and_limits, numbers
from crewboard.telling.line import GAP, Line, title
from crewboard.terminal.told import when

AUTHORISES_NOTHING = "A signed check authorises nothing: law, labels and licensed trades prevail."
_WHOLE = 100_000  # columns: the lines are wrapped where they are shown


def check_state(board: Board, asked: Asked) -> tuple[str, str]:
    """How a check stands, in words, and its tone."""
    if asked.answer == "unsigned":
        says = "due now" if asked.overdue(board.at) else "to sign"
        return says, "warning" if asked.check.when == "before" else "must"
    at = f" {when(asked.at, board.at)}" if asked.at else ""
    if asked.check.when == "during" and asked.overdue(board.at):
        return f"due again, last{at}", "must"
    by = person(board.plan, asked.signed_by)
    return f"{asked.answer}{at}, {by}", "safe" if asked.answer == "signed" else "faint"


def safety_short(board: Board, task_id: str) -> Iterator[Line]:
    """The dangers in a line, what is still to sign, what must end when."""
    hazards = hazards_of(board, task_id, board[task_id].crew)
    if not hazards:
        return
    yield Line(listed(h.short for h in hazards), "warning", 0, "dangers:")
    if board[task_id].work_done:
        return
    asked = checks_of(board, task_id)
    before = [a for a in asked if a.check.when == "before"]
    still = [a for a in before if a.open]
    if still:
        ids = listed(dict.fromkeys(a.check.id for a in still))
        says = f"{len(still)} of {how_many(len(before), 'check')} to sign before it begins: {ids}"
        yield Line(says, "warning", 0, "c:")
    elif before:
        yield Line(f"all {len(before)} before the work are signed", "safe", 0, "checks:")
    for hazard in hazards:
        latest = must_end_by(board, hazard)
        if latest is not None:
            end, clock, rule = latest
            says = f"{hazard.short}, for its {clock.kind} of {rule.amount}"
            yield Line(says, "warning", 0, f"must end by {end:%H:%M}:")
    gear = dict.fromkeys(h.told(g) for h in hazards for g in h.gear)
    if gear:
        yield Line(listed(gear), "must", 0, "wear, have at hand:")
    yield Line(AUTHORISES_NOTHING, "faint")


def safety_lines(board: Board, task_id: str) -> Iterator[Line]:
    """Each danger with every check, gear, limits and sources."""
    hazards = hazards_of(board, task_id, board[task_id].crew)
    if not hazards:
        return
    yield GAP
    yield title("Dangers and checks", "warning")
    yield Line(CAUTION, "faint", 2)
    asked = checks_of(board, task_id)
    for hazard in hazards:
        yield GAP
        yield title(hazard.name, "warning")
        for harm in hazard.harm:
            yield Line(hazard.told(harm), "plain", 2)
        yield from _checks(board, hazard, asked)
        yield from _on_paper(hazard)


def _checks(board: Board, hazard: Hazard, asked: list[Asked]) -> Iterator[Line]:
    for phase in ("before", "during", "after"):
        own = [a for a in asked if a.hazard.id == hazard.id and a.check.when == phase]
        if own:
            yield Line(f"{phase.capitalize()} the work", "strong", 2)
        for each in own:
            says, tone = check_state(board, each)
            of = f" for {person(board.plan, each.who)}" if each.who else ""
            rule = f"each {each.check.every}; {who_signs(each.check)}"
            yield Line(f"{each.text} ({rule})", tone, 4, f"{says}{of}:")


def _on_paper(hazard: Hazard) -> Iterator[Line]:
    paper = Paper(_WHOLE)
    gear_and_limits(paper, hazard)
    if hazard.if_wrong:
        paper.line("If it goes wrong:", indent=2)
        paper.items((hazard.told(each) for each in hazard.if_wrong), indent=4)
    numbers(paper, hazard)
    for line in paper.lines:
        if line.strip():
            text = line.lstrip()
            yield Line(text, "faint" if text.startswith("- ") else "plain", len(line) - len(text))
