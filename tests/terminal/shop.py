"""A small invented shop to drive the screens with, and how a test reads what a person sees."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from textual import events
from textual.pilot import Pilot

from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.dialogs.ask import AskLine
from crewboard.terminal.dialogs.checks import ChecksDialog
from crewboard.terminal.dialogs.pick import PickOne, PickSeveral
from crewboard.workbench import Workbench
from tests.terminal.at_rest import wait_no_longer_than_needed

SATURDAY = datetime(2026, 5, 2, 10, 0)
PEOPLE = ("ada", "ben", "cleo", "dov", "eva", "finn", "gus", "hana", "ines", "jo")

VEHICLE = """\
format = 1
name = "The market van"

[work_days]
every = ["first saturday"]
opens = 09:00:00
closes = 16:00:00

[shop]
emergency = "112"
meeting_place = "the gate"
"""

CREW = """\
# who we are
[people.ada]
name = "Ada Marsh"
adult = true
lead = true
skills = ["joinery"]
certificates = { "hot work" = 2027-01-31 }

[people.ben]
name = "Ben Holt"
adult = true

[people.cleo]
name = "Cleo Rand"
under_18 = true

""" + "\n".join(
    f'[people.{who}]\nname = "{who.capitalize()} Quill"\nadult = true\n' for who in PEOPLE[3:]
)

FRAME = """\
name = "Frame"

# the order matters here
[tasks.scrape]
title = "Scrape the frame"
method = "Long strokes, along the grain."
hours = [2, 4, 8]

[tasks.weld]
title = "Weld the bracket"
hazards = ["hot-work"]
hours = [1, 2, 3]
place = "yard"

[tasks.prime]
title = "Prime the frame"
after = ["scrape"]
hours = [1, 2, 3]
hold = { kind = "dry", lasts = "36 hours" }
"""

ROOF = """\
name = "Roof"
after = ["frame"]

[tasks.bend]
title = "Bend the arches"
hold = { kind = "bend set", lasts = "1 month", leave_alone = true }

[tasks.board]
title = "Lay the roof boards"
after = ["bend"]
"""


def make_shop(root: Path, *, components: dict[str, str] | None = None) -> Path:
    """The folder, with these component files beside the frame and the roof."""
    (root / "components").mkdir(parents=True)
    (root / "vehicle.toml").write_text(VEHICLE)
    (root / "crew.toml").write_text(CREW)
    files = {"frame": FRAME, "roof": ROOF} | (components or {})
    for name, text in files.items():
        (root / "components" / f"{name}.toml").write_text(text, encoding="utf-8")
    return root


def frame(shop: Path) -> str:
    """The text of the frame's file."""
    return (shop / "components/frame.toml").read_text(encoding="utf-8")


def many_tasks(count: int) -> str:
    """A component file with so many tasks that can all be worked on."""
    tasks = "\n".join(
        f'[tasks.t{n}]\ntitle = "Panel {n}"\nhours = [1, 2, 3]\n' for n in range(1, count + 1)
    )
    return f'name = "Panels"\n\n{tasks}'


class Watch:
    """A shop's clock that a test turns."""

    def __init__(self, now: datetime = SATURDAY) -> None:
        self.now = now

    def __call__(self) -> datetime:
        return self.now


def open_app(
    root: Path, watch: Watch | None = None, *, by: str = "", plain: bool = False
) -> CrewboardApp:
    """The screens over the folder."""
    return CrewboardApp(Workbench(root), watch or Watch(), by=by, plain=plain)


def seen(app: CrewboardApp) -> str:
    """What a person reads: the screen's text, line by line."""
    lines = app.screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in line).rstrip() for line in lines)


def asked(app: CrewboardApp) -> str:
    """What a dialog says, as running text; empty where none is open."""
    boxes = app.screen.query("#box")
    if not boxes:
        return ""
    region = boxes.first().region
    lines = app.screen._compositor.render_strips()[region.y : region.bottom]
    inside = (line.crop(region.x + 1, region.right - 1) for line in lines)
    words = " ".join("".join(segment.text for segment in line) for line in inside)
    return " ".join(words.split())


async def until(pilot: Pilot[int], condition: Callable[[], object], seconds: float = 5.0) -> None:
    """Wait until the condition holds; fail with what is on the screen."""
    loop = asyncio.get_running_loop()
    end = loop.time() + seconds
    while not condition():
        if loop.time() > end:
            assert isinstance(pilot.app, CrewboardApp)
            raise AssertionError(f"waited in vain; the screen reads:\n{seen(pilot.app)}")
        await pilot.pause(0.02)


async def reads(pilot: Pilot[int], *texts: str) -> str:
    """Wait until the screen reads all of these; what it reads then."""
    app = pilot.app
    assert isinstance(app, CrewboardApp)
    await until(pilot, lambda: all(text in seen(app) or text in asked(app) for text in texts))
    return seen(app)


CHARACTERS = {"tab": "\t", "enter": "\r", "comma": ",", "full_stop": ".", "space": " "}
CHARACTERS |= {"slash": "/"}


def types(app: CrewboardApp, *keys: str) -> None:
    """Put keys into the app as the terminal does, one after the other, without waiting."""
    for key in keys:
        character = CHARACTERS.get(key, key)
        app.post_message(events.Key(key, character if len(character) == 1 else None))


async def type_text(pilot: Pilot[int], text: str) -> None:
    """Type a text into the line that has the keys."""
    keys = {" ": "space", "-": "minus", ".": "full_stop", ",": "comma"}
    await pilot.press(*(keys.get(letter, letter) for letter in text))


ChecksDialog.READ_S = 0.0  # a test reads at once
wait_no_longer_than_needed()


async def sign_each(pilot: Pilot[int], reason: str = "nobody has the paper yet") -> int:
    """Sign every check that is put until the dialog is left or begins the work; the keys pressed.

    Where somebody has to be picked, it is the first in the list."""
    app, keys = pilot.app, 0
    while True:
        await pilot.pause()
        match app.screen:
            case ChecksDialog() as dialog:
                if not any(check.open for check in dialog.asked):
                    await pilot.press("escape")
                    return keys + 1
                typed: list[str] = ["s"]
            case PickOne() | PickSeveral():
                typed = ["enter"]
            case AskLine():
                typed = [*("space" if c == " " else c for c in reason), "enter"]
            case _:
                return keys
        before = app.screen
        await pilot.press(*typed)
        keys += len(typed)
        await until(pilot, lambda before=before: app.screen is not before)  # type: ignore[misc]


def day_file(root: Path, day: str = "2026-05-02") -> str:
    """The text of a day's file, empty where there is none."""
    path = root / "days" / day[:4] / f"{day}.toml"
    return path.read_text(encoding="utf-8") if path.exists() else ""
