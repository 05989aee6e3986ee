"""For every test of the screens: a forecast of few courses, a day plan by the plain rule; and the
small shop, for those that ask for it."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.terminal.screens.day_plan import DayPlanPage
from crewboard.terminal.screens.forecast import ForecastPage
from tests.terminal.shop import make_shop


@pytest.fixture(autouse=True)
def _few_courses(monkeypatch: pytest.MonkeyPatch) -> None:
    """Quick, and the same each time. How many courses a page plays is another room's to test."""
    monkeypatch.setattr(ForecastPage, "runs", 80)
    monkeypatch.setattr(ForecastPage, "ways", 40)
    monkeypatch.setattr(DayPlanPage, "effort", 0.0)


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return make_shop(tmp_path / "van")
