"""Keys hit at random: nothing breaks, and nothing that stood in the logbook changes."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from crewboard.logbook.acts import Begun, HoursWorked, SignIn
from crewboard.workbench import Said, Workbench
from tests.long_form import LONG
from tests.terminal.shop import SATURDAY, Watch, day_file, make_shop, open_app, reads, types

SEEDS = range(40 if LONG else 2)
BURSTS = 120 if LONG else 30
LETTERS = "bfhlcwtnrxegaiydpksov1235,.u"
OFTEN = ["enter"] * 6 + ["escape"] * 4 + ["down"] * 8 + ["up"] * 3 + ["space"] * 4
OTHERS = ["tab", "home", "end", "pagedown", "slash", "f1", "f2", "f3", "f4", "f5", "f6", "delete"]
OTHERS += ["equals_sign"]


@pytest.mark.parametrize("seed", SEEDS)
async def test_no_row_of_keys_breaks_a_screen_or_an_old_line(tmp_path: Path, seed: int) -> None:
    dice = random.Random(seed)
    shop = make_shop(tmp_path / "van")
    said = [Said(act, SATURDAY) for act in (SignIn("ada"), SignIn("ben"), Begun("frame/scrape"))]
    said += [Said(HoursWorked("ada", 1.0, "frame/scrape"), SATURDAY)]
    assert Workbench(shop).record(said, by="", now=SATURDAY).kept
    before = day_file(shop)
    watch = Watch()
    app = open_app(shop, watch)
    pressed: list[str] = []
    async with app.run_test(size=dice.choice([(80, 24), (120, 40), (60, 16)])) as pilot:
        await reads(pilot, "The market van")
        for _ in range(BURSTS):
            burst = [dice.choice([*LETTERS, *OFTEN, *OTHERS]) for _ in range(4)]
            pressed += burst
            types(app, *burst)
            await pilot.pause(0.01)
            if dice.random() < 0.05:
                watch.now = watch.now.replace(minute=(watch.now.minute + 13) % 60)
        await pilot.pause()  # what is being opened stands before the screens are closed
        assert app.is_running, pressed
    assert day_file(shop).startswith(before), pressed
    again = Workbench(shop)
    assert not again.faults, pressed
