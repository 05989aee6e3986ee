"""Answers on bent work: a bend released goes into the next form, and stands where its work does."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Begun, Bent, Finished, Reckoned
from crewboard.order.reckoning.asked import For, filled_in, to_keep
from crewboard.order.reckoning.bends import own_bends
from crewboard.trade.kind import reckon
from crewboard.trade.kinds import kind_named
from tests.terminal.shop import Watch, asked, make_shop, open_app, reads, seen, until
from tests.terminal.test_reckon import keys

BENT = """\
name = "Ribs"

[pieces.rib]
name = "Rib"
material = "ash"
size = "26 x 52 x 2300 mm"

[tasks.bend]
title = "Bend the rib"
pieces = ["rib"]
hold = { kind = "bend set", lasts = "1 hour", release = "look" }
"""


async def test_releasing_a_bend_asks_what_it_came_to_and_the_next_form_goes_by_it(
    tmp_path: Path,
) -> None:
    shop = make_shop(tmp_path / "van", components={"ribs": BENT})
    watch = Watch()
    app = open_app(shop, watch, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        app.record([Begun("ribs/bend", ("ada",)), Finished("ribs/bend")])
        watch.now += timedelta(hours=2)
        app.look_now()
        await pilot.press("f4")
        await until(pilot, lambda: "Bend the rib" in seen(app))
        await pilot.press("v")
        await until(pilot, lambda: "what you found" in asked(app))
        assert "ash" in asked(app)
        assert "26 mm" in asked(app)
        await pilot.press(
            *keys("tab", "'322 mm", "tab", "tab", "tab", "'355 mm", "tab", "'2060 mm")
        )
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not asked(app))
        (bend,) = own_bends(Folder(shop).logbook, watch.now)
        assert (bend.species, bend.days) == ("ash", 0)
        await pilot.press(*keys("3", "slash", "'Bend the rib", "enter", "equals_sign", "1"))
        await until(pilot, lambda: "Enter reckon" in asked(app))
        await pilot.press(*keys("tab", "'2060 mm", "tab", "'322 mm", "enter"))
        await until(pilot, lambda: "one bend: k =" in asked(app))


async def test_the_sheet_of_a_task_still_to_do_says_its_form_by_now(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van", components={"ribs": BENT})
    app = open_app(shop, by="ada")
    first = Bent("ash", "26 mm", "355 mm", "322 mm", "2060 mm")
    async with app.run_test(size=(110, 40)) as pilot:
        await reads(pilot, "Scrape the frame")
        app.record([first])
        kind, of = kind_named("form"), For("ribs/bend")
        typed = {"chord": "2060 mm", "rise": "322 mm"}
        given = filled_in(app.board, kind, typed, of)
        app.record([to_keep(app.board, kind, given, reckon(kind, given), of)])
        await pilot.press(*keys("3", "slash", "'Bend the rib", "enter", "enter"))
        await until(pilot, lambda: "form: radius" in seen(app))
        assert "rise was" not in seen(app)
        app.record([first._replace(came_to="300 mm")])
        await until(pilot, lambda: "rise was 355 mm, now" in " ".join(seen(app).split()))
        app.record([Begun("ribs/bend", ("ada",)), Finished("ribs/bend")])
        await until(pilot, lambda: "rise was" not in seen(app))


async def test_answers_for_a_component_and_a_piece_stand_beside_their_rows(tmp_path: Path) -> None:
    shop = make_shop(tmp_path / "van", components={"ribs": BENT})
    app = open_app(shop, by="ada")
    async with app.run_test(size=(110, 40)) as pilot:
        await reads(pilot, "Scrape the frame")
        of_all = Reckoned("arc", "radius [b]1[/b] m", ("rise = 300 mm",), component="ribs")
        (first,) = app.record([of_all]).entries
        again = of_all._replace(answer="radius 2 m", before=first.id)
        app.record([again, Reckoned("length", "1 in", component="frame")])
        app.record([Reckoned("movement", "moves 3 mm", piece="ribs/rib")])
        await pilot.press("3", "home", "down")
        await until(pilot, lambda: "arc: radius 2 m" in " ".join(seen(app).split()))
        assert "[b]1[/b]" not in seen(app), "it was reckoned anew"
        assert "1 in," not in seen(app), "that is of the frame"
        await pilot.press("right", "down", "down")
        await until(pilot, lambda: "movement: moves 3 mm" in " ".join(seen(app).split()))
        await pilot.press("enter")
        await until(pilot, lambda: "What is done to it" in seen(app))
        assert "movement: moves 3 mm" in seen(app)
