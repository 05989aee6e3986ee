"""The forecast of a folder that is young: made today, with one work day, with three."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from crewboard.terminal.screens.forecast import ForecastPage
from tests.command.calling import Shell
from tests.terminal.shop import SATURDAY, Watch, make_shop, open_app, reads, seen, until


@pytest.fixture(autouse=True)
def _few_courses(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ForecastPage, "runs", 40)
    monkeypatch.setattr(ForecastPage, "ways", 5)


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Shell:
    return Shell(capsys)


async def _told(shop: Path, now: datetime, *words: str) -> str:
    """What the forecast's page reads once it says these."""
    app = open_app(shop, Watch(now))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f8")
        await until(pilot, lambda: all(word in seen(app) for word in words), 60)
        text = " ".join((await reads(pilot, *words)).split())
    assert "fifty" not in text
    return text


async def test_a_folder_made_today_has_no_work_to_reckon_with(run: Shell, tmp_path: Path) -> None:
    run("new", tmp_path / "bus")
    text = await _told(tmp_path / "bus", SATURDAY, "no task is written down yet")
    assert "%" not in text


async def test_three_work_days_with_hours_make_dates_of_a_range(run: Shell, tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van")
    days = [SATURDAY.date() - timedelta(weeks=2 * n) for n in (3, 2, 1)]
    for written, day in enumerate(days):
        text = await _told(
            shop, SATURDAY, "Too little is known", "by the estimates", "▼from", "▼to"
        )
        assert f"({written} so far)" in text or (not written and "none so far" in text)
        assert " %" not in text
        _work(run, shop, day)
    text = await _told(shop, SATURDAY, "even chance (50 %)", "as the plan stands", "▼50")
    assert "Too little" not in text


def _work(run: Shell, shop: Path, day: date) -> None:
    ended = run("hours", shop, "ada", "2", "frame/scrape", "--at", f"{day}T12:00")
    assert ended.code == 0, ended.err
