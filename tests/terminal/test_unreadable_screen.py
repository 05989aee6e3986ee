"""A file that breaks while the screens are open: named on every page, and what it held goes on."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.terminal.widgets.unread_notice import UnreadNotice
from tests.terminal.shop import make_shop, open_app, reads, seen, until

EARLIER = "days/2026/2026-04-25.toml"


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """On 25 April the frame was scraped, and somebody put a hold on it."""
    root = make_shop(tmp_path / "van")
    (root / "days/2026").mkdir(parents=True)
    (root / EARLIER).write_text(
        "date = 2026-04-25\n\n[entries]\n"
        'a0000001 = { at = 2026-04-25T10:00:00, by = "ada", kind = "finished", '
        'task = "frame/scrape" }\n'
        'a0000002 = { at = 2026-04-25T11:00:00, by = "ada", kind = "hold", hold = "cure", '
        'task = "frame/scrape", lasts = "20 days" }\n',
        encoding="utf-8",
    )
    return root


@pytest.mark.parametrize("how", ["broken", "gone"])
@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_a_day_that_breaks_is_named_first_and_what_it_held_is_still_held(
    shop: Path, size: tuple[int, int], how: str
) -> None:
    app = open_app(shop)
    async with app.run_test(size=size) as pilot:
        await reads(pilot, "Weld the bracket")
        path = shop / EARLIER
        path.unlink() if how == "gone" else path.write_text("nothing = = 1\n", encoding="utf-8")
        app.look_now()
        await until(pilot, lambda: app.board.unreadable)
        text = await reads(pilot, "ON HOLD: Sat 25 Apr 2026 cannot be read")
        assert "ON HOLD" in text.splitlines()[1]
        assert "What goes first" not in text
        assert "on hold" in text
        (hold,) = app.board.stopping()
        assert (hold.task, str(hold.until)) == ("frame/scrape", "2026-05-15 11:00:00")
        for page in ("f3", "f4", "f5", "f6"):
            await pilot.press(page)
            await until(pilot, lambda: app.screen.query(UnreadNotice))
            await reads(pilot, "ON HOLD: Sat 25 Apr 2026 cannot be read")


async def test_the_notice_goes_when_the_file_is_mended(shop: Path) -> None:
    app = open_app(shop)
    whole = (shop / EARLIER).read_text(encoding="utf-8")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "What goes first")
        (shop / EARLIER).write_text(whole + "x = = 1\n", encoding="utf-8")
        app.look_now()
        await reads(pilot, "ON HOLD: Sat 25 Apr 2026 cannot be read")
        (shop / EARLIER).write_text(whole, encoding="utf-8")
        app.look_now()
        await until(pilot, lambda: not app.board.unreadable)
        await until(pilot, lambda: "ON HOLD" not in seen(app))
        assert "What goes first" in seen(app)
