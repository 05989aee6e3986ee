"""Keys typed ahead: what follows the key that opens a form stands in its first field, in order."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import Input, TextArea

from crewboard.logbook.acts import HoldStarted
from crewboard.plan.duration import Duration
from tests.terminal.shop import asked, day_file, make_shop, open_app, reads, types, until

SPELLED = {" ": "space", ".": "full_stop", ",": "comma"}


def spelled(text: str) -> list[str]:
    return [SPELLED.get(letter, letter) for letter in text]


# The keys that open a form from the work day, and what its first field held before.
OPENING = {
    "note": (["n"], ""),
    "reading": (["r"], ""),
    "task's form": (["3", "right", "down", "e"], "Scrape the frame"),
    "new task": (["3", "down", "a", "enter"], ""),
    "supply": (["7", "a"], ""),
    "person": (["5", "a"], ""),
    "call off": (["d", *"off", "enter"], ""),
    "release": (["l", "v"], ""),
}


@pytest.mark.parametrize("where", OPENING)
async def test_what_is_typed_ahead_stands_in_the_form_in_order(tmp_path: Path, where: str) -> None:
    keys, before = OPENING[where]
    app = open_app(make_shop(tmp_path / "van"), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        app.record([HoldStarted("clamp", "roof/board", "", Duration(minutes=60))])
        types(app, *keys, *spelled("vents, rods. quiet box"))
        wanted = f"{before}vents, rods. quiet box"

        def held() -> bool:
            boxes = [*app.screen.query(Input), *app.screen.query(TextArea)]
            texts = [box.value if isinstance(box, Input) else box.text for box in boxes[:1]]
            return texts == [wanted]

        await until(pilot, held, 20)
    assert day_file(tmp_path / "van").count("kind") == 1, "no letter did anything else"


async def test_a_whole_answer_typed_ahead_is_written_once(tmp_path: Path) -> None:
    app = open_app(make_shop(tmp_path / "van"), by="ada")
    async with app.run_test(size=(80, 24)) as pilot:
        await reads(pilot, "Scrape the frame")
        types(app, "i", *"ada", "space", *"ben", "enter", "r", *spelled("14 low 4"), "enter")
        types(app, "n", *spelled("post leans"), "enter", "b", "enter", "w")
        await until(pilot, lambda: 'Why: "Scrape the frame"' in asked(app), 30)
    text = day_file(tmp_path / "van")
    for said in ('who = "ada"', 'who = "ben"', "celsius = 14", 'text = "post leans"', '"begun"'):
        assert said in text
