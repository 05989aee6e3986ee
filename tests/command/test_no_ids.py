"""No id of a hazard, check, number or clock is shown to a person: each hazard in a task of its own
goes through commands, sheets to print and refusals. JSON has ids and titles both.

What a person writes into a file by its id is told by its id: `crewboard hazards` lists the sheets
as tasks name them, and a mistake in a file quotes the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from crewboard.folder.read.hazard_decode import texts_of
from crewboard.folder.read.hazard_sheets import read_sheets
from crewboard.paper.reports import REPORTS
from tests.command.calling import Shell
from tests.command.trailer import make_trailer
from tests.long_form import LONG

SHEETS = dict(read_sheets(None).hazards)
PAPERS = sorted({n.kind for h in SHEETS.values() for n in h.certificates} | {"first aid"})
HELD = "{ " + ", ".join(f'"{kind}" = 2027-12-31' for kind in PAPERS) + " }"
CREW = "\n".join(
    f'[people.{who}]\nname = "{who.title()}"\nadult = {adult}\nlead = true\ncertificates = {HELD}\n'
    for who, adult in (("ada", "true"), ("ben", "true"), ("cleo", "true"), ("kit", "false"))
)
BODY = 'name = "Body"\n' + "\n".join(
    f'[tasks.t{n}]\ntitle = "Work number {n}"\nhazards = ["{name}"]\nhours = [1, 2, 3]\n'
    for n, name in enumerate(SHEETS)
)
TASKS = dict(zip(SHEETS, (f"t{n}" for n in range(len(SHEETS))), strict=True))


def every_id() -> set[str]:
    """All that have a hyphen: no word of a sentence is written so by chance, but for those which
    some sheet writes in its own texts."""
    ids = {*SHEETS}
    for sheet in SHEETS.values():
        ids |= {check.id for check in sheet.checks} | {clock.id for clock in sheet.clocks}
        ids |= {number.id for number in sheet.numbers}
    texts = " ".join(
        text for sheet in SHEETS.values() for _, text in texts_of(sheet._replace(numbers=()))
    )
    texts += " ".join(c.kind for s in SHEETS.values() for c in s.clocks)
    texts += " ".join(n.source + n.edition + n.says for s in SHEETS.values() for n in s.numbers)
    texts = re.sub(r"\{[^}]*\}", "", texts) + " second-hand "
    return {some for some in ids if "-" in some and not shown(some, texts)}


def shown(some_id: str, text: str) -> bool:
    return re.search(rf"(?<![\w/-]){re.escape(some_id)}(?![\w-])", text) is not None


AT = ("--at", "2026-05-02T10:00")


@pytest.fixture
def shop(tmp_path: Path, call: Shell) -> Path:
    folder = tmp_path / "van"
    folder.mkdir()
    make_trailer(folder, CREW, BODY)
    call("sign-in", folder, "ada", "ben", "cleo", "kit", "--by", "ada", "--at", "2026-05-02T09:00")
    return folder


def told(call: Shell, van: Path) -> Iterator[tuple[str, str]]:
    """Each output by what was typed."""

    def typed(*words: object) -> tuple[str, str]:
        ended = call(*words)
        return " ".join(map(str, words)), ended.out + ended.err

    yield typed("day", van, *AT)
    yield typed("vehicle", van, *AT)
    yield typed("briefing", van, "--whole", *AT)
    yield typed("briefing", van, *AT)
    yield typed("unverified", van)
    yield typed("plan-day", van, *AT)
    for report in sorted(REPORTS.keys() - {"calendar", "book"}):
        yield typed("report", report, van, "--as", "html", *AT)
    for hazard, task in list(TASKS.items())[:: 1 if LONG else 4]:
        yield typed("hazards", van, hazard)
        yield typed("task", van, task, *AT)
        yield typed("why", van, task, *AT)
        for who in (["ada"], ["ada", "kit"]):
            yield typed("begin", van, task, "--who", *who, "--by", "ada", *AT)
        sheet = SHEETS[hazard]
        for check in sheet.checks if LONG else sheet.checks[:1]:
            about = ("--by", "ada", *AT)
            typed_as = "day" if check.every == "day" else task
            yield typed("sign", van, typed_as, check.title, "--who", "ada", *about)
            yield typed(
                "sign", van, typed_as, check.title, "--does-not-apply", "--why", "as it is", *about
            )
        began = "2026-05-02T09:30"
        yield typed("finish", van, task, "--who", "ben", "--began", began, "--by", "ben", *AT)
    yield typed("check", van)
    yield typed("log", van)
    yield typed("day-end", van, "--at", "2026-05-02T15:00")
    yield typed("close-day", van, "--by", "ada", "--at", "2026-05-02T15:59")


def test_no_id_with_a_hyphen_is_shown_anywhere(call: Shell, shop: Path) -> None:
    ids = every_id()
    assert len(ids) > 150  # else the test looks for nothing
    pattern = re.compile(rf"(?<![\w/-])(?:{'|'.join(map(re.escape, sorted(ids)))})(?![\w-])")
    found: dict[str, str] = {}
    for words, out in told(call, shop):
        out = out.replace(str(shop), "")
        # What was typed may be repeated; the css of a page is no text of it.
        out = re.sub(r"<style>.*?</style>", "", out, flags=re.DOTALL)
        for hit in pattern.finditer(out):
            around = out[max(0, hit.start() - 40) : hit.end() + 20].replace("\n", " ")
            found.setdefault(hit[0], f"{words[:60]}: ...{around}")
    assert found == {}
