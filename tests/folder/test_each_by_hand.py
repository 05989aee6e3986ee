"""Six windows by six tasks are one chain of six tables: read from files they give the same board
as thirty-six tables written out by hand, and have the same mistakes told."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Act, Begun, Finished, HoldStarted, Released, SetAside
from crewboard.order.ahead.first import what_goes_first
from crewboard.order.assess import assess
from crewboard.order.reasons.why import why
from tests.order.small_plans import logbook

VEHICLE = (
    'name = "Van"\n[work_days]\nevery = ["saturday"]\n[jigs.frame]\nname = "Frame"\ncount = 2\n'
)
PIECES = 'name = "Windows"\n[pieces.sashes]\nname = "Sash"\ncount = 6\n'
# Of each table: its title, and what else it says.
CHAIN = {
    "take-out": ("Take out", "hours = [1, 1, 2]"),
    "mend": (
        "Mend",
        'hours = [1, 2, 3]\nuses = ["frame"]\nhold = { kind = "glue", lasts = "1 day" }',
    ),
    "strip": ("Strip", 'hours = [1, 2, 4]\nskills = ["joinery"]'),
    "prime": ("Prime", 'hours = [1, 1, 2]\nhold = { kind = "dry", lasts = "2 days" }'),
    "glaze": ("Glaze", "hours = [1, 1, 2]\npeople = [1, 2]"),
    "hang": ("Hang", "hours = [1, 1, 2]"),
}
AFTER_ALL = '[tasks.paint]\ntitle = "Paint the wall"\nhours = [4, 6, 8]\nafter = [{}]\n'


def by_each(chain: dict[str, tuple[str, str]] = CHAIN) -> str:
    """Six tables."""
    tables, before = [PIECES], ""
    for name, (title, rest) in chain.items():
        after = f'after = ["{before}"]\n' if before else ""
        tables.append(f'[tasks.{name}]\ntitle = "{title}"\neach = ["sashes"]\n{after}{rest}\n')
        before = name
    return "".join(tables) + AFTER_ALL.format(f'"{before}"')


def by_hand(chain: dict[str, tuple[str, str]] = CHAIN) -> str:
    """Thirty-six tables."""
    tables, before = [PIECES], ""
    for name, (title, rest) in chain.items():
        for sash in range(1, 7):
            after = f'after = ["{before}-{sash}"]\n' if before else ""
            tables.append(
                f'[tasks.{name}-{sash}]\ntitle = "{title}: Sash {sash}"\n'
                f'pieces = ["sashes/{sash}"]\n{after}{rest}\n'
            )
        before = name
    return "".join(tables) + AFTER_ALL.format(", ".join(f'"{before}-{n}"' for n in range(1, 7)))


@pytest.fixture
def folder(tmp_path: Path) -> Callable[[str, str], Folder]:
    def read(name: str, windows: str) -> Folder:
        root = tmp_path / name
        (root / "components").mkdir(parents=True)
        (root / "vehicle.toml").write_text(VEHICLE)
        (root / "crew.toml").write_text('[people.ada]\nname = "Ada"\nskills = ["joinery"]\n')
        (root / "supplies.toml").write_text('[supplies.putty]\nname = "Putty"\n')
        (root / "components/windows.toml").write_text(windows)
        return Folder(root)

    return read


def of_series(name: str) -> str:
    """The id by `each` of a task written by hand: "windows/mend-3" is "windows/mend/sashes/3"."""
    head, mark, number = name.rpartition("-")
    return f"{head}/sashes/{number}" if mark and number.isdecimal() else name


def test_six_windows_by_six_tasks_are_six_tables(folder: Callable[[str, str], Folder]) -> None:
    short, long = folder("short", by_each()), folder("long", by_hand())
    assert (by_each().count("[tasks."), by_hand().count("[tasks.")) == (6 + 1, 36 + 1)
    assert not [*short.faults, *long.faults]
    assert list(short.plan.tasks) == [of_series(name) for name in long.plan.tasks]
    assert [t.title for t in short.plan.tasks.values()] == [
        t.title for t in long.plan.tasks.values()
    ]


def days(of: Callable[[str], str]) -> list[tuple[datetime, Act]]:
    """A day's words, with the ids as that plan has them."""

    def at(hour: int, day: int = 2) -> datetime:
        return datetime(2026, 5, day, hour)

    ends = [(at(9), Finished(of(f"windows/take-out-{n}"))) for n in range(1, 6)]
    return [
        *ends,
        (at(10), Finished(of("windows/mend-1"))),
        (at(11), Begun(of("windows/mend-2"), ("ada",))),
        (at(12), SetAside(of("windows/mend-4"), "the tenon is missing")),
        (at(13), HoldStarted("clamp", piece="windows/sashes/5")),
        (at(14, 3), Released("e5", "set")),
        (at(15, 3), Finished(of("windows/strip-1"))),
        (at(16, 3), Finished(of("windows/prime-1"))),
    ]


def test_both_give_the_same_board(folder: Callable[[str, str], Folder]) -> None:
    short, long = folder("short", by_each()), folder("long", by_hand())
    for at in (datetime(2026, 5, 2, 14), datetime(2026, 5, 3, 17), datetime(2026, 5, 9, 9)):
        one, other = (
            assess(read.plan, logbook(*said), at)
            for read, said in ((short, days(of_series)), (long, days(str)))
        )
        for name, standing in other.standings.items():
            twin = one[of_series(name)]
            jigs_and_rest = (twin.state, twin.until, twin.holds, twin.jigs, twin.hours, twin.left)
            assert jigs_and_rest == (
                *(standing.state, standing.until, standing.holds, standing.jigs),
                *(standing.hours, standing.left),
            ), name
            # A series has a gate of its own, of which only a plan by `each` can speak.
            told = [(r.about, of_series(r.id), r.says) for r in why(other, name) if r.root]
            assert [(r.about, r.id, r.says) for r in why(one, of_series(name)) if r.root] == told, (
                name
            )
        goes_first = [(f.says, of_series(f.task)) for f in what_goes_first(other)]
        assert [(f.says, f.task) for f in what_goes_first(one)] == goes_first


WRONG = {
    "a hazard without a sheet": ("strip", 'hazards = ["no-such-sheet"]'),
    "a supply that is not there": ("prime", 'supplies = ["no-such-supply"]'),
    "a jig that is not there": ("mend", 'uses = ["no-such-jig"]'),
    "a kind of hold that is none": ("prime", 'hold = { kind = "sulk" }'),
    "hours out of order": ("glaze", "hours = [3, 2, 1]"),
    "a key that is none": ("hang", 'colour = "green"'),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_the_same_mistakes_are_told_of_both(
    wrong: str, folder: Callable[[str, str], Folder]
) -> None:
    """Of six tables once, of thirty-six for each piece."""
    name, says = WRONG[wrong]
    chain = {**CHAIN, name: (CHAIN[name][0], says)}
    short, long = folder("short", by_each(chain)), folder("long", by_hand(chain))
    told = {(fault.code, fault.sentence) for fault in short.faults}
    assert told
    assert told == {(fault.code, fault.sentence) for fault in long.faults}
    assert len(long.faults) == 6 * len(short.faults)


def test_a_loop_is_told_once_of_six_tables(folder: Callable[[str, str], Folder]) -> None:
    chain = {**CHAIN, "take-out": ("Take out", 'hours = [1, 1, 2]\nafter = ["hang"]')}
    (fault,) = folder("short", by_each(chain)).faults
    assert "goes round in a loop" in fault.sentence
