"""The pages of the board. Each is imported only when it is opened."""

from __future__ import annotations

from importlib import import_module
from typing import NamedTuple

from textual.screen import Screen


class PageEntry(NamedTuple):
    """Key, word on the screen, where the page's class is (`module:Class`), and a shorter word for
    narrow windows where there is one."""

    key: str
    name: str
    word: str
    where: str
    shorter: str = ""

    @property
    def short(self) -> str:
        return self.shorter or self.word

    @property
    def keys(self) -> str:
        """The key, and without its F the digit, which opens the page too."""
        digit = self.key.removeprefix("f")
        return f"{self.key},{digit}" if len(digit) == 1 else self.key

    def load(self) -> type[Screen[None]]:
        """The page's class; its module is imported now."""
        module, _, name = self.where.partition(":")
        page: type[Screen[None]] = getattr(import_module(module), name)
        return page


_HERE = "crewboard.terminal.screens"
PAGES: tuple[PageEntry, ...] = (
    PageEntry("f2", "day", "Work day", f"{_HERE}.work_day:WorkDayPage", "Day"),
    PageEntry("f3", "vehicle", "Vehicle", f"{_HERE}.vehicle:VehiclePage"),
    PageEntry("f4", "holds", "Holds", f"{_HERE}.holds:HoldsPage"),
    PageEntry("f5", "crew", "Crew", f"{_HERE}.crew:CrewPage"),
    PageEntry("f6", "logbook", "Logbook", f"{_HERE}.logbook:LogbookPage", "Log"),
    PageEntry("f7", "supplies", "Supplies", f"{_HERE}.supplies:SuppliesPage", "Supply"),
    PageEntry("f8", "forecast", "Forecast", f"{_HERE}.forecast:ForecastPage"),
    PageEntry("f9", "plan", "Plan a day", f"{_HERE}.day_plan:DayPlanPage", "Plan"),
)
