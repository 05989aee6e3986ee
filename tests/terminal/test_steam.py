"""Into the steam box from the card of an answer by one key; on the day's rule, and out again."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Begun, Reckoned, Steamed
from tests.terminal.shop import Watch, asked, make_shop, open_app, reads, seen, until
from tests.terminal.test_reckon import keys
from tests.terminal.test_reckoned_bends import BENT


def steamed(shop: Path) -> list[Steamed]:
    days = Folder(shop).logbook.days.values()
    acts = [entry.act for day in days for entry in day.counting]
    return [act for act in acts if isinstance(act, Steamed)]


async def test_the_card_starts_the_clock_and_two_screens_show_it_on_the_rule(
    tmp_path: Path,
) -> None:
    """26 mm at 25 min/cm are 65 minutes."""
    shop = make_shop(tmp_path / "van", components={"ribs": BENT})
    watch = Watch()
    app = open_app(shop, watch, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        app.record([Begun("ribs/bend", ("ada",))])
        await until(pilot, lambda: "Under way" in seen(app))
        await pilot.press(*keys("3", "slash", "'Bend the rib", "enter", "equals_sign"))
        await until(pilot, lambda: "how long in the steam box" in asked(app))
        await pilot.press("4")
        await until(pilot, lambda: "the crew's own rate" in asked(app))
        assert "26 mm" in asked(app)
        await pilot.press(*keys("'25 min/cm", "enter"))
        await until(pilot, lambda: "b begin its clock" in asked(app))
        assert "never sealed" in asked(app)
        await pilot.press("b")
        await until(pilot, lambda: steamed(shop))
        await pilot.press("escape", "2")
        await until(pilot, lambda: "out at 11:05" in seen(app))
        await pilot.press("home")
        await until(pilot, lambda: "Bend the rib" in map(str.strip, seen(app).splitlines()))
        assert '11:05 out: "Bend the rib"' in seen(app).splitlines()[2], "on the day's rule"
    other = open_app(shop, watch, by="ben")  # started again, or another screen
    async with other.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "out at 11:05" in seen(other))
        watch.now += timedelta(minutes=70)
        other.look_now()
        await until(pilot, lambda: "overdue" in seen(other))
        assert "since 11:05" in seen(other)
        await pilot.press("home", "l")
        await until(pilot, lambda: "Out of the box?" in asked(other))
        await pilot.press("enter")
        await until(pilot, lambda: "overdue" not in seen(other))
    assert [act.out for act in steamed(shop)] == [False, True]


async def test_nothing_is_kept_where_the_work_is_not_under_way(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van", components={"ribs": BENT})
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press(*keys("3", "slash", "'Bend the rib", "enter", "equals_sign"))
        await until(pilot, lambda: "how long in the steam box" in asked(app))
        await pilot.press("4")
        await until(pilot, lambda: "the crew's own rate" in asked(app))
        await pilot.press(*keys("'25 min/cm", "enter"))
        await until(pilot, lambda: "b begin its clock" in asked(app))
        await pilot.press("b")
        await until(pilot, lambda: "is not under way" in asked(app))
        await pilot.press("escape")
        await until(pilot, lambda: "is not under way" not in asked(app))
    assert not steamed(shop)
    assert not [e for e in Folder(shop).logbook.record() if isinstance(e.act, Reckoned)]


async def test_by_hand_it_is_written_from_the_list_of_what_is_done_less_often(
    tmp_path: Path,
) -> None:
    shop = make_shop(tmp_path / "van", components={"ribs": BENT})
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press(*keys("3", "slash", "'Bend the rib", "enter", "o"))
        await until(pilot, lambda: "Other" in asked(app))
        assert "into the steam box" not in asked(app), "its work is not under way"
        await pilot.press("escape")
        app.record([Begun("ribs/bend", ("ada",))])
        await pilot.press("o")
        await until(pilot, lambda: "into the steam box" in asked(app))
        await pilot.press(*keys("'into the", "enter"))
        await until(pilot, lambda: "stays in for" in asked(app))
        await pilot.press(*keys("'40 min", "ctrl+s"))
        await until(pilot, lambda: steamed(shop))
    assert steamed(shop)[0].lasts is not None
