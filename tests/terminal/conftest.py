"""For every test of the screens: a forecast of few courses and a day plan by the plain rule."""

from __future__ import annotations

import pytest

from crewboard.terminal.screens.day_plan import DayPlanPage
from crewboard.terminal.screens.forecast import ForecastPage


@pytest.fixture(autouse=True)
def _few_courses(monkeypatch: pytest.MonkeyPatch) -> None:
    """Quick, and the same each time. How many courses a page plays is another room's to test."""
    monkeypatch.setattr(ForecastPage, "runs", 80)
    monkeypatch.setattr(ForecastPage, "ways", 40)
    monkeypatch.setattr(DayPlanPage, "effort", 0.0)
