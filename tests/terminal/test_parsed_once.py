"""Opening a page for the first time parses its own stylesheet, and none a second time."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from textual.css.parse import parse

from tests.terminal.shop import make_shop, open_app, reads, until


async def test_each_stylesheet_is_parsed_once_and_again_with_other_tints(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    parsed: Counter[tuple[str, object, int]] = Counter()

    def counted(scope: str, css: str, read_from: object, *, tie_breaker: int, **more: Any) -> Any:
        parsed[scope + css, read_from, tie_breaker] += 1
        return parse(scope, css, read_from, tie_breaker=tie_breaker, **more)  # type: ignore[arg-type]

    monkeypatch.setattr("textual.css.stylesheet.parse", counted)
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        before = parsed.copy()
        await pilot.press("f3", "e")
        await reads(pilot, "Edit:")
        new = parsed - before
        assert new
        assert set(new.values()) == {1}
        assert not new.keys() & before.keys()
        theme = app.theme
        await pilot.press("escape", "f10")
        await until(pilot, lambda: app.theme != theme)
        own = [sheet for sheet in new if ".tcss" in str(sheet[1])]
        assert own
        assert all(parsed[sheet] == 2 for sheet in own)
