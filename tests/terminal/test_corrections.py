"""A correction's form shows what a line says, and says the same again where nothing is changed."""

from __future__ import annotations

from datetime import date, datetime, time
from pathlib import Path

from crewboard.logbook import acts
from crewboard.logbook.acts import Act
from crewboard.logbook.kinds import KINDS_OF_ENTRY
from crewboard.plan.duration import Duration
from crewboard.terminal.doing.correct import changed, entry_fields_of
from tests.terminal.shop import make_shop, open_app

NOON = datetime(2026, 5, 2, 12)
EACH: list[Act] = [
    acts.SignIn("ada", "early"),
    acts.SignOut("ada"),
    acts.Expected("ben", False, note="away"),
    acts.HoursWorked("ben", 2.25, "frame/scrape", "with [b]care[/b]"),
    acts.Begun("frame/scrape", ("ada", "ben"), "wanted", "note"),
    acts.Finished("frame/scrape", NOON, "done"),
    acts.Steamed("frame/weld", Duration(minutes=65), False, True, "two of them"),
    acts.Stopped("frame/scrape", "the left side is to do"),
    acts.Reopened("frame/scrape", "a crack"),
    acts.HoursLeft("frame/scrape", 7.5, "more rust"),
    acts.HoldStarted("glue", "", "roof", Duration(days=2), "time", True, "why"),
    acts.Extended("k7f3q2mh", Duration(minutes=90), None, "cold"),
    acts.Extended("k7f3q2mh", None, NOON, "cold"),
    acts.Released("k7f3q2mh", "held"),
    acts.CheckSigned("hot-work", "watch", "ada", "frame/weld", False, "no sparks"),
    acts.HazardRuledOut("frame/weld", "weld", "ada", "it is only the name"),
    acts.Reading(14.5, None, "by the door"),
    acts.Arrived("canvas", 4, "grey", "a tear", "torn"),
    acts.Ordered("canvas", date(2026, 6, 1), 4.5, "by post"),
    acts.SentBack("canvas", 2.5, "torn"),
    acts.Used("canvas", "frame/scrape", 3, "for the sills"),
    acts.SetAside("frame/scrape", "cold", True),
    acts.Noted("rust", "frame/weld", ""),
    acts.Incident("slipped", True, "yard", "frame/weld", ("ada",), ("ben",), "iced"),
    acts.PieceFailed("frame/ribs/2", "split", True),
    acts.TookPlace("frame/ribs/4", "frame/ribs/2", "straight grain"),
    acts.LetGo(("components/roof.toml",), "sold"),
    acts.OpenUntil(time(17)),
    acts.Planned(
        *(("ada", "ben"), time(9), time(11, 30), "frame/weld", "", ("ben",)),
        *(("ada",), True, True, "slow"),
    ),
    acts.Training("cleo", "ada", "to hear it", "noise", "frame/weld"),
    acts.GuestCame("Ines Bratt", "ada", "from next door"),
    acts.GuestLeft("Ines Bratt"),
    acts.GuestHours("Ines Bratt", 2.0, "frame/scrape"),
    acts.ClosedDay("rags wet", "late"),
    # of the record
    acts.Found("soft foot", "rain", "frame/ribs/2", "", "inside", ("pictures/a.jpg",), "chip"),
    acts.Measured("2400 mm", "foot", "crown", "frame/ribs/2", "", "2 mm", "tape"),
    acts.Layers(("primer, grey", "finish, green"), "", "frame", "by the door", "S1", "tin"),
    acts.Sourced("the yard", "about 1931", "album, page 4", "may be shown", ("pictures/b.jpg",)),
    acts.TookIn("pictures/a.jpg", called="IMG_1.JPG"),
    acts.Pictured("pictures/a.jpg", "before", ("frame/ribs/2",), "", "frame/weld", "the foot"),
    acts.DoneTo("frame/ribs/2", "spliced", "long scarf", "rot", ("ash, the mill, lot 7",), 80.0),
    acts.PieceMade("frame/ribs/2", "ash", "the mill", "lot 7", "on the form", "frame/weld"),
    acts.TakenOff("frame/ribs/2", "bolts sheared", "frame/weld"),
    acts.Stored("frame/ribs/2", "shelf 3", True, "frame/weld", "wrapped"),
    acts.Gone("frame/ribs/2", "discarded", "", ("ada", "ben"), "rotten", True),
    acts.Reused("frame/ribs/2", "frame/ribs/3", "upper half", True, True),
    acts.Pattern("curve", "the second rib", "the loft", "frame/ribs/2"),
    acts.Departure("bolts for rivets", "out of reach", "yes", "", "frame"),
    acts.Temporary("props", ("frame/weld",), "", "frame"),
    acts.Undone("k7f3q2mh", "pulled out"),
    acts.EarlierRepair("iron strap", "the depot", "likely", "frame/ribs/2"),
    acts.SizeDecided("gap", "3 mm", "as most were", ("frame/weld",), "", "frame"),
    acts.Reckoned("a form", "320 mm", ("rise = 300 mm",), ("wood = ash",), note="for the ribs"),
    acts.Bent("ash", "20 mm", "355 mm", "322 mm", "2060 mm", None, 21, "loft, dry", "frame/weld"),
]


async def test_an_untouched_form_says_the_same_again(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van"))
    async with app.run_test(size=(80, 24)):
        for act in EACH:
            fields = entry_fields_of(app, act)
            assert not any(field.touched for field in fields), act
            assert changed(act, {field.key: field.answer() for field in fields}) == act


def test_every_kind_of_line_but_a_taking_back_can_be_corrected() -> None:
    assert {type(act) for act in EACH} == set(KINDS_OF_ENTRY) - {acts.TakenBack}


def test_a_field_that_was_emptied_goes_back_to_what_is_usual() -> None:
    worked = acts.HoursWorked("ben", 2, "frame/scrape", "typo")
    assert changed(worked, {"note": None}) == acts.HoursWorked("ben", 2, "frame/scrape")
    assert changed(acts.Expected("ben", True), {"coming": None}) == acts.Expected("ben", False)
