"""Twice the folder is twice the work: no walk over tasks, links, holds or lines within another.

Counted in lines of the program that are run, so that no other load on the machine matters. The
times are in `tests/bench/growth.py`.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

from crewboard.folder.check.check import check
from crewboard.folder.read.folder import Folder
from crewboard.order.assess import assess
from crewboard.order.forecast.remaining import remaining
from crewboard.order.review import review
from tests.growth.shapes import (
    AT,
    SHAPES,
    Texts,
    components_left_alone,
    one_component_left_alone,
    set_aside,
    three_links,
)
from tests.long_form import LONG

SMALL = 60
ENOUGH = {"set_aside": 250}  # from where on no more are counted behind each
# Four times the folder: four times the lines, and some for sorting and for what is only begun.
MOST = 5.0
DOOR = (
    "three_links",
    "links_to_components",
    "components_after_three",
    "set_aside",
    "parts_within_parts",
    "reopened",
    "long_logbook",
)
SHOWN = SHAPES if LONG else [shape for shape in SHAPES if shape.__name__ in DOOR]


def lines_run(act: Callable[[], object]) -> int:
    """How many lines of Crewboard the act runs."""
    count = 0

    def line(_: FrameType, event: str, __: object) -> Any:
        nonlocal count
        count += event == "line"
        return line

    def call(frame: FrameType, _: str, __: object) -> Any:
        return line if "crewboard" in frame.f_code.co_filename else None

    before = sys.gettrace()
    sys.settrace(call)
    try:
        act()
    finally:
        sys.settrace(before)
    return count


def write(root: Path, texts: Texts) -> Folder:
    for path, text in texts.items():
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_text(text)
    return Folder(root)


def look(folder: Folder) -> None:
    review(assess(folder.plan, folder.logbook, AT))


def forecast_made_ready(folder: Folder) -> None:
    remaining(assess(folder.plan, folder.logbook, AT))


LOOKS: dict[str, Callable[[Folder], object]] = {"review": look, "check": lambda f: check(f, AT, AT)}


@pytest.mark.parametrize("what", LOOKS)
@pytest.mark.parametrize("shape", SHOWN, ids=lambda shape: shape.__name__)
def test_four_times_the_folder_is_four_times_the_work(
    tmp_path: Path, shape: Callable[[int], Texts], what: str
) -> None:
    act, small = LOOKS[what], ENOUGH.get(shape.__name__, SMALL)
    folders = [write(tmp_path / str(n), shape(n)) for n in (small, 4 * small)]
    act(folders[0])  # what is imported and remembered once
    few, many = (lines_run(lambda f=folder: act(f)) for folder in folders)  # type: ignore[misc]
    assert many <= MOST * few, f"{few} lines, then {many}"


def test_a_text_as_long_as_a_book_is_looked_over_once(tmp_path: Path) -> None:
    """The words that hint at hazards are looked up in it, not it for each of them."""

    def texts(words: int) -> Texts:
        task = f'[tasks.t]\ntitle = "Oak"\nmethod = "{"an oak plank " * words}"\n'
        return three_links(20) | {"components/book.toml": f'name = "Book"\n{task}'}

    folders = [write(tmp_path / str(words), texts(words)) for words in (1000, 4000)]
    looks = LOOKS["check"]
    looks(folders[0])
    few, many = (lines_run(lambda f=folder: looks(f)) for folder in folders)  # type: ignore[misc]
    assert many - few <= 30 * 9000, f"{few} lines, then {many}"  # not hundreds for each word


@pytest.mark.parametrize("shape", [three_links, one_component_left_alone, components_left_alone])
def test_four_times_the_folder_makes_a_forecast_ready_in_four_times_the_work(
    tmp_path: Path, shape: Callable[[int], Texts]
) -> None:
    folders = [write(tmp_path / str(n), shape(n)) for n in (SMALL, 4 * SMALL)]
    forecast_made_ready(folders[0])  # what is imported and remembered once
    few, many = (lines_run(lambda f=folder: forecast_made_ready(f)) for folder in folders)  # type: ignore[misc]
    assert many <= MOST * few, f"{few} lines, then {many}"


def test_a_task_set_aside_tells_how_many_wait_behind_it(tmp_path: Path) -> None:
    folder = write(tmp_path, set_aside(400))
    questions = review(assess(folder.plan, folder.logbook, AT))
    said = {q.id: q.says for q in questions if q.rule == "blocked by what is set aside"}
    assert "at least 100 tasks wait behind it" in said["c0/t0"]
    assert all(
        "tasks wait behind" in says or "1 task waits behind" in says for says in said.values()
    )


def test_a_link_that_follows_anyway_is_told_also_in_a_large_plan(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ends are looked for so many at once: in whatever portions, the answer is the same."""
    from crewboard.order.review import links

    folder = write(tmp_path, three_links(200))
    on = assess(folder.plan, folder.logbook, AT)
    whole = review(on)
    assert any(question.rule == "follows anyway" for question in whole)
    for portion in (1, 7, 64):
        monkeypatch.setattr(links, "_AT_ONCE", portion)
        assert review(on) == whole
