"""The bench card of a hazard: what is read in half a minute before the work; the sheet has more."""

from collections.abc import Iterable, Iterator

from crewboard.order.board import Board
from crewboard.plan.bench_card import DO_NOT, KILLS, LOOK_UP, WEAR, WRONG
from crewboard.plan.hazard import Hazard
from crewboard.telling.line import GAP, Line, Tone, title
from crewboard.telling.report import Card, Cards, Chapter, Request

_TONES: dict[str, Tone] = {DO_NOT: "danger", KILLS: "danger", WEAR: "must", WRONG: "warning"}
_NONE = "No work that is still to be done names a hazard: no bench cards to hang up."


def card_chapters(hazard: Hazard) -> Iterator[Chapter]:
    """Each heading with its points; what is done when it goes wrong is counted, first first."""
    for heading, texts in hazard.card.chapters(hazard.here, hazard.do_not_use):
        said = [hazard.told(text) for text in texts]
        signs = (
            [f"{n}." for n in range(1, len(said) + 1)] if heading == WRONG else ["-"] * len(said)
        )
        if len(said) == 1:
            signs = [""]
        points = tuple(Line(text, word=sign) for text, sign in zip(said, signs, strict=True))
        yield Chapter(heading, points, _TONES.get(heading, "faint" if heading == LOOK_UP else ""))


def card_lines(hazard: Hazard, *, named: bool = True) -> Iterator[Line]:
    """The card as lines; of a sheet without one that there is none."""
    if named:
        yield title(hazard.name, "warning")
    if not hazard.card and not hazard.do_not_use:
        yield Line("This sheet has no bench card: read the sheet.", "faint")
    for chapter in card_chapters(hazard):
        yield title(chapter.heading, chapter.tone or "strong")
        yield from (point._replace(indent=2) for point in chapter.points)


def cards_lines(hazards: Iterable[Hazard]) -> Iterator[Line]:
    """Several cards, one below the other."""
    for number, hazard in enumerate(hazards):
        if number:
            yield GAP
        yield from card_lines(hazard)


def bench_card(hazard: Hazard) -> Card:
    """The card to print."""
    chapters = tuple(card_chapters(hazard))
    return Card(hazard.name, "", (), "strong", chapters)


def cards_of(title_of_all: str, hazards: Iterable[Hazard]) -> Cards:
    """The cards of those sheets that have one."""
    cards = tuple(bench_card(hazard) for hazard in hazards if hazard.card or hazard.do_not_use)
    return Cards(title_of_all, cards, _NONE, large=True)


def report(request: Request) -> Cards:
    """The cards of all hazards that work still to be done names, those of every day first."""
    board = request.board
    return cards_of(f"Bench cards: {board.plan.vehicle.name}", hazards_to_come(board))


def hazards_to_come(board: Board) -> list[Hazard]:
    """The hazards of every day, then those that work still to be done names, by name."""
    plan = board.plan
    todo = {h for s in board.standings.values() if not s.work_done for h in s.task.hazards}
    sheets = [plan.hazards[name] for name in plan.hazards]
    daily = [sheet for sheet in sheets if sheet.concerns != "task"]
    named = [sheet for sheet in sheets if sheet.id in todo and sheet not in daily]
    return [*daily, *sorted(named, key=lambda sheet: sheet.name.casefold())]
