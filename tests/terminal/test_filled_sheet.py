"""A morning sheet that was filled in by hand is typed in at night."""

from __future__ import annotations

import asyncio
from datetime import date, datetime
from pathlib import Path

from textual.pilot import Pilot
from textual.widgets import Input

from crewboard.logbook.acts import (
    Act,
    Begun,
    CheckSigned,
    Finished,
    GuestCame,
    GuestHours,
    GuestLeft,
    HoldStarted,
    HoursWorked,
    Noted,
    Reading,
    Released,
    SignIn,
    SignOut,
    Stopped,
)
from crewboard.order.board import Board
from crewboard.order.safety.checks import Asked, checks_of, checks_of_the_day, coming_round
from crewboard.plan.duration import Duration
from crewboard.plan.hazard import When
from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.dialogs.filled_sheet import FilledSheet
from crewboard.terminal.dialogs.sheet_row import SheetRow
from crewboard.terminal.doing.sheet_draft import SheetDraft
from crewboard.terminal.doing.type_in_sheet import type_in_sheet
from crewboard.workbench import Said, Workbench
from tests.terminal.shop import Watch, make_shop, open_app, reads, types, until

DAY = date(2026, 5, 2)
NIGHT = datetime(2026, 5, 2, 22, 30)


def at(clock: str) -> datetime:
    return datetime.combine(DAY, datetime.strptime(clock, "%H:%M").time())


def a_shop(root: Path) -> Path:
    """The small shop, in which a glued joint is due for a look on the Saturday."""
    make_shop(root)
    friday = datetime(2026, 5, 1, 9)
    held = HoldStarted("glue", "roof/bend", lasts=Duration(minutes=720), release="look")
    outcome = Workbench(root).record([Said(held, friday)], by="ada", now=friday)
    assert outcome.kept, outcome.refused
    return root


def live(root: Path) -> None:
    """The day as it is written while it goes on."""
    bench = Workbench(root)
    opening = [
        (a.hazard.id, a.check) for a in checks_of_the_day(bench.board(at("09:00")), "before")
    ]
    steps: list[tuple[str, str, list[Act]]] = [
        ("09:00", "ada", [SignIn("ada"), SignIn("ben")]),
        ("09:05", "ada", [Reading(18.5, 55)]),
        (
            "09:10",
            "ada",
            [
                CheckSigned(
                    hazard, check.id, "ada", why="nobody has the paper" if check.names else ""
                )
                for hazard, check in opening
            ],
        ),
        ("09:20", "ben", [Released(next(iter(bench.board(at("09:00")).holds)))]),
        ("09:30", "ada", [Begun("frame/scrape", ("ada", "ben"))]),
        ("10:05", "ada", [SignIn("dov"), GuestCame("Ines Bratt")]),
        (
            "12:30",
            "ada",
            [
                HoursWorked("ada", 2.5, "frame/scrape"),
                HoursWorked("ben", 3, "frame/scrape"),
                Finished("frame/scrape", None, "one scraper broke"),
            ],
        ),
        ("13:00", "ada", [Begun("frame/prime", ("dov",))]),
        ("15:00", "ada", [GuestLeft("Ines Bratt")]),
        (
            "15:30",
            "ada",
            [
                HoursWorked("dov", 2.5, "frame/prime"),
                GuestHours("Ines Bratt", 1.5, "frame/prime"),
                Stopped("frame/prime"),
            ],
        ),
        ("15:45", "ada", [SignOut("dov")]),
        (
            "16:00",
            "ada",
            [
                Noted("the kettle is dead"),
                SignOut("ben"),
                *(
                    CheckSigned(a.hazard.id, a.check.id, "ada")
                    for a in checks_of_the_day(bench.board(at("09:00")), "after")
                ),
                SignOut("ada"),
            ],
        ),
    ]
    for clock, by, acts in steps:
        outcome = bench.record([Said(act, at(clock)) for act in acts], by=by, now=at(clock))
        assert outcome.kept, outcome.refused


def facts(board: Board) -> dict[str, object]:
    """All that a board says of the work, the people and the holds."""
    return {
        "states": {task: s.state for task, s in board.standings.items()},
        "begun": {task: (s.begun, s.finished, s.stopped) for task, s in board.standings.items()},
        "hours": {task: s.hours for task, s in board.standings.items()},
        "visits": board.history.visits,
        "holds": [
            (h.task, h.kind, h.since, h.until, h.stage, h.released_at, h.released_by)
            for h in board.holds.values()
        ],
        "guests": [(g.name, g.since, g.until) for g in board.guests],
        "checks": [
            (a.check.id, a.answer, a.signed_by, a.at, a.why)
            for a in [
                *checks_of_the_day(board),
                *(a for task in board.standings for a in checks_of(board, task)),
            ]
        ],
    }


def row(app: CrewboardApp, name: str, place: int = 0) -> SheetRow:
    rows = [r for r in app.screen.query(SheetRow) if name in (r.row.about, r.row.text)]
    return rows[place]


def fill(of: SheetRow, **texts: str) -> None:
    for key, text in texts.items():
        of.boxes[key.replace("_", " ")].value = text


def of_jobs(app: CrewboardApp) -> list[SheetRow]:
    """The rows of the checks of the jobs that were begun."""
    return [r for r in app.screen.query(SheetRow) if r.row.part == "checks" and r.row.task]


async def opened(app: CrewboardApp, pilot: Pilot[int], day: date = DAY) -> FilledSheet:
    app.run_worker(type_in_sheet(app, day))
    await until(pilot, lambda: isinstance(app.screen, FilledSheet) and app.screen.query(Input), 30)
    sheet = app.screen
    assert isinstance(sheet, FilledSheet)
    return sheet


class Hand:
    """Fills in a sheet from its top to its end: keeps what it types until all of it is typed."""

    def __init__(self, app: CrewboardApp) -> None:
        self.app, self.rows, self.at = app, list(app.screen.query(SheetRow)), 0
        self.keys: list[str] = []
        self.written: dict[Input, str] = {}

    def write(self, of: SheetRow, **texts: str) -> None:
        """Go down to the row, and type into its boxes from the first to the last."""
        down = self.rows.index(of) - self.at
        assert down >= 0, "from the top to the end"
        self.keys += ["down"] * down
        self.at += down
        last = max(list(of.boxes).index(key.replace("_", " ")) for key in texts)
        for place, (key, box) in enumerate(list(of.boxes.items())[: last + 1]):
            text = texts.get(key.replace(" ", "_"), "")
            self.written[box] = text
            self.keys += [*["tab"] * bool(place), *text]

    async def done(self) -> None:
        """Type it all, and wait until it stands there."""
        types(self.app, *self.keys)
        for _ in range(6000):
            if all(box.value == text for box, text in self.written.items()):
                return
            await asyncio.sleep(0.01)
        raise AssertionError([(b.value, t) for b, t in self.written.items() if b.value != t])


async def write_the_day(app: CrewboardApp) -> None:
    """What was written on the sheet of the day, row by row in the order of the page."""
    hand = Hand(app)
    rows = hand.rows
    looks = next(r for r in rows if r.row.part == "due for a look")
    hand.write(looks, released="x", who="ben", at="9:20")
    hand.write(row(app, "ada"), came="9:00", left="16:00")
    hand.write(row(app, "ben"), came="9.00", left="16")
    hand.write(row(app, "dov"), came="10:05", left="15:45")
    hand.write(row(app, ""), name="Ines Bratt, guest", came="10:05", left="15:00")
    for place, check in enumerate(r for r in rows if r.row.part == "checks"):
        named = {"named": "nobody: nobody has the paper"} if "named" in check.boxes else {}
        at = {"at": "9:10"} if not place else {}
        hand.write(check, who="ada m", **named, **at)
    hand.write(
        row(app, "frame/scrape"),
        begun="9:30",
        on_it="Ada 2.5, ben 3",
        finished="12:30",
        note="one scraper broke",
    )
    listed = any(r.row.about == "frame/prime" for r in rows)
    prime = row(app, "frame/prime") if listed else next(r for r in rows if "task" in r.boxes)
    task = {} if listed else {"task": "prime fr"}
    on_it = "Dov 2,5; Ines Bratt 1.5"
    hand.write(prime, **task, begun="13:00", on_it=on_it, stopped="15:30")
    hand.write(row(app, "reading"), at="9:05", temperature="18.5", humidity="55")
    hand.write(row(app, "note"), note="the kettle is dead")
    for place, check in enumerate(r for r in rows if r.row.part == "to close"):
        hand.write(check, who="Ada", **({"at": "16:00"} if not place else {}))
    await hand.done()


async def test_typing_in_a_filled_sheet_gives_the_board_that_live_entry_gave(
    tmp_path: Path,
) -> None:
    lived, typed = a_shop(tmp_path / "lived"), a_shop(tmp_path / "typed")
    live(lived)
    app = open_app(typed, Watch(NIGHT), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await opened(app, pilot)
        await write_the_day(app)
        await pilot.press("ctrl+s")
        await until(pilot, lambda: not isinstance(app.screen, FilledSheet))
        await reads(pilot, "entries of Sat 2 May 2026")
    for clock in ("09:02", "09:15", "10:30", "12:45", "14:00", "15:50", "22:30"):
        boards = [Workbench(root).board(at(clock)) for root in (lived, typed)]
        for fact, of_lived in facts(boards[0]).items():
            assert facts(boards[1])[fact] == of_lived, f"{fact} at {clock}"
    for entry in Workbench(typed).logbook.days[DAY].entries:
        assert entry.written == NIGHT, "written now, at what stands on the sheet"


async def test_a_refusal_names_the_row_and_everything_typed_stays(tmp_path: Path) -> None:
    root = a_shop(tmp_path / "van")
    app = open_app(root, Watch(NIGHT), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        sheet = await opened(app, pilot)
        fill(row(app, "ada"), came="9:00", left="8:00")
        fill(row(app, "frame/scrape"), begun="9:30", on_it="Adda 2")
        await pilot.press("ctrl+s")
        await reads(pilot, "Ada Marsh", "signed out before they signed in")
        row(app, "ada").boxes["left"].value = "16:00"
        await pilot.press("ctrl+s")
        await reads(pilot, "Scrape the frame", 'there is no person of the crew "Adda"')
        row(app, "frame/scrape").boxes["on it"].value = "Ada 2"
        fill(row(app, "ben"), left="9:10")  # nobody wrote when he came
        await pilot.press("ctrl+s")
        await reads(pilot, "Ben Holt is not signed in")
        assert app.screen is sheet
        assert row(app, "ada").boxes["came"].value == "9:00"
        assert DAY not in Workbench(root).logbook.days, "all of it is kept, or nothing"
        fill(row(app, "ben"), came="9:00", left="16:00")
        await pilot.press("ctrl+s")
        await reads(pilot, "entries of Sat 2 May 2026")
    assert Workbench(root).logbook.days[DAY].hours_by_task == {"frame/scrape": 2}


def weld_live(root: Path) -> None:
    """The dangerous job as it is written while it goes on."""
    bench = Workbench(root)

    def write_down(clock: str, *acts: Act) -> None:
        outcome = bench.record([Said(act, at(clock)) for act in acts], by="ada", now=at(clock))
        assert outcome.kept, outcome.refused

    def sign(clock: str, *open_checks: Asked) -> None:
        for asked in open_checks:
            why = "no paper" if asked.check.names else ""
            signed = CheckSigned(asked.hazard.id, asked.check.id, "ada", asked.task, why=why)
            write_down(clock, signed)

    def of_weld(when: When) -> list[Asked]:
        return checks_of(bench.board(at("09:25")), "frame/weld", ("ada",), when)

    write_down("09:00", SignIn("ada"), SignIn("ben"))
    sign("09:10", *checks_of_the_day(bench.board(at("09:00")), "before"))
    sign("09:25", *of_weld("before"))
    write_down("09:30", Begun("frame/weld", ("ada",), watch=("ben",)))
    for clock in ("10:00", "10:30", "11:00"):
        sign(clock, *of_weld("during"))
    hours = [HoursWorked(who, 2, "frame/weld") for who in ("ada", "ben")]
    write_down("11:30", *hours, Finished("frame/weld"))
    ended, watched = of_weld("after")
    sign("11:30", ended)
    sign("12:35", watched)
    write_down("16:00", SignOut("ada"), SignOut("ben"))


async def test_the_checks_of_a_dangerous_job_stand_on_the_form_once_it_was_begun(
    tmp_path: Path,
) -> None:
    lived, root = a_shop(tmp_path / "lived"), a_shop(tmp_path / "van")
    weld_live(lived)
    app = open_app(root, Watch(NIGHT), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await opened(app, pilot)
        fill(row(app, "ada"), came="9:00", left="16:00")
        fill(row(app, "ben"), came="9:00", left="16:00")
        for check in (r for r in app.screen.query(SheetRow) if r.row.part == "checks"):
            named = {"named": "nobody: no paper"} if "named" in check.boxes else {}
            fill(check, who="Ada", at="9:10", **named)
        weld = row(app, "frame/weld")
        fill(weld, begun="9:30", on_it="Ada 2, Ben 2 watch", finished="11:30")
        await pilot.press("ctrl+s")
        await reads(pilot, "their checks stand below them now")
        checks = of_jobs(app)
        assert {r.row.first for r in checks} == {"", "during", "after"}
        (round_,) = [r for r in checks if r.row.first == "during"]
        assert round_.row.more.startswith("every 15 min")
        for check in checks:
            ended = "11:30" if "ended" in check.row.text else "12:35"
            fill(check, who="Ada", at=ended if check.row.first else "9:25")
        fill(round_, at="")
        await pilot.press("ctrl+s")
        await reads(pilot, "say when it was signed")
        fill(round_, at="10:00, 10.30, 11")
        await pilot.press("ctrl+s")
        await reads(pilot, "entries of Sat 2 May 2026")
    for clock in ("09:28", "09:45", "10:15", "10:45", "11:20", "11:45", "12:40", "22:30"):
        boards = [Workbench(folder).board(at(clock)) for folder in (lived, root)]
        for fact, of_lived in facts(boards[0]).items():
            assert facts(boards[1])[fact] == of_lived, f"{fact} at {clock}"
        due = [[(a.check.id, a.due) for a in coming_round(board)] for board in boards]
        assert due[0] == due[1], clock


async def test_a_sheet_half_typed_in_is_offered_again_until_it_is_saved_or_thrown_away(
    tmp_path: Path,
) -> None:
    root = a_shop(tmp_path / "van")
    app = open_app(root, Watch(NIGHT), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await opened(app, pilot)
        fill(row(app, "ben"), came="9:00")
        fill(row(app, "", 1), name="Ines, guest")
        fill(row(app, "frame/weld"), begun="9:30", on_it="Ada 2")
        await pilot.press("tab")
        await until(pilot, lambda: of_jobs(app))
        fill(of_jobs(app)[0], who="ben")
        await pilot.pause()
    # The program ended; another one on the same computer.
    app = open_app(root, Watch(NIGHT), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        app.run_worker(type_in_sheet(app, DAY))
        await reads(pilot, "The sheet of Sat 2 May 2026 is half typed in", "4 rows")
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, FilledSheet))
        await until(pilot, lambda: row(app, "ben").boxes["came"].value == "9:00")
        assert row(app, "", 1).boxes["name"].value == "Ines, guest"
        assert of_jobs(app)[0].boxes["who"].value == "ben"
        await pilot.press("escape")
        await reads(pilot, "not saved yet: what you typed is offered again")
        app.run_worker(type_in_sheet(app, DAY))
        await reads(pilot, "go on with it")
        await pilot.press("down", "enter")
        await until(pilot, lambda: isinstance(app.screen, FilledSheet))
        fill(row(app, "ada"), came="9:00", left="10:00")
        await pilot.press("ctrl+s")
        await reads(pilot, "2 entries of Sat 2 May 2026")
        assert SheetDraft(app, DAY).typed() == {}, "nothing is offered any more"
    assert list(Workbench(root).logbook.days[DAY].hours_by_task) == []


async def test_the_sheet_is_asked_for_when_closing_and_stands_among_the_paper(
    tmp_path: Path,
) -> None:
    app = open_app(a_shop(tmp_path / "van"), Watch(NIGHT), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        await pilot.press("x")
        await reads(pilot, "Close the day")
        await pilot.press("o", "down", "enter")
        await reads(pilot, "The filled sheet of Sat 2 May 2026")
        await pilot.press("escape", "escape")
        await pilot.press("ctrl+p")
        await reads(pilot, "a morning sheet that was filled by hand")
