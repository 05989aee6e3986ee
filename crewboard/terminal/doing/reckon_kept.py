"""What becomes of an answer: kept, with a note, as pieces of the plan, as an amount of a supply."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

from crewboard.folder.edit.reckoned import (
    added_to,
    as_needed,
    boards_as_pieces,
    component_of,
    needed_in_words,
    wanted_more,
)
from crewboard.order.reckoning.asked import to_keep
from crewboard.order.reckoning.clock import clock_started
from crewboard.order.reckoning.laid import boards_laid
from crewboard.order.reckoning.needed import Needed, countable, needed_for
from crewboard.order.said import component_name
from crewboard.plan.as_typed import Unread
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.choose import your_name
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.doing.reckon_worked import Reckoner, title
from crewboard.terminal.doing.save_drawing import save_drawing
from crewboard.terminal.planning.written import change_here
from crewboard.trade.boards.drawn import drawn_as_svg

Does = Callable[[BoardApp, Reckoner], Awaitable[bool]]


async def keep(app: BoardApp, worked: Reckoner, *, clock: bool = False, note: str = "") -> bool:
    """Write the answer down, and with it start its clock; whether that was kept."""
    assert worked.answer is not None
    asked = worked.asked
    before = asked.before.id if asked.before is not None else ""
    known = (app.board, asked.kind, worked.given, worked.answer, asked.of)
    act = to_keep(*known, before=before, note=note, looked=worked.looked)
    clocks = clock_started(*known) if clock else []
    if not await _somebody_chose(app, act.way) or not (await app.keep([act, *clocks])).kept:
        return False
    app.tell(f"{'in the box' if clocks else 'kept'}: {worked.answer.result[0]}")
    return True


async def other_with(app: BoardApp, worked: Reckoner) -> bool:
    """Offer what else can be done with the answer, and do it; whether it was kept with that."""
    assert worked.answer is not None
    offered: dict[str, tuple[Choice, Does]] = {}
    if worked.answer.laid and component_of(app.board.plan, worked.asked.of):
        pieces = Choice("pieces", "boards as pieces", "each with its width, where it lies")
        offered["pieces"] = pieces, _as_pieces
    if countable(worked.asked.kind.name) and worked.asked.of.task:
        supply = Choice("supply", "count into a supply", "the amount that its task needs")
        offered["supply"] = supply, _into_supply
    if worked.answer.laid:
        offered["drawing"] = Choice("drawing", "save the drawing", "an SVG file"), _drawing
    offered["note"] = Choice("note", "keep with a note", "who agreed, what was tried"), _with_note
    choices = [choice for choice, _ in offered.values()]
    picked = await app.push_screen_wait(PickOne(title(app.board, worked.asked), choices))
    ways = worked.answer.figures.get("ways", 1)
    if picked is None:
        return False
    if picked != "drawing" and not await _somebody_chose(app, "" if ways == 1 else "several"):
        return False
    return await offered[picked][1](app, worked)


async def _somebody_chose(app: BoardApp, among: str) -> bool:
    """Who chose among several ways is kept with what was chosen: so a name is asked for first."""
    if among and not app.by:
        await your_name(app)
    if among and not app.by:
        app.tell("say who chose: y, your name", warning=True)
    return bool(app.by or not among)


async def _drawing(app: BoardApp, worked: Reckoner) -> bool:
    """Nothing is kept with it: the card stays, for the next way."""
    answer, units = worked.answer, app.board.plan.vehicle.units
    assert answer is not None
    await save_drawing(
        app, "boards.svg", lambda: drawn_as_svg(answer.laid, units, answer.result[0])
    )
    return False


async def _with_note(app: BoardApp, worked: Reckoner) -> bool:
    note = await app.push_screen_wait(AskLine("Keep it with a note", "note"))
    return bool(note) and await keep(app, worked, note=note or "")


async def _as_pieces(app: BoardApp, worked: Reckoner) -> bool:
    """Ask what they are called and put them into the plan; then the answer is kept."""
    plan, of, answer = app.board.plan, worked.asked.of, worked.answer
    assert answer is not None

    def wrong(typed: str) -> str | None:
        """Says what stands against it, and else writes it: so nothing typed is lost."""
        try:
            boards = boards_laid(answer, plan.vehicle.units)
            edits = boards_as_pieces(plan, boards, of, typed)
        except Unread as unread:
            return str(unread)
        refused = change_here(app, edits, f"the pieces {typed}")
        if refused:
            return "; ".join(str(refusal) for refusal in refused)
        app.tell(added_to(plan, edits, of))
        return None

    where = component_name(plan, component_of(plan, of))
    ask = AskLine(f"Pieces of {where}", "what they are called", value="boards", check=wrong)
    called = await app.push_screen_wait(ask)
    return called is not None and await keep(app, worked, note=f"as pieces: {called}")


async def _into_supply(app: BoardApp, worked: Reckoner) -> bool:
    """Pick among the supplies that are counted in what this gives; then the answer is kept."""
    fitting, says = _fitting(app, worked)
    choices = [Choice(one.supply.id, one.supply.name, one.supply.quantity) for one in fitting]
    dialog = PickOne("Which supply", choices, empty=says)
    picked = await app.push_screen_wait(dialog)
    needed = next((one for one in fitting if one.supply.id == picked), None)
    if needed is None:
        return False
    if refused := change_here(app, [as_needed(needed)], "what a task needs of a supply"):
        app.tell("; ".join(str(refusal) for refusal in refused), warning=True)
        return False
    words = needed_in_words(app.board.plan, needed)
    if not await keep(app, worked, note=words):
        return False
    more = wanted_more(app.board.plan, needed)
    app.tell(more or words, warning=bool(more))
    return True


def _fitting(app: BoardApp, worked: Reckoner) -> tuple[list[Needed], str]:
    """What the task would need of each supply that is counted so, its own first; and why the last
    of the others is none."""
    plan, asked = app.board.plan, worked.asked
    assert worked.answer is not None
    task = plan.written(asked.of.task)
    own = task.supplies if task is not None else ()
    fitting: list[Needed] = []
    says = "no supply is in the plan yet: F7 Needs, then a, adds the first"
    for name in dict.fromkeys((*own, *plan.supplies)):
        try:
            known = (asked.kind.name, worked.given, worked.answer)
            fitting.append(needed_for(plan, asked.of.task, plan.supplies[name], *known))
        except Unread as unread:
            says = unread.sentence
    return fitting, says
