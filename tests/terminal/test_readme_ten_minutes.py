"""README's ten minutes for a crew lead, played key by key on the sample, as README marks the keys.

The keys are read from README, in the order in which they stand there; here stands only what each
shows, and what a person types in between. Another key in README is pressed by itself; one more
than there are steps fails.
"""

from __future__ import annotations

import re
import shutil
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

import pytest
from textual.pilot import Pilot

from crewboard.terminal.dialogs.checks import ChecksDialog
from crewboard.terminal.dialogs.pick import PickOne, PickSeveral
from tests.terminal.shop import Watch, asked, day_file, open_app, reads, until

HOUSE = Path(__file__).parents[2]
GUIDE = (HOUSE / "README.md").read_text(encoding="utf-8").partition("## Ten minutes")[2]
GUIDE = GUIDE.partition("\n## ")[0]
MARKED = re.compile(r"\*\*([a-z?]|Delete|Enter|Ctrl\+S)\*\*")
NINE = datetime(2026, 5, 2, 9, 0)


class Step(NamedTuple):
    """One key of README: what is pressed before it, what it shows, what is pressed then, what that
    shows, and what is pressed last. A number in `before` is the key of that place there. `after`
    has to be seen before the key itself is pressed."""

    shows: str
    before: tuple[str | int, ...] = ()
    then: tuple[str, ...] = ()
    so: str = ""
    last: tuple[str, ...] = ()
    after: str = ""


def paragraph(title: str) -> str:
    """The paragraphs of the guide from that title to the next."""
    text = GUIDE.partition(f"**{title}")[2]
    assert text, f"README has no paragraph {title}"
    return re.split(r"\n\n\*\*[A-Z]", text)[0]


def typed(text: str) -> tuple[str, ...]:
    return tuple({" ": "space", ".": "full_stop"}.get(letter, letter) for letter in text)


MARK_SIX = ("down", "down", *(["space", "down"] * 5), "space", "enter")
WEEK = (*typed("1 week"), "enter")
SOFT = (*typed("still soft"), "enter")
BEGIN = ("space", "down", "space", "down", "space", "enter")
PLUMB = ("slash", *typed("plumb"), "enter")

MINUTES: dict[str, tuple[Step, ...]] = {
    "Minute 1": (),
    "Minute 2": (
        Step("Mirela Vandrey", (), MARK_SIX, "8 here"),
        Step("Tomasz Achterberg", (), (*typed("mirela"), "enter"), "you: Mirela Vandrey"),
    ),
    "Minute 3": (
        Step('Hold: "Arches 3 and 4: Steam and bend', ("home",)),
        Step("Which?", (), ("space", "enter"), "Release: ", ("ctrl+s",)),
        Step(
            'Extend: "Steam and bend: Arch 4',
            ("home", 0),
            (*typed("1 week"), "enter"),
            "longer",
            SOFT,
        ),
    ),
    "Minute 4": (
        Step('Why: "Plumb the frame', PLUMB, ("escape",)),
        Step('What comes next: "Plumb the frame', (), ("escape", "enter"), "Esc back"),
    ),
    "Minute 5": (
        Step('Checks: "Plumb the frame'),
        Step("09:00, Mirela"),
        Step("Who signs", (), ("escape",)),
        Step("always applies"),
        Step("afety talk", ("escape", "escape", "escape"), ("escape",)),
        Step("Bench card", (0,)),
        Step("The whole sheet", (), ("escape", "escape", "escape")),
    ),
    "Minute 6": (Step('Who works on "Plumb the frame', (), BEGIN, "begun"),),
    "Minute 7": (
        Step("Shop reading", (), (*typed("14 low 4"), "enter"), "lowest 4 °C"),
        Step("Note", (), (*typed("post leans"), "enter"), "note"),
        Step("hours left", (), ("escape",)),
    ),
    "Minute 8": (
        Step('Finish: "Plumb the frame', (), ("enter",), "After the work", ("s", "escape")),
    ),
    "Minute 9": (
        Step("nothing new to save", ("escape",), ("2", "enter"), "1 "),
        Step("hours saved: 1 entry"),
        Step("column", (0,), ("escape",)),
        Step("day", (), ("escape", "escape")),
    ),
    "Minute 10": (
        Step("Close the day"),
        Step("Sign in and out", (), ("escape",)),
        Step("Checks after the work", (), ("escape",)),
        Step("who answers for it", (), ("escape",)),
        Step("Close the day", ("escape",), ("escape",)),
    ),
    "The other screens": (
        Step("Edit: ", ("f3", "home"), ("escape",)),
        Step("a task in", (), ("escape",)),
        Step("Tasks of ", (), ("escape",)),
        Step("ieces", (), ("escape",)),
        Step("orrect", ("f6", "end"), ("escape",)),
        Step("", (), ("escape",)),
        Step("taken over for", ("f9",), after="by what goes first"),
    ),
}


async def play(pilot: Pilot[int], title: str) -> None:
    keys, steps = MARKED.findall(paragraph(title)), MINUTES[title]
    assert len(keys) == len(steps), f"{title}: README marks {keys}"
    for key, step in zip(keys, steps, strict=True):
        await pilot.press(*(keys[k] if isinstance(k, int) else k for k in step.before))
        if step.after:
            await reads(pilot, step.after)
        await pilot.press("question_mark" if key == "?" else key.lower())
        await reads(pilot, step.shows)
        if step.then:
            await pilot.press(*step.then)
        if step.so:
            await reads(pilot, step.so)
        await pilot.press(*step.last)


async def sign_those_before(pilot: Pilot[int], sign: str) -> None:
    """Sign with that key until it is a check whose time has not come."""
    while isinstance(pilot.app.screen, ChecksDialog | PickSeveral | PickOne):
        await pilot.press(sign if isinstance(pilot.app.screen, ChecksDialog) else "enter")
        await pilot.pause()
    await pilot.press("escape", "escape")


@pytest.fixture
def van(tmp_path: Path) -> Path:
    return Path(shutil.copytree(HOUSE / "sample_project", tmp_path / "van"))


async def test_the_ten_minutes_of_readme_are_true_key_by_key(van: Path) -> None:
    app = open_app(van, Watch(NINE))
    async with app.run_test(size=(80, 24)) as pilot:
        for title in MINUTES:
            await play(pilot, title)
            if title == "Minute 5":  # the other checks
                keys = MARKED.findall(paragraph(title))
                await pilot.press(*PLUMB, keys[0])
                await sign_those_before(pilot, keys[1])
            await until(pilot, lambda: not asked(app))
        text = day_file(van)
    for kind in ("sign-in", "hold released", "hold extended", "begun", "reading", "finished"):
        assert f'kind = "{kind}"' in text or f'kind = "{kind.rpartition(" ")[2]}"' in text
    assert "hours = 2" in text


async def test_what_readme_calls_by_its_words_stands_on_the_first_screen(van: Path) -> None:
    app = open_app(van, Watch(NINE))
    async with app.run_test(size=(80, 24)) as pilot:
        screen = await reads(pilot, "Marigold", "Sat 2 May 2026", "09:00", "here")
    words = re.findall(r"\*([A-Z][^*]+)\*", paragraph("Minute 1"))
    words += re.findall(r"Under \*([^*]+)\*", paragraph("Minute 4"))
    assert words
    for word in words:
        assert " ".join(word.split()).casefold() in screen.casefold()
