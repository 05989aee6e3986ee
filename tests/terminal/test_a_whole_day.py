"""A whole work day of eight people, from the first sign-in to the page at its end, by keys."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from textual.pilot import Pilot

from crewboard.logbook.acts import HoursWorked
from crewboard.order.board import Board
from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.dialogs.dialog import Panel
from crewboard.terminal.screens.hours import HoursPage
from crewboard.terminal.widgets.rows import RowList
from crewboard.workbench import Workbench
from tests.terminal.shop import Watch, make_shop, open_app, reads, sign_each, until

BODY = """\
name = "Body"

[tasks.sills]
title = "Fit the sills"
hours = [8, 12, 18]
people = 2

[tasks.door]
title = "Hang the door"
hours = [4, 6, 9]
people = 2

[tasks.panel]
title = "Glue the panel"
hours = [4, 6, 8]
people = 2
hold = { kind = "glue", lasts = "2 hours", release = "look" }

[tasks.fillets]
title = "Fit the fillets"
after = ["panel"]
hours = [2, 3, 4]
"""
DAY = date(2026, 5, 2)
MOST = 180  # keys, the signing of checks apart: nobody is to hurry that


class Played:
    """The screens with somebody at the keys, and how many they pressed."""

    def __init__(self, app: CrewboardApp, pilot: Pilot[int], watch: Watch) -> None:
        self.app, self.pilot, self.watch = app, pilot, watch
        self.keys = self.to_sign = 0

    def clock(self, hour: int, minute: int = 0) -> None:
        self.watch.now = datetime(2026, 5, 2, hour, minute)
        self.app.look_now()

    async def press(self, *keys: str) -> None:
        self.keys += len(keys)
        await self.pilot.press(*keys)

    async def type(self, text: str) -> None:
        await self.press(*("space" if letter == " " else letter for letter in text))

    async def go_to(self, row: str) -> None:
        """To a row of the list that is in front, the shorter way."""
        rows = self.app.screen.query_one(RowList)
        await until(self.pilot, lambda: row in _ids(rows))
        while rows.at != row:
            ids = _ids(rows)
            before = rows.at
            await self.press("down" if ids.index(row) > ids.index(before) else "up")
            assert rows.at != before, f"no way from {before} to {row}"

    async def mark(self, *people: str) -> None:
        for who in people:
            await self.go_to(who)
            await self.press("space")
        await self.press("enter")

    async def begin(self, task: str, *people: str) -> None:
        await self.go_to(task)
        await self.press("b")
        await reads(self.pilot, "Who works on")
        await self.mark(*people)

    async def finish(self, task: str) -> None:
        await self.go_to(task)
        await self.press("f")
        await reads(self.pilot, "finished at")
        await self.press("enter")

    async def sign(self) -> None:
        self.to_sign += await sign_each(self.pilot)

    def stands(self, task: str) -> str:
        return self.app.board[task].state


def _ids(rows: RowList) -> list[str]:
    return [row.id for row in rows.rows]


async def test_a_whole_day_of_eight_people_takes_at_most_180_keys(tmp_path: Path) -> None:
    root = make_shop(tmp_path / "van", components={"body": BODY})
    watch = Watch(datetime(2026, 5, 2, 8, 55))
    app = open_app(root, watch, by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        day = Played(app, pilot, watch)
        await reads(pilot, "Scrape the frame")
        await play(day)
        await reads(pilot, "The end of the day")
        assert isinstance(app.screen, Panel)
    print(f"{day.keys} keys, and {day.to_sign} to sign checks")
    board = Workbench(root).board(datetime(2026, 5, 2, 16, 30))
    assert not board.present
    assert len(board.history.visits) == 8
    finished = ("frame/scrape", "frame/weld", "frame/prime", "body/panel", "body/door")
    assert all(board[task].work_done for task in finished)
    assert all(board[task].stopped for task in ("body/sills", "body/fillets"))
    assert hours_of(board) == {
        "ada": 5,
        "ben": 5,
        "cleo": 5.25,
        "hana": 5.25,
        "dov": 4.25,
        "eva": 4.25,
        "finn": 6,
        "gus": 6,
    }
    assert day.keys <= MOST, f"{day.keys} keys, and {day.to_sign} to sign checks"


async def play(day: Played) -> None:
    pilot = day.pilot
    await day.press("i")  # seven come
    await day.mark("ada", "ben", "cleo", "dov", "eva", "finn", "gus")
    await reads(pilot, "7 signed in")
    await day.press("r")
    await day.type("18 55")
    await day.press("enter")
    day.clock(9, 10)
    await day.begin("frame/scrape", "ada", "ben")
    await until(pilot, lambda: day.stands("frame/scrape") == "under way")
    await day.begin("body/panel", "dov", "eva")
    await until(pilot, lambda: day.stands("body/panel") == "under way")
    await day.begin("body/sills", "finn", "gus")
    await until(pilot, lambda: day.stands("body/sills") == "under way")
    day.clock(10, 20)  # the eighth came at five past
    await day.press("i")
    await day.type("10:05")
    await day.mark("hana")
    await reads(pilot, "1 signed in")
    await day.begin("body/door", "cleo", "hana")
    await reads(pilot, "Who stays beside Cleo Rand?")
    await day.press("enter")
    await reads(pilot, 'Checks: "Hang the door')
    await day.sign()
    await until(pilot, lambda: day.stands("body/door") == "under way")
    day.clock(11, 0)
    await day.finish("frame/scrape")
    await until(pilot, lambda: day.stands("frame/scrape") == "finished")
    await day.begin("frame/weld", "ada", "ben")
    await reads(pilot, "fire watch")
    await day.go_to("ben")
    await day.press("enter")
    await day.sign()
    await until(pilot, lambda: day.stands("frame/weld") == "under way")
    day.clock(12, 0)
    await day.finish("body/panel")
    await until(pilot, lambda: panel_is_held(day.app.board))
    day.clock(13, 0)
    await day.finish("frame/weld")
    await until(pilot, lambda: day.stands("frame/weld") == "finished")
    await reads(pilot, "After the work")
    await pilot.press("s")  # hot work ended: its watch runs for an hour
    await reads(pilot, "signed by Ada Marsh")
    await pilot.press("escape")
    day.to_sign += 2
    day.clock(14, 10)
    await day.press("l")
    await reads(pilot, "v release")
    await day.press("v")
    await reads(pilot, 'Release: "Glue the panel')
    await day.press("enter")
    await until(pilot, lambda: not panel_is_held(day.app.board))
    await day.begin("body/fillets", "dov", "eva")
    await until(pilot, lambda: day.stands("body/fillets") == "under way")
    await day.begin("frame/prime", "ada", "ben")
    await until(pilot, lambda: day.stands("frame/prime") == "under way")
    day.clock(15, 0)
    await day.press("n")
    await day.type("the hinge is bent")
    await day.press("enter")
    await reads(pilot, "noted")
    day.clock(15, 30)
    await day.finish("body/door")
    await until(pilot, lambda: day.stands("body/door") == "finished")
    await day.finish("frame/prime")
    await until(pilot, lambda: day.stands("frame/prime") == "on hold")
    day.clock(15, 40)
    await day.press("h")
    await until(pilot, lambda: isinstance(day.app.screen, HoursPage))
    await pilot.pause(0.2)
    await day.press("o", "enter")
    await reads(pilot, "filled:")
    await day.press(*["down"] * 5, "6", "enter", "6", "enter")  # who had lunch
    await day.press("ctrl+s")
    await reads(pilot, "hours saved")
    day.clock(15, 55)
    await day.press("x")
    await reads(pilot, "Close the day")
    await day.press("o", "enter")
    await reads(pilot, "What goes on another day?")
    await day.press("enter")
    await reads(pilot, "i in/out")
    await day.press("i")  # all but the one who goes last
    await reads(pilot, "Mark who is here")
    await day.press("ctrl+a", "ctrl+a")
    await day.mark("ada")
    await reads(pilot, "7 signed out", "i in/out")
    await day.press("c")
    await reads(pilot, "Checks after the work")
    await day.sign()
    await reads(pilot, "Nothing stands in the way")
    await day.press("enter")


def hours_of(board: Board) -> dict[str, float]:
    """Hours per person of the day."""
    hours: dict[str, float] = {}
    for entry in board.logbook.days[DAY].counting:
        if isinstance(entry.act, HoursWorked):
            hours[entry.act.who] = hours.get(entry.act.who, 0) + entry.act.hours
    return hours


def panel_is_held(board: Board) -> bool:
    return any(hold.task == "body/panel" for hold in board.stopping())
