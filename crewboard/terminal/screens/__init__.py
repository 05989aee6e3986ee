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
        return f"{self.key},{self.digit}" if self.digit else self.key

    @property
    def digit(self) -> str:
        """The digit for it, where it has one: 0 stands for F11."""
        digit = self.key.removeprefix("f").replace("11", "0")
        return digit if len(digit) == 1 else ""

    def load(self) -> type[Screen[None]]:
        """The page's class; its module is imported now."""
        module, _, name = self.where.partition(":")
        page: type[Screen[None]] = getattr(import_module(module), name)
        return page


_HERE = "crewboard.terminal.screens"
PAGES: tuple[PageEntry, ...] = (
    PageEntry("f2", "day", "Work day", f"{_HERE}.work_day:WorkDayPage", "Day"),
    PageEntry("f3", "vehicle", "Vehicle", f"{_HERE}.vehicle:VehiclePage", "Parts"),
    PageEntry("f4", "holds", "Holds", f"{_HERE}.holds:HoldsPage", "Hold"),
    PageEntry("f5", "crew", "Crew", f"{_HERE}.crew:CrewPage"),
    PageEntry("f6", "logbook", "Logbook", f"{_HERE}.logbook:LogbookPage", "Log"),
    PageEntry("f7", "supplies", "Supplies", f"{_HERE}.supplies:SuppliesPage", "Need"),
    PageEntry("f8", "forecast", "Forecast", f"{_HERE}.forecast:ForecastPage", "When"),
    PageEntry("f9", "plan", "Plan a day", f"{_HERE}.day_plan:DayPlanPage", "Plan"),
    PageEntry("f11", "fabric", "Fabric", f"{_HERE}.fabric:FabricPage"),
    PageEntry("f12", "findings", "Findings", f"{_HERE}.findings:FindingsPage"),
)
