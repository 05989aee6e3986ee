"""A file that breaks while the screens are open: named on every page, and what it held goes on."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewboard.logbook.acts import Begun
from crewboard.terminal.widgets.unread_notice import UnreadNotice
from tests.terminal.shop import day_file, make_shop, open_app, reads, seen, until

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
        await pilot.press("end", "enter", "end")
        await reads(pilot, "on hold")
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


def _a_day_that_is_open(shop: Path) -> None:
    signed = "".join(
        f'b000000{n} = {{ at = 2026-05-02T09:10:00, by = "ada", kind = "check", '
        f'hazard = "the-shop", check = "{check}", who = "ada"{more} }}\n'
        for n, (check, more) in enumerate(
            [
                ("ways-out", ""),
                ("heater-and-air", ""),
                ("first-aid", ', does_not_apply = true, why = "nobody has the paper yet"'),
            ]
        )
    )
    came = "".join(
        f'c000000{n} = {{ at = 2026-05-02T09:00:00, by = "ada", kind = "sign-in", '
        f'who = "{who}" }}\n'
        for n, who in enumerate(["ada", "ben"])
    )
    day = shop / "days/2026/2026-05-02.toml"
    day.write_text(f"date = 2026-05-02\n\n[entries]\n{came}{signed}", encoding="utf-8")


async def test_only_leads_are_asked_to_answer_and_none_of_them_unasked(shop: Path) -> None:
    lamps = 'name = "Lamps"\n[tasks.clean]\ntitle = "Clean the lamps"\nhours = [1, 2, 3]\n'
    (shop / "components/lamps.toml").write_text(lamps, encoding="utf-8")
    _a_day_that_is_open(shop)
    with (shop / EARLIER).open("a", encoding="utf-8") as day:
        day.write("x = = 1\n")
    app = open_app(shop)
    app.by = "ben"
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "ON HOLD", "Here: Ada Marsh")
        app.record([Begun("lamps/clean", ("ben",))])
        text = await reads(pilot, "which lead answers for it", "Ada Marsh")
        assert "Ben Holt" not in text[text.index("which lead") :]
        await pilot.press(*"read on paper", "enter")
        await pilot.pause()
        assert "begun" not in day_file(shop), "nobody was named yet"
        await pilot.press(*"ada", "enter")
        await until(pilot, lambda: "begun" in day_file(shop))
    assert 'by = "ada", kind = "begun"' in day_file(shop)
