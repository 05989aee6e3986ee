"""The screens show any text, and a picture of them holds it as text."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

from crewboard.legible import legible
from crewboard.terminal.widgets.rows import RowList
from tests.terminal.shop import Watch, open_app, reads, seen
from tests.text_is_data.as_shown import STEERS, slow


@slow
async def test_the_screens_show_it_and_a_picture_holds_it_as_text(van: Path, text: str) -> None:
    app = open_app(van, Watch())
    async with app.run_test(size=(100, 40)) as pilot:
        await reads(pilot, "Sat 2 May 2026")
        pages = ""
        for key in ("f2", "f3", "f4", "f5", "f6", "f7", "m", "escape", "z"):
            await pilot.press(key)
            await pilot.pause()
            assert not STEERS.search(seen(app).replace("\n", ""))
            pages += seen(app)
        svg = app.export_screenshot(title=legible(text))
        assert app.is_running
    word = max(re.findall(r"[^\W\d_]+|[^\w\s]+", legible(text)[:12]), key=len)
    assert word in pages
    root = ET.fromstring(svg)
    tags = {each.tag.rpartition("}")[2] for each in root.iter()}
    assert not tags & {"script", "a", "image", "foreignObject"}
    assert not STEERS.search("".join(root.itertext()).replace("\n", ""))


@slow
async def test_the_rows_the_sheet_and_the_forms_of_pieces_show_it(van: Path, text: str) -> None:
    app = open_app(van, Watch())
    async with app.run_test(size=(100, 40)) as pilot:
        await reads(pilot, "Sat 2 May 2026")
        await pilot.press("f3", "right")
        page = app.screen
        rows = page.query_one("#tree", RowList)
        shown = ""
        # The row, its sheet, the form of one alone; of all; of the task; the settings.
        for row, keys in (
            ("piece frame/ribs", "right"), ("piece frame/ribs/2", "enter"), ("", "e"),
            ("piece frame/ribs", "e"), ("frame/a", "e"), ("frame", "o"), ("", "enter"),
        ):  # fmt: skip
            if row:
                while app.screen is not page:
                    app.pop_screen()
                    await pilot.pause()
                assert rows.go_to(row)
            await pilot.press(keys)
            await pilot.pause()
            assert app.is_running
            assert not STEERS.search(seen(app).replace("\n", ""))
            shown += seen(app)
    word = max(re.findall(r"[^\W\d_]+|[^\w\s]+", legible(text)[:12]), key=len)
    assert shown.count(word) > 12
