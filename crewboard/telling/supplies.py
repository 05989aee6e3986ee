"""Supplies told: what is overdue or not ordered first, what is here last."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import NamedTuple

from crewboard.order.board import Board
from crewboard.order.said import day_in_words, day_shortly, how_many
from crewboard.order.supplies import SupplyAccount, supply_in_words, unusual_in_words
from crewboard.plan.supply import amount_in_words
from crewboard.telling.line import GAP, Line, Tone, title
from crewboard.telling.row import Row, heading


class Group(NamedTuple):
    """Supplies that stand alike: the word before each, its tone, what heads them."""

    word: str
    tone: Tone
    head: str


OVERDUE = Group("overdue", "warning", "Overdue")
NOT_ORDERED = Group("not ordered", "must", "Not ordered yet")
SHORT = Group("short", "must", "Short, more to order")
ORDERED = Group("ordered", "caution", "Ordered")
HERE = Group("here", "safe", "Here")
GROUPS = (OVERDUE, NOT_ORDERED, SHORT, ORDERED, HERE)


def group_of(account: SupplyAccount) -> Group:
    """What is most urgent of it: an overdue order, then an order to be made."""
    if account.overdue:
        return OVERDUE
    if account.unordered:
        return SHORT if account.here or account.to_come else NOT_ORDERED
    return ORDERED if account.short or (account.to_come and not account.here) else HERE


def supply_rows(board: Board) -> list[Row]:
    """The supplies with the tasks that still need them."""
    rows: list[Row] = []
    accounts = list(board.stock.all())
    for group in GROUPS:
        inside = [account for account in accounts if group_of(account) is group]
        if inside:
            rows.append(heading(f"{group.head} ({len(inside)})", group.tone))
            rows += [_row(board, account) for account in inside]
    return rows


def _row(board: Board, account: SupplyAccount) -> Row:
    supply, group = account.supply, group_of(account)
    count = len(board.stock.needing(supply.id))
    wanted = how_many(count, "task") if count else ""
    partly = account.short and (account.here or group is SHORT)
    below = [supply_in_words(account)] if account.counted and partly else []
    below += [text for unusual in account.unusual for text in unusual_in_words(unusual)]
    brief = _in_brief(account, partial(day_shortly, today=board.at.date()))
    cells = (group.word, supply.name, brief, wanted)
    return Row(supply.id, cells, group.tone, tuple(below), find=supply.id)


def _in_brief(account: SupplyAccount, in_words: Callable[[date], str]) -> str:
    """The date that goes with where it stands."""
    if account.promised is not None:
        return f"due {in_words(account.promised)}"
    if account.to_come:
        return "no date promised"
    if account.unordered:
        return f"takes {account.supply.lead_time}" if account.supply.lead_time else ""
    if account.since is not None:
        return f"since {in_words(account.since)}"
    return "in stock" if account.here else "needed no longer"


def supply_lines(board: Board, supply_id: str) -> list[Line]:
    """Everything known of a supply."""
    if supply_id not in board.plan.supplies:
        return []
    account = board.stock[supply_id]
    supply, group = account.supply, group_of(account)
    price = f"{supply.price:g} {board.plan.vehicle.currency}" if supply.price is not None else ""
    state = supply_in_words(account) if account.counted else _in_brief(account, day_in_words)
    about = (
        ("quantity", supply.quantity),
        ("lead time", str(supply.lead_time or "")),
        ("ordered", day_in_words(day) if (day := account.ordered or supply.ordered) else ""),
        ("price", price.strip()),
        ("from", supply.source),
        ("note", supply.note),
    )
    lines = [title(supply.name), Line(state or "nothing said", group.tone, 0, f"{group.word}:")]
    for unusual in account.unusual:
        lines += [Line(text, "caution") for text in unusual_in_words(unusual)]
    lines += [Line(text, "faint", 0, f"{word}:") for word, text in about if text]
    tasks = board.stock.needing(supply_id)
    lines += [GAP, title(f"Needed for {how_many(len(tasks), 'task')} not finished")]
    for task in tasks:
        own = task.amounts.get(supply_id)
        needs = f" ({amount_in_words(own, supply.unit)})" if own is not None else ""
        lines.append(Line(task.title + needs, "faint", 2, f"{board[task.id].state}:"))
    return lines
