"""Supplies as rows: what is overdue or not ordered first, what is here last."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from crewboard.logbook.acts import Ordered
from crewboard.order.board import Board
from crewboard.order.said import day_in_words, how_many
from crewboard.plan.supply import Supply
from crewboard.telling.line import GAP, Line, Tone, title
from crewboard.telling.row import Row, heading
from crewboard.terminal.widgets.rows import Column

COLUMNS = (Column(11), Column(), Column(21, tone="faint"), Column(8, right=True, tone="faint"))


class Stand(NamedTuple):
    """Where a supply stands: its word and tone, and the date that goes with it."""

    word: str
    tone: Tone
    says: str


_ORDER = ("overdue", "not ordered", "ordered", "here")
_TONES = {"overdue": "warning", "not ordered": "must", "ordered": "caution", "here": "safe"}
_HEADS = {
    "overdue": "Overdue",
    "not ordered": "Not ordered yet",
    "ordered": "Ordered",
    "here": "Here",
}


def stand(board: Board, supply: Supply) -> Stand:
    """By the logbook's word before the plan's."""
    arrived = board.history.arrived.get(supply.id)
    if supply.in_stock or supply.arrived or arrived:
        day = arrived.date() if arrived else supply.arrived
        return _stand("here", f"since {day_in_words(day)}" if day else "in stock")
    due = promised(board, supply)
    if due is not None:
        word = "overdue" if due < board.at.date() else "ordered"
        return _stand(word, f"due {day_in_words(due)}")
    if supply.id in board.history.ordered or supply.ordered:
        return _stand("ordered", "no date promised")
    lead = f"takes {supply.lead_time}" if supply.lead_time else ""
    return _stand("not ordered", lead)


def _stand(word: str, says: str) -> Stand:
    return Stand(word, _TONES[word], says)


def promised(board: Board, supply: Supply) -> date | None:
    """The day it is promised for: as last written in the logbook, else as the plan says."""
    entry = board.history.ordered.get(supply.id)
    told = entry.act.due if entry is not None and isinstance(entry.act, Ordered) else None
    return told or supply.due


def supply_rows(board: Board) -> list[Row]:
    """The supplies with the tasks that still need them."""
    groups: dict[str, list[Row]] = {word: [] for word in _ORDER}
    needing = _needing(board)
    for supply in board.plan.supplies.values():
        found = stand(board, supply)
        tasks = needing.get(supply.id, [])
        wanted = how_many(len(tasks), "task") if tasks else ""
        groups[found.word].append(
            Row(
                supply.id, (found.word, supply.name, found.says, wanted), found.tone, find=supply.id
            )
        )
    rows: list[Row] = []
    for word, found_rows in groups.items():
        if found_rows:
            rows += [heading(f"{_HEADS[word]} ({len(found_rows)})", _TONES[word]), *found_rows]
    return rows


def _needing(board: Board) -> dict[str, list[str]]:
    """Supply -> the unfinished tasks that need it."""
    found: dict[str, list[str]] = {}
    for standing in board.standings.values():
        if not standing.work_done:
            for supply_id in standing.task.supplies:
                found.setdefault(supply_id, []).append(standing.task.id)
    return found


def supply_lines(board: Board, supply_id: str) -> list[Line]:
    """Everything known of a supply."""
    supply = board.plan.supplies.get(supply_id)
    if supply is None:
        return []
    found = stand(board, supply)
    lines = [
        title(supply.name),
        Line(found.says or "nothing said", found.tone, 0, f"{found.word}:"),
    ]
    price = f"{supply.price:g} {board.plan.vehicle.currency}" if supply.price is not None else ""
    told = (
        ("quantity", supply.quantity),
        ("lead time", str(supply.lead_time or "")),
        ("ordered", day_in_words(supply.ordered) if supply.ordered else ""),
        ("price", price.strip()),
        ("from", supply.source),
        ("note", supply.note),
    )
    lines += [Line(says, "faint", 0, f"{word}:") for word, says in told if says]
    tasks = _needing(board).get(supply_id, [])
    lines += [GAP, title(f"Needed for {how_many(len(tasks), 'task')} not finished")]
    for task_id in tasks:
        standing = board[task_id]
        lines.append(Line(standing.task.title, "faint", 2, f"{standing.state}:"))
    return lines
