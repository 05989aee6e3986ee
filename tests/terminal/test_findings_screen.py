"""The page of findings: every entry of the record is listed there, corrected and taken back."""

from __future__ import annotations

from pathlib import Path

from crewboard.logbook import acts
from crewboard.logbook.acts import Act, DoneTo, Found, Measured, SignIn, Stored
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.workbench import Said, Workbench
from tests.intake.a_camera import jpeg, put
from tests.terminal.shop import SATURDAY, asked, open_app, reads, seen, until
from tests.terminal.test_record_screens import labels, shop_with_pieces

RIB = "frame/ribs/2"
# One of each kind; they go on from one another, as the pieces do.
EACH: list[Act] = [
    acts.Found("soft foot", "rain", RIB),
    acts.Measured("2400 mm", "foot", "crown", RIB),
    acts.Layers(("primer, grey", "finish, green"), "", "frame", "by the door"),
    acts.Sourced("the yard", "about 1931", "album, page 4"),
    acts.Pictured("pictures/a.jpg", "before", (RIB,), words="the foot"),
    acts.TakenOff(RIB, "bolts sheared"),
    acts.PieceMade(RIB, "ash", "the mill", "lot 7"),
    acts.DoneTo(RIB, "replaced in kind", why="rot"),
    acts.Stored(RIB, "shelf 3", True),
    acts.Reused(RIB, "frame/ribs/3", "upper half", True),
    acts.Gone(RIB, "discarded", "", ("ada", "ben"), "rotten", True),
    acts.Pattern("curve", "the second rib", "the loft", RIB),
    acts.Departure("bolts for rivets", "out of reach", "yes", "", "frame"),
    acts.Temporary("props", ("frame/weld",), "", "frame"),
    acts.EarlierRepair("iron strap", "the depot", "likely", "frame/ribs/3"),
    acts.SizeDecided("gap", "3 mm", "as most were", ("frame/weld",), "", "frame"),
]


async def test_every_kind_of_entry_of_the_record_can_be_corrected_there(tmp_path: Path) -> None:
    jotted = {kind.act for kind in KINDS_OF_ENTRY.values() if kind.jotted < 10}
    assert jotted <= {type(act) for act in EACH}
    put(tmp_path / "van/pictures", "a.jpg", jpeg())
    app = open_app(shop_with_pieces(tmp_path / "van", SignIn("ben"), *EACH))
    async with app.run_test(size=(80, 24)) as pilot:
        app.action_open("findings")
        await reads(pilot, "Temporary, to be undone (1)", "Findings (1)", "Done to pieces (6)")
        rows = app.screen.query_one("#findings")
        ids = [row.id for row in getattr(rows, "rows", ()) if row.id]
        assert len(ids) == len(EACH)
        for number in range(len(ids)):
            await pilot.press("e")
            await until(pilot, lambda: "Correct the entry" in asked(app))
            await pilot.press("escape")
            await until(pilot, lambda: asked(app) == "")
            if number + 1 < len(ids):
                await pilot.press("down")
        await pilot.press("slash", *"rib 2 findings")
        await until(pilot, lambda: "bolts for rivets" not in seen(app))
        assert "soft foot" in seen(app)
        assert "shelf 3" not in seen(app)


async def test_an_entry_is_corrected_and_taken_back_where_it_is_read(tmp_path: Path) -> None:
    shop = shop_with_pieces(tmp_path / "van", DoneTo(RIB, "cleaned", "with soap"))
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        app.action_open("findings")
        await reads(pilot, "Done to pieces (1)", "Rib 2 cleaned: with soap")
        await pilot.press("e")
        await until(pilot, lambda: "Correct the entry" in asked(app))
        assert "of the old kept, %" not in labels(app)
        await pilot.press("tab", "tab", "enter")  # when, piece, what was done
        await until(pilot, lambda: "letters find" in asked(app))
        await pilot.press(*"splic", "enter")
        await until(pilot, lambda: "of the old kept, %" in labels(app))
        await pilot.press("ctrl+s")
        await reads(pilot, "Rib 2 spliced: with soap")
        app.action_open("fabric")
        await reads(pilot, "spliced")
        await pilot.press("down", "o")
        await until(pilot, lambda: "take back" in asked(app))
        await pilot.press(*"take", "enter")
        await until(pilot, lambda: "Which entry?" in asked(app))
        await pilot.press("enter")
        await until(pilot, lambda: "Take the entry back" in asked(app))
        await pilot.press(*"wrong", "enter")
        await until(pilot, lambda: "spliced" not in seen(app))
    assert not list(Workbench(shop).logbook.record())


async def test_what_is_jotted_down_on_an_entry_is_on_the_thing_that_entry_is_on(
    tmp_path: Path,
) -> None:
    found = (Found("soft foot", piece=RIB), Found("rust", component="roof"), Found("all dusty"))
    app = open_app(shop_with_pieces(tmp_path / "van", *found))
    async with app.run_test(size=(80, 24)) as pilot:
        app.action_open("findings")
        await reads(pilot, "Findings (3)")
        for seen_there, on in (("soft foot", "Rib 2"), ("rust", "Roof"), ("dusty", "the vehicle")):
            await pilot.press("slash", *seen_there, "enter")
            await until(pilot, lambda there=seen_there: there in seen(app))  # type: ignore[misc]
            await pilot.press("shift+f7")
            await until(pilot, lambda thing=on: f"Measured: {thing}" in asked(app))  # type: ignore[misc]
            await pilot.press("escape")
            await until(pilot, lambda: asked(app) == "")
            await pilot.press("escape")


async def test_the_list_turns_by_kind_by_component_and_by_day(tmp_path: Path) -> None:
    found = (Found("soft foot", piece=RIB), Measured("2400 mm", piece="frame/ribs/1"))
    shop = shop_with_pieces(tmp_path / "van", *found, Found("rust", component="roof"))
    assert (
        Workbench(shop)
        .record([Said(Stored(RIB, "shelf 3"), SATURDAY)], by="ada", now=SATURDAY)
        .kept
    )
    app = open_app(shop)
    async with app.run_test(size=(80, 24)) as pilot:
        app.action_open("findings")
        await reads(pilot, "Findings (2)", "Measured (1)", "Done to pieces (1)")
        await pilot.press("right")
        text = await reads(pilot, "Frame (3)", "Roof (1)")
        assert text.index("Rib 1") < text.index("Rib 2") < text.index("rust")
        await pilot.press("right")
        await reads(pilot, "Sat 2 May 2026 (4)")
        await pilot.press("left", "left")
        await reads(pilot, "Findings (2)")


async def test_a_heading_says_how_many_of_its_entries_are_shown(tmp_path: Path) -> None:
    shop = shop_with_pieces(tmp_path)
    bench = Workbench(shop)
    for seen_there in ("green paint", "a split", "green again"):
        assert bench.record([Said(Found(seen_there), SATURDAY)], by="ada", now=SATURDAY).kept
    app = open_app(shop, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("0", "tab")
        await reads(pilot, "Findings (3)")
        await pilot.press("slash", *"green")
        await reads(pilot, "Findings (2 of 3)")
        await pilot.press("escape")
        await reads(pilot, "Findings (3)")
