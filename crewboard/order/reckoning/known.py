"""What a task, its pieces, the shop's air and the shop's own bends say of a reckoning."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from fractions import Fraction

from crewboard.logbook.acts import Reckoned
from crewboard.order.board import Board
from crewboard.order.reckoning.air import air_of
from crewboard.order.reckoning.decided import decided_for
from crewboard.order.said import day_in_words, piece_name
from crewboard.plan.as_typed import Unread
from crewboard.plan.extent import extent
from crewboard.plan.length import decimals, length
from crewboard.plan.piece import Piece
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.trade.given import Known
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.kinds import KINDS

Facts = Mapping[str, Known]
"""What is known, by the word that a reckoning's question says it is filled in by."""
_COUNTED = re.compile(r"\s*(\d{1,5})\s+[^\W\d]+\s+of\s+(.+)")  # "10 planks of 2.6 m"
_FINE = 6  # decimals
_SEVERAL = 3  # boards from which on they are a stock of mixed widths
_SIZES = 3  # thickness, width and length stand in a size


def known_for(kind: KindOfReckoning, facts: Facts) -> dict[str, Known]:
    """What the facts fill in of what a kind asks for."""
    return {asked.name: facts[asked.fills] for asked in kind.asks if asked.fills in facts}


def kinds_for(board: Board, some_id: str) -> list[str]:
    """The kinds of reckoning that a task wants first, by what it starts when it is finished, then
    by the words of its title; those of a component by the words of its name."""
    plan = board.plan
    task = plan.tasks.get(some_id) or plan.written(some_id)
    component = plan.components.get(some_id)
    called = task.title if task is not None else component.name if component is not None else ""
    holds = {task.hold.kind} if task is not None and task.hold is not None else set[str]()
    if task is not None and task.faces in ("hidden", "shown"):
        holds.add("dry")  # a coat, whatever it is called
    words = {word.removesuffix("s") for word in re.findall(r"\w+", called.casefold())}
    by_hold = [name for name, listed in KINDS.items() if holds & set(listed.fits)]
    by_words = [name for name, listed in KINDS.items() if words & set(listed.words)]
    return list(dict.fromkeys([*by_hold, *by_words]))


def next_of(board: Board, task_id: str) -> str:
    """The task for which an answer is kept: of a series the first that is still to do."""
    series = board.plan.series.get(task_id)
    if series is None:
        return task_id
    tasks = list(series.members.values())
    return next((task for task in tasks if not board[task].work_done), tasks[-1])


def facts_of(
    board: Board, task_id: str = "", piece_id: str = "", component_id: str = ""
) -> dict[str, Known]:
    """What can be said at the board's moment: the shop's air always, of a task, a piece or a
    component more."""
    facts = dict(air_of(board)) | dict(_steam_rate(board))
    task = board.plan.tasks.get(task_id) or (board.plan.written(task_id) if task_id else None)
    facts |= dict(decided_for(board, task, component_id))
    if task is not None:
        facts |= dict(_of_hold(task)) | dict(_of_supplies(board.plan, task))
    ids = (piece_id,) if piece_id else (task.each or task.pieces) if task is not None else ()
    pieces = [board.plan.pieces[one] for one in ids if one in board.plan.pieces]
    return facts | dict(_of_pieces(board.plan, pieces))


def _steam_rate(board: Board) -> Iterator[tuple[str, Known]]:
    """The crew's own rate of steaming, as it was typed the last time."""
    entries = (e for e in board.logbook.record() if e.at <= board.at)
    for entry in sorted(entries, key=lambda e: e.at, reverse=True):
        if isinstance(act := entry.act, Reckoned) and act.about == "steaming":
            for line in act.given:
                name, _, typed = line.partition(" = ")
                if name == "rate":
                    yield "steam rate", Known(typed, f"as given {day_in_words(entry.at.date())}")
                    return


def _of_hold(task: Task) -> Iterator[tuple[str, Known]]:
    """How long a coat dries or cures, as its hold says: a label's word where the plan names it."""
    names = {"dry": "recoat", "cure": "cure"}
    if task.hold is None or task.hold.lasts is None or task.hold.kind not in names:
        return
    source = f", {task.hold.source}" if task.hold.source else ", no source named"
    yield names[task.hold.kind], Known(str(task.hold.lasts), f"the hold of its task{source}")


def _of_supplies(plan: Plan, task: Task) -> Iterator[tuple[str, Known]]:
    """Boards of one length: "10 planks of 2.6 m"."""
    named = (plan.supplies[one] for one in task.supplies if one in plan.supplies)
    counted = [
        (supply, found) for supply in named if (found := _COUNTED.fullmatch(supply.quantity))
    ]
    if len(counted) == 1 and _is_length(counted[0][1][2]):
        supply, found = counted[0]
        yield "stock", Known(f"{found[1]} x {found[2]}", f"the supply {supply.name}")


def _is_length(text: str) -> bool:
    try:
        length(text)
    except Unread:
        return False
    return True


def _of_pieces(plan: Plan, pieces: list[Piece]) -> Iterator[tuple[str, Known]]:
    """What all of the pieces have in common; their areas together."""
    if not pieces:
        return
    first = pieces[0]
    several = f" and {len(pieces) - 1} more" if len(pieces) > 1 else ""
    where = f"as the plan has {piece_name(plan, first.id)}{several}"
    if first.material and len({piece.material for piece in pieces}) == 1:
        yield "species", Known(first.material, where)
    if len({piece.size for piece in pieces}) == 1:
        for name, size in zip(("thickness", "width", "length"), _sizes(first.size), strict=False):
            yield name, Known(size, where)
    if widths := _widths(pieces):
        yield "widths", Known(widths, where)
    measured = list(_extents(pieces))
    if len(measured) == len(pieces) and {basis for basis, _ in measured} == {"area"}:
        area = sum((amount for _, amount in measured), Fraction(0))
        yield "area", Known(f"{_written(area)} m2", where)
    if first.extent and {(b, a) for b, a in measured} == {("length", measured[0][1])}:
        yield "length", Known(first.extent, where)


def _widths(pieces: list[Piece]) -> str:
    """ "9 x 152 mm, 4 x 88 mm": the widths of boards that are of several; empty where a size says
    none."""
    sizes = [_sizes(piece.size) for piece in pieces]
    if len(pieces) < _SEVERAL or not all(sizes):
        return ""
    counts = Counter(size[1] for size in sizes)
    return ", ".join(f"{count} x {width}" for width, count in counts.items())


def _written(exact: Fraction) -> str:
    """As a decimal where that is exact, else as a fraction."""
    fine = exact * 10**_FINE
    return decimals(int(fine), _FINE) if fine.denominator == 1 else str(exact)


def _extents(pieces: list[Piece]) -> Iterator[tuple[str, Fraction]]:
    for piece in pieces:
        try:
            yield extent(piece.extent)
        except Unread:
            continue


def _sizes(size: str) -> list[str]:
    """ "26 x 52 x 2300 mm" from thin to long; none where it says anything else."""
    parts = [part.strip() for part in re.split(r"\s*[x×]\s*", size)]
    unit = re.search(r"[^\W\d]+\.?$|[\"']$", parts[-1])
    if len(parts) != _SIZES or unit is None:
        return []
    written = [part if re.search(r"[^\d\s/.,]", part) else f"{part} {unit[0]}" for part in parts]
    if not all(map(_is_length, written)):
        return []
    return sorted(written, key=lambda one: length(one).mm)
