"""What is here of each supply, what is short, and what is still to come: counted in one place.

An order, an arrival, a return or a use without an amount means all that is needed, or all that is
here; so a supply that nobody counts is one lot, here or not.
"""

from collections.abc import Iterator, Mapping, Sequence, Set
from datetime import date, datetime, time
from typing import NamedTuple

from crewboard.logbook.acts import Arrived, Ordered, SentBack, Used
from crewboard.logbook.entry import Entry
from crewboard.order.said import day_in_words
from crewboard.plan.plan import Plan
from crewboard.plan.supply import Supply
from crewboard.plan.task import Task

LOT = 1.0  # what stands for the whole of a supply that nobody counts


class Unusual(NamedTuple):
    """A delivery that was not as ordered: what was said of it when it came."""

    entry: str
    day: date
    unlike: str
    defects: str


class SupplyAccount(NamedTuple):
    """Where a supply stands.

    `needed` is what unfinished work still needs of it (None: nobody says how much). `counted`: the
    plan or an entry gives figures; else `here` and `to_come` are in lots, and only whether there is
    any says something. `short` is what is missing for the work now,
    `to_come` what was ordered and has not arrived, `unordered` what is short and not ordered.
    `promised` is the day by which what is short should be here, as far as it was promised;
    `overdue` that this day has passed. `since` is the day of the last arrival, `entry` the entry of
    the logbook that spoke of it last.
    """

    supply: Supply
    needed: float | None
    here: float
    short: float
    to_come: float
    counted: bool = False
    ordered: date | None = None
    promised: date | None = None
    overdue: bool = False
    since: date | None = None
    entry: str = ""
    unusual: tuple[Unusual, ...] = ()

    @property
    def unordered(self) -> float:
        return max(0.0, self.short - self.to_come)


class Stock:
    """The supplies of a plan at one moment, each counted when it is first asked for.

    `entries` are what the logbook says of each, in order of time; `finished` the tasks whose work
    is done.
    """

    def __init__(
        self, plan: Plan, entries: Mapping[str, Sequence[Entry]], finished: Set[str], today: date
    ) -> None:
        self._plan = plan
        self._entries = entries
        self._finished = finished
        self._today = today
        self._accounts: dict[str, SupplyAccount] = {}
        self._tasks: dict[str, list[Task]] | None = None

    def __getitem__(self, supply_id: str) -> SupplyAccount:
        """The account of a supply. Raises KeyError if the plan does not know it."""
        if supply_id not in self._accounts:
            self._accounts[supply_id] = self._account(self._plan.supplies[supply_id])
        return self._accounts[supply_id]

    def all(self) -> Iterator[SupplyAccount]:
        """Every supply's account, in the order of the file."""
        return (self[supply_id] for supply_id in self._plan.supplies)

    def if_finished(self, task_id: str) -> "Stock":
        """The same, were that task finished."""
        return Stock(self._plan, self._entries, {*self._finished, task_id}, self._today)

    def if_ordered(self, supply_id: str, at: datetime) -> "Stock":
        """The same, were all that is short of a supply ordered now, without a promise."""
        entries = [*self._entries.get(supply_id, ()), Entry("", at, Ordered(supply_id))]
        more = {**self._entries, supply_id: entries}
        return Stock(self._plan, more, self._finished, self._today)

    def short_of(self, task: Task) -> tuple[str, ...]:
        """What a task needs and is not here: its own amount, or else all that is needed."""
        known = self._plan.supplies
        return tuple(each for each in task.supplies if each in known and self._lacks(task, each))

    def _lacks(self, task: Task, supply_id: str) -> bool:
        own = task.amounts.get(supply_id)
        return self[supply_id].short > 0 if own is None else self[supply_id].here < own

    def needing(self, supply_id: str) -> list[Task]:
        """The unfinished tasks that need it."""
        return [task for task in self._named_by(supply_id) if task.id not in self._finished]

    def _named_by(self, supply_id: str) -> list[Task]:
        if self._tasks is None:
            self._tasks = {}
            for task in self._plan.tasks.values():
                for each in task.supplies:
                    self._tasks.setdefault(each, []).append(task)
        return self._tasks.get(supply_id, [])

    def _account(self, supply: Supply) -> SupplyAccount:
        count = _Count(supply, self._whole(supply), self._today)
        entries = self._entries.get(supply.id, ())
        count.begin(any(isinstance(entry.act, Ordered) for entry in entries))
        for entry in entries:
            count.take(entry)
        needed = self._needed(supply)
        wanted = LOT if needed is None else needed
        if needed is None and (count.here > 0 or not self._wanted(supply)):
            wanted = 0.0  # nobody says how much: what is here is taken to do
        return count.account(needed, max(0.0, wanted - count.here))

    def _whole(self, supply: Supply) -> float:
        """What an amount stands for that is left out: all that the plan needs."""
        own = sum(task.amounts.get(supply.id, 0.0) for task in self._named_by(supply.id))
        return supply.needed or own or LOT

    def _needed(self, supply: Supply) -> float | None:
        """What unfinished work needs: by its tasks' own amounts, else all that is needed of it,
        less what finished tasks are said to have used."""
        if any(supply.id in task.amounts for task in self._named_by(supply.id)):
            return sum(task.amounts.get(supply.id, 0.0) for task in self.needing(supply.id))
        if supply.needed is None:
            return None
        return max(0.0, supply.needed - self._gone(supply)) if self._wanted(supply) else 0.0

    def _gone(self, supply: Supply) -> float:
        acts = (entry.act for entry in self._entries.get(supply.id, ()))
        used = (act for act in acts if isinstance(act, Used) and act.task in self._finished)
        return sum(act.amount or 0.0 for act in used)

    def _wanted(self, supply: Supply) -> bool:
        """Whether unfinished work needs it, or no task says who does."""
        return bool(self.needing(supply.id)) or not self._named_by(supply.id)


class _Order(NamedTuple):
    """An order: what is still to come of it, since when, and the day it is promised for."""

    left: float
    on: date | None
    due: date | None


class _Count:
    """The running count of one supply, entry after entry."""

    def __init__(self, supply: Supply, whole: float, today: date) -> None:
        self.supply = supply
        self.whole = whole
        self.today = today
        self.here = 0.0
        self.orders: list[_Order] = []
        self.since: date | None = None
        self.entry = ""
        self.unusual: list[Unusual] = []
        self.figures = False

    @property
    def to_come(self) -> float:
        return sum(order.left for order in self.orders)

    def begin(self, ordered_in_logbook: bool) -> None:
        """What the plan says. An order in the logbook is taken to be the plan's own, told again."""
        supply = self.supply
        if supply.in_stock:
            self.here = self.whole
            return
        if (supply.ordered or supply.due) and not ordered_in_logbook:
            self.orders.append(_Order(self.whole, supply.ordered, supply.due))
        if supply.arrived is not None and supply.arrived <= self.today:
            self._came(self.whole, supply.arrived)

    def take(self, entry: Entry) -> None:
        """What one entry of the logbook says."""
        act, day = entry.act, entry.at.date()
        self.entry = entry.id
        self.figures |= getattr(act, "amount", None) is not None
        if isinstance(act, Ordered):
            self._ordered(act, day)
        elif isinstance(act, Arrived):
            amount = act.amount
            self._came(max(self.to_come, self.whole - self.here) if amount is None else amount, day)
            if act.unlike or act.defects:
                self.unusual.append(Unusual(entry.id, day, act.unlike, act.defects))
        elif isinstance(act, SentBack | Used):
            self.here -= self.here if act.amount is None else min(self.here, act.amount)

    def _ordered(self, act: Ordered, day: date) -> None:
        amount = act.amount
        if amount is None:
            amount = max(0.0, self.whole - self.here - self.to_come)
            if not amount and self.orders:  # ordered before: what is new is the promise
                self.orders = [o._replace(due=act.due or o.due) for o in self.orders]
                return
            amount = amount or self.whole
        self.orders.append(_Order(amount, day, act.due or self.supply.due))

    def _came(self, amount: float, day: date) -> None:
        """Arrivals fill the orders in turn."""
        self.here += amount
        self.since = day
        left = []
        for order in self.orders:
            filled = min(order.left, amount)
            amount -= filled
            if filled < order.left:
                left.append(order._replace(left=order.left - filled))
        self.orders = left

    def account(self, needed: float | None, short: float) -> SupplyAccount:
        promised = self._promised(short)
        return SupplyAccount(
            self.supply,
            needed,
            self.here,
            short,
            self.to_come,
            self.figures or needed is not None,
            self.orders[0].on if self.orders else None,
            promised,
            bool(promised and promised < self.today),
            self.since,
            self.entry,
            tuple(self.unusual),
        )

    def _promised(self, short: float) -> date | None:
        """The day by which the orders cover what is short, as far as each has a promise."""
        dues = sorted((order.due, order.left) for order in self.orders if order.due is not None)
        for due, left in dues:
            short -= left
            if short <= 0:
                return due
        return dues[-1][0] if dues else None


def expected_by(plan: Plan, account: SupplyAccount, today: date) -> date | None:
    """The day on which what is short can be expected; None where nobody knows.

    The day promised; else the lead time from the day it was ordered. What is short and not ordered
    takes its lead time from today.
    """
    lead, known = account.supply.lead_time, account.promised
    if known is None and account.to_come and lead is not None:
        start = datetime.combine(account.ordered or today, time.min)
        known = plan.clock.add(start, lead).date()
    if not account.unordered:
        return known
    if lead is None:
        return None
    ordered_now = plan.clock.add(datetime.combine(today, time.min), lead).date()
    return max(known or ordered_now, ordered_now)


def supply_in_words(account: SupplyAccount) -> str:
    """ "1 here, 7 short, 4 still to come, promised for Wed 20 May 2026, 3 not ordered"."""
    if not account.counted:
        return _lot_in_words(account)
    figures = [f"{account.here:g} here"]
    if account.short and account.needed is not None:
        figures.append(f"{account.short:g} short")
    if account.to_come:
        figures += [f"{account.to_come:g} still to come", _promise_in_words(account)]
    if account.short and account.unordered:
        left = f"{account.unordered:g} not ordered"
        figures.append(left if account.to_come else "not ordered yet")
    return ", ".join(figures)


def _lot_in_words(account: SupplyAccount) -> str:
    if account.to_come:
        ordered = f"ordered, {_promise_in_words(account)}"
        return f"here, more {ordered}" if account.here else ordered
    if account.here:
        return f"here since {day_in_words(account.since)}" if account.since else "in stock"
    return "not ordered yet" if account.short else "needed no longer"


def _promise_in_words(account: SupplyAccount) -> str:
    if account.promised is None:
        return "no date promised"
    day = day_in_words(account.promised)
    return f"overdue: was promised for {day}" if account.overdue else f"promised for {day}"


def unusual_in_words(unusual: Unusual) -> list[str]:
    """Each thing that was not as ordered: "Sat 2 May 2026: unlike the order: 5 mm thick"."""
    day = day_in_words(unusual.day)
    told = (("unlike the order", unusual.unlike), ("accepted with defects", unusual.defects))
    return [f"{day}: {what}: {text}" for what, text in told if text]
