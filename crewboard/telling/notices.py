"""What a day's first screen says in a line each, when it is so: the shop is not opened, how old the
last reading is by which clocks run, what must be ordered now, how many pictures wait."""

from datetime import datetime

from crewboard.logbook.record.waiting import files_waiting
from crewboard.logbook.state import NOT_YET
from crewboard.order.ahead.calendar_path import calendar_path
from crewboard.order.board import Board
from crewboard.order.presence import closed_at
from crewboard.order.safety.opening import unopened_in_words
from crewboard.order.said import how_long
from crewboard.order.supplies import SupplyAccount
from crewboard.telling.holds import shop_in_words
from crewboard.telling.line import Line

NOT_OPENED, TO_SORT = "Not opened:", "Sort:"


def not_opened(board: Board) -> Line | None:
    """The opening checks that nobody has signed, once somebody is here."""
    if not board.present or closed_at(board) is not None:
        return None
    still = unopened_in_words(board)
    return Line(f"{still}.", "warning", word=NOT_OPENED) if still else None


def last_reading(board: Board) -> Line | None:
    """The last shop reading and its age, while a clock runs by what the shop's air is like."""
    asking = [hold for hold in board.stopping() if hold.conditions]
    if not asking:
        return None
    stopped = any(hold.outside is not None for hold in asking)
    if not board.history.readings:
        return Line("not read yet, and clocks run by it.", "warning", word="Shop:")
    read = board.history.readings[-1][0]
    old = board.plan.clock.add(read, board.rules.good_for) < board.at
    age = "just now" if board.at - read < _NOW else f"{how_long(board.at - read)} ago"
    text = f"{shop_in_words(board)}, {age}"
    return Line(f"{text}.", "warning" if stopped or old else "faint", word="Shop:")


_NOW = datetime(1, 1, 1, 0, 2) - datetime(1, 1, 1)


def order_now(board: Board) -> Line | None:
    """The supplies that are short and not ordered, and that work waits for by now, or that make the
    whole vehicle later with each day on which nobody orders them."""
    pressing = [account for account in board.stock.all() if _is_pressing(board, account)]
    if not pressing:
        return None
    names = (
        f"{account.supply.name} (takes {account.supply.lead_time})"
        if account.supply.lead_time
        else account.supply.name
        for account in pressing
    )
    return Line(f"{'; '.join(names)}.", "must", word="Order now:")


def _is_pressing(board: Board, account: SupplyAccount) -> bool:
    if not account.unordered:
        return False
    supply = account.supply.id
    short = [t.id for t in board.stock.needing(supply) if supply in board[t.id].short_of]
    standings = [board[task] for task in short]
    if any(s.state in ("under way", *NOT_YET) and not s.waits for s in standings):
        return True
    critical = set(calendar_path(board).critical()) if short else set()
    return not critical.isdisjoint(short)


def to_be_sorted(board: Board) -> Line | None:
    """How many pictures and recordings were taken in and wait to be sorted."""
    waiting = files_waiting(board.logbook, board.at)
    if not waiting:
        return None
    from crewboard.telling.files_waiting import how_many_wait  # on most days nothing waits

    return Line(f"{how_many_wait(waiting)}.", "must", word=TO_SORT)


def notices(board: Board) -> list[Line]:
    """Those that are so now, in the order in which they are to be seen to."""
    lines = (not_opened(board), last_reading(board), order_now(board), to_be_sorted(board))
    return [line for line in lines if line is not None]
