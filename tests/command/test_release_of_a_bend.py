"""`crewboard release` of a bend: its result in the same write, and what the next form is by now."""

from __future__ import annotations

from math import sqrt
from pathlib import Path
from typing import Any

import pytest

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Bent, Released
from tests.command.calling import Shell
from tests.command.test_reckon import ARC, RIBS, bend

BENT = ("--at", "2026-05-03T10:00", "--by", "ada")
OFF = ("--at", "2026-06-04T10:00", "--by", "ada")  # a month later, when its clock is over

ON_ITS_FORM = """\
date = 2026-05-03

[entries]
fnshdrb1 = { at = 2026-05-03T09:00:00, by = "ada", kind = "finished", task = "frame/bend/ribs/1" }
"""


@pytest.fixture
def shop(van: Path, call: Shell) -> Path:
    """One of two ribs is on its form."""
    with (van / "components/frame.toml").open("a", encoding="utf-8") as frame:
        frame.write(RIBS)
    (van / "days/2026/2026-05-03.toml").write_text(ON_ITS_FORM)
    assert call("check", van).code == 0
    return van


def acts(shop: Path) -> list[Any]:
    return [e.act for day in Folder(shop).logbook.days.values() for e in day.entries]


def bends(shop: Path) -> list[Bent]:
    return [act for act in acts(shop) if isinstance(act, Bent)]


def released(shop: Path) -> list[Released]:
    return [act for act in acts(shop) if isinstance(act, Released)]


def rise_of_the_form(*came_to: float) -> str:
    """For a rise of 320 mm over 2060 mm, from bends on a form of 355 mm: with one form for all of
    them least squares take the mean of the curvatures they came to."""

    def radius(rise: float) -> float:
        return 2060**2 / (8 * rise) + rise / 2

    kept = sum(1 / radius(rise) for rise in came_to) / len(came_to)
    form = kept * radius(355) * radius(320)
    return f"about {form - sqrt(form**2 - 1030**2):.1f} mm"


def test_the_result_is_written_with_the_release_as_the_plan_and_the_last_bend_have_it(
    call: Shell, shop: Path
) -> None:
    bend(call, shop, "322 mm")
    result = ("--came-to", "318 mm", "--stored", "loft [flat]")
    ended = call("release", shop, "bend/1", *result, *OFF)
    assert ended.code == 0, ended.err
    assert bends(shop)[-1] == Bent(
        *("ash", "26 mm", "355 mm", "318 mm", "2060 mm", None, 0.0, "loft [flat]"),
        task="frame/bend/ribs/1",
        piece="frame/ribs/1",
    )
    assert len(released(shop)) == 1
    assert call("check", shop).code == 0
    assert "came to 318 mm" in " ".join(ended.out.split())


def test_it_says_what_the_next_form_is_now_against_what_was_kept(call: Shell, shop: Path) -> None:
    bend(call, shop, "322 mm")
    call("reckon", shop, "form", "--task", "bend", *ARC, "--keep", *BENT)
    kept = call("log", shop, "--kind", "reckoned", "--json").form["entries"][0]["id"]
    ended = call("release", shop, "bend/1", "--came-to", "310 mm", *OFF)
    said = " ".join(ended.out.split())
    was, now = rise_of_the_form(322), rise_of_the_form(322, 310)
    assert f'form for "Bend the ribs: Rib 2": rise was {was}, now {now}, because' in said
    assert "because bent ash, 26 mm thick, over a chord of 2060 mm, form 355 mm" in said
    assert f"crewboard reckon DIR --again {kept} --keep" in said
    again = call("reckon", shop, "--again", kept, "--keep", *OFF)
    assert again.code == 0, again.err
    assert f"rise {now} over a chord" in " ".join(again.out.split())


def test_another_wood_moves_no_form(call: Shell, shop: Path) -> None:
    bend(call, shop, "322 mm")
    call("reckon", shop, "form", "--task", "bend", *ARC, "--keep", *BENT)
    oak = ("--species", "oak", "--form", "1.2 m", "--came-to", "1.3 m")
    ended = call("release", shop, "bend/1", *oak, *OFF)
    assert ended.code == 0, ended.err
    assert "form for" not in ended.out
    # Form and chord go together: radii here, though the last bend was said by its rise.
    assert (bends(shop)[-1].form, bends(shop)[-1].chord) == ("1.2 m", "")


def test_a_first_bend_makes_a_form_of_none(call: Shell, shop: Path) -> None:
    call("reckon", shop, "form", "--task", "bend", *ARC, "--keep", *BENT)
    result = ("--form", "355 mm", "--chord", "2060 mm", "--came-to", "322 mm")
    ended = call("release", shop, "bend/1", *result, *OFF)
    said = f"rise was not known, now {rise_of_the_form(322)}"
    assert said in " ".join(ended.out.split())


def test_the_result_may_be_left_for_later(call: Shell, shop: Path) -> None:
    ended = call("release", shop, "bend/1", "--stored", "loft, dry", *OFF)
    assert ended.code == 0, ended.err
    assert bends(shop) == []
    assert released(shop)[0].why == "stored loft, dry"


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (("--came-to", "322 mm"), "say its form"),
        (("--form", "355 mm"), "say what the bend came to"),
        (("--came-to", "much", "--form", "1 m"), '"much"'),
        (("--came-to", "322 mm", "--form", "1 m", "--days", "many"), '"many"'),
        (
            ("--came-to", "14 ft", "--form", "355 mm", "--chord", "2060 mm"),
            "one of them looks like a radius",
        ),
    ],
)
def test_what_does_not_do_is_said_and_nothing_is_written(
    call: Shell, shop: Path, typed: tuple[str, ...], says: str
) -> None:
    ended = call("release", shop, "bend/1", *typed, *OFF)
    assert ended.code in (1, 2)
    assert says in ended.err
    assert (bends(shop), released(shop)) == ([], [])


def test_early_without_a_reason_nothing_is_kept_of_the_bend_either(call: Shell, shop: Path) -> None:
    typed = ("--came-to", "322 mm", "--form", "1 m", "--by", "ada", "--at", "2026-05-04T10:00")
    ended = call("release", shop, "bend/1", *typed)
    assert ended.code == 1
    assert "it is early" in ended.err
    assert bends(shop) == []


def test_a_hold_of_something_else_takes_no_bend(call: Shell, shop: Path) -> None:
    call("hold", shop, "glue", "--piece", "panel", "--lasts", "1 hour", *BENT)
    ended = call("release", shop, "panel", "--came-to", "1 m", *OFF)
    assert ended.code == 1
    assert "keeps no bend" in ended.err


def test_a_piece_measured_again_later_is_one_bend(call: Shell, shop: Path) -> None:
    rise = ("--form", "355 mm", "--chord", "2060 mm", "--came-to")
    call("release", shop, "bend/1", *rise, "330 mm", *OFF)
    typed = ("bent", shop, "ash", "--thickness", "26 mm", *rise, "322 mm", "--days", "21")
    assert call(*typed, "--piece", "ribs/1", *OFF[2:], "--at", "2026-06-25T10:00").code == 0
    form = call("reckon", shop, "form", "--task", "bend", *ARC, "--json").form
    assert form["figures"]["bends"] == 1
    assert "21 days after" in form["known"][-1]
