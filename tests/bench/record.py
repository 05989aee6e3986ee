"""What ten thousand findings and two thousand pieces cost, beside the same days without them.

    python -m tests.bench.record [FINDINGS] [DAYS] [PIECES]

The sample with so many more days, each with its hours, and the same folder with the findings in
them and the pieces in a component's file. Processor time of whole commands, and of the screens
until nothing more is drawn, the two folders by turns, the least of several runs; what was learned
at the first run is kept for the others, as on anybody's computer. Unix only.
"""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from datetime import date, datetime, timedelta
from functools import partial
from pathlib import Path

from crewboard.folder.read.day_file import entry_fields
from crewboard.folder.toml.append import entry_line, new_day
from crewboard.logbook.acts import Act, DoneTo, Found, HoursWorked, Pictured
from crewboard.logbook.acts import Measured as Length
from crewboard.logbook.entry import Entry
from tests.bench.screens import MOMENT, QUIET, SCRIPT, read_drawn, terminal
from tests.bench.table import Measured

ROOT = Path(__file__).parent.parent.parent
SAMPLE = ROOT / "sample_project"
FIRST_DAY = date(2022, 1, 8)
FINDINGS, DAYS, PIECES = 10_000, 400, 2_000
ROUNDS = 9


def measure(findings: int = FINDINGS, days: int = DAYS, pieces: int = PIECES) -> list[Measured]:
    """The ratio of each command with the findings to the same without."""
    with tempfile.TemporaryDirectory() as scratch:
        plain, full = Path(scratch, "plain"), Path(scratch, "full")
        a_vehicle(plain, 0, days, 0)
        a_vehicle(full, findings, days, pieces)
        os.environ["XDG_STATE_HOME"] = scratch
        called = [_compared(what, partial(_called, typed), plain, full) for what, *typed in CALLS]
        return [*called, _compared("the first screen", _first_screen, plain, full)]


_SAID = ("--by", "mirela", "--at", "2026-05-02T09:00")
CALLS = (
    ("the work day", "day", "DIR", "--at", "2026-05-02T09:00"),
    ("an entry", "note", "DIR", "something", *_SAID),
    ("a finding", "found", "DIR", "soft at the foot", "--piece", "PIECE", *_SAID),
    ("done to a piece", "done", "DIR", "PIECE", "cleaned", *_SAID),
)


def _compared(what: str, does: Callable[[Path], None], plain: Path, full: Path) -> Measured:
    least = {plain: 1e9, full: 1e9}
    for _ in range(ROUNDS):
        for folder in least:
            before = resource.getrusage(resource.RUSAGE_CHILDREN)
            does(folder)
            after = resource.getrusage(resource.RUSAGE_CHILDREN)
            ms = 1000 * (after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
            least[folder] = min(least[folder], ms)
    says = f"{least[plain]:.0f} and {least[full]:.0f} ms ({least[full] / least[plain]:.2f} x)"
    return Measured(what, says, "1.05 x")


def _called(typed: list[str], folder: Path) -> None:
    # In the full folder a piece on which findings are, in the other one of the sample's own.
    piece = "deck/board-7" if folder.name == "full" else "rods/1"
    words = [{"DIR": str(folder), "PIECE": piece}.get(word, word) for word in typed]
    call = [sys.executable, "-m", "crewboard", *words]
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    subprocess.run(call, cwd=ROOT, env=env, check=True, stdout=subprocess.DEVNULL)


def _first_screen(folder: Path) -> None:
    with terminal([SCRIPT, str(folder), *MOMENT]) as (_, descriptor):
        drawn = b""
        while b"Marigold" not in drawn:
            drawn += read_drawn(descriptor, 20)
        while read_drawn(descriptor, QUIET):
            pass


def a_vehicle(root: Path, findings: int, days: int, pieces: int) -> None:
    """The sample with so many days before it, findings in them, and pieces in one component."""
    shutil.copytree(SAMPLE, root)
    shutil.rmtree(root / ".crewboard", ignore_errors=True)
    for number in range(days):
        day = FIRST_DAY + timedelta(days=number * 3)
        acts: list[Act] = [HoursWorked("mirela", 2.5, component="deck")]
        acts += list(_findings(findings * number // days, findings * (number + 1) // days, pieces))
        path = root / f"days/{day.year}/{day}.toml"
        path.parent.mkdir(parents=True, exist_ok=True)
        text = path.read_bytes() if path.exists() else new_day(day)
        at = datetime(day.year, day.month, day.day, 10)
        for place, act in enumerate(acts):
            entry = Entry(f"b{number:04}x{place:04}", at + timedelta(minutes=place), act, "mirela")
            text += entry_line(entry.id, entry_fields(entry)).encode() + b"\n"
        path.write_bytes(text)
    with (root / "components/deck.toml").open("a", encoding="utf-8") as deck:
        deck.writelines(_piece(number) for number in range(pieces))


def _findings(first: int, last: int, pieces: int) -> Iterator[Act]:
    for number in range(first, last):
        piece = f"deck/board-{number % pieces}" if pieces else ""
        picture = (f"pictures/2026/{number}.jpg",)
        match number % 10:
            case 7:
                yield DoneTo(piece, "spliced", f"long scarf {number}", materials=("ash, lot 7",))
            case 8:
                yield Length(f"{400 + number} mm", "the foot", f"hole {number}", piece)
            case 9:
                yield Pictured(picture[0], "before", (piece,), words=f"the foot, {number}")
            case _:
                seen = f"the foot {number} is soft for 40 mm, its old screw holes are puttied"
                thought = f"water came in at corner {number} of the roof and ran down the rib"
                yield Found(seen, thought, piece, pictures=picture if number % 2 else ())


def _piece(number: int) -> str:
    return (
        f'\n[pieces.board-{number}]\nname = "Board {number} from the front"\nkind = "board"\n'
        f'material = "pine"\nsize = "22 mm"\nas_found = "original"\nextent = "2.4 m"\n'
    )


if __name__ == "__main__":
    from tests.bench.table import show

    show("10,000 findings and 2,000 pieces", measure(*map(int, sys.argv[1:])))
