"""Each entry of the sample's record is taken out in turn: the sentences of the book that go with it
are those that name it, and no sentence stands on nothing."""

from __future__ import annotations

import copy
import tomllib
from collections import Counter
from collections.abc import Callable
from functools import cache
from typing import Any

import pytest

from crewboard.fabric.fabric import fabric_of
from crewboard.logbook.acts import (
    EarlierRepair,
    HoldStarted,
    PieceFailed,
    Temporary,
    TookIn,
    TookPlace,
    Undone,
)
from crewboard.logbook.day import Day
from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by
from crewboard.order.board import Board
from crewboard.telling.book import statement
from crewboard.telling.book.of_component import component_book
from crewboard.telling.book.of_vehicle import vehicle_book
from crewboard.telling.book.statement import Book, Plate, Sentence
from tests.long_form import LONG
from tests.sample.marigold import SAMPLE, board

Told = Sentence | Plate
Pages = dict[str, Book]
VEHICLE = ""
# Entries of the work of which the book speaks too.
OF_THE_WORK = (Temporary, Undone, PieceFailed, TookPlace)
# "taken in" says only that a file came, its caption what it shows.
SILENT = (TookIn,)
EVERY = 8  # of so many entries one is held against all pages, the others against their own


def speaks_of_her(entry: Entry) -> bool:
    asks = isinstance(entry.act, HoldStarted) and entry.act.hold == "approval"
    return asks or isinstance(entry.act, OF_THE_WORK)


@cache
def entries() -> tuple[Entry, ...]:
    """Those of which the book speaks."""
    logbook = board().logbook
    return (*logbook.record(), *filter(speaks_of_her, logbook.counting()))


def without(entry: Entry) -> Board:
    """The sample's board as if nobody had written that line."""
    ours = copy.copy(board())
    days = dict(ours.logbook.days)
    day = days[entry.at.date()]
    kept = [line for line in day.entries if entry.id not in (line.id, line.replaces)]
    days[day.date] = Day(day.date, kept, day.opens, day.closes)
    ours.logbook = ours.logbook._replace(days=days)
    return ours


def all_pages() -> list[str]:
    plan = board().plan
    return [VEHICLE, *dict.fromkeys(plan.main_of(one).id for one in plan.components)]


def own_pages(entry: Entry) -> list[str]:
    """The vehicle's page, and those of what the entry names."""
    plan = board().plan
    pages = [VEHICLE]
    for named in named_by(entry.act):
        piece, task = plan.pieces.get(named.id), plan.written(named.id)
        home = piece.component if piece else task.component if task else named.id
        if home in plan.components:
            pages.append(plan.main_of(home).id)
    return list(dict.fromkeys(pages))


def written(of: Board, pages: list[str]) -> Pages:
    fabric = fabric_of(of.plan, of.logbook, of.at)
    return {
        page: component_book(of, fabric, page) if page else vehicle_book(of, fabric)
        for page in pages
    }


@cache
def whole() -> Pages:
    return written(board(), all_pages())


def told(book: Book) -> Counter[Told]:
    return Counter((*book.every_statement(), *book.every_picture()))


def behind(said: Told) -> tuple[str, ...]:
    return (
        said.entries
        if isinstance(said, Sentence)
        else tuple(filter(None, (said.entry, said.taken)))
    )


def pages_for(number: int, entry: Entry) -> Pages:
    pages = all_pages() if LONG or number % EVERY == 0 else own_pages(entry)
    return {page: whole()[page] for page in pages}


def unnamed(entry: Entry, full: Pages) -> list[str]:
    """What goes from these pages with an entry, and neither names it nor is of the plan, which
    never goes."""
    pages = written(without(entry), list(full))
    return [
        said_of(one)
        for page, book in pages.items()
        for one in told(full[page]) - told(book)
        if entry.id not in behind(one) and not (of_the_plan(one) and says_it(book, one))
    ]


def of_the_plan(one: Told) -> bool:
    return not behind(one) and in_plan(one.plan)


def says_it(book: Book, one: Told) -> bool:
    """Whether the page still says so: of a piece of which nothing is on record the plan speaks in
    one sentence with others of its kind."""
    return isinstance(one, Sentence) and any(
        one.says in other.says for other in book.every_statement()
    )


def said_of(one: Told) -> str:
    return f"{one.word}: {one.says}" if isinstance(one, Sentence) else f"{one.file}: {one.words}"


def sourceless(book: Book, of: Board) -> list[str]:
    """The sentences with neither an entry that there is nor a place in the plan that there is."""
    return [
        said_of(one)
        for one in told(book)
        if not stands_on_entries(one, of) and not in_plan(one.plan)
    ]


def stands_on_entries(one: Told, of: Board) -> bool:
    named = behind(one)
    return bool(named) and all(of.logbook.find(entry_id) for entry_id in named)


def in_plan(places: str) -> bool:
    """Whether each of "components/roof.toml: pieces.ribs" is there."""
    listed = places.replace(" and ", ", ").split(", ")
    return bool(places) and all(is_there(*place.partition(": ")[::2]) for place in listed)


@cache
def table(file: str) -> dict[str, Any]:
    path = SAMPLE / file
    return tomllib.loads(path.read_text(encoding="utf-8")) if path.is_file() else {}


def is_there(file: str, keys: str) -> bool:
    value: Any = table(file)
    for key in filter(None, keys.split(".")):
        value = value.get(key) if isinstance(value, dict) else None
    return bool(value)


def test_what_goes_with_an_entry_names_it() -> None:
    wrong = {
        f"{entry.id} ({entry.kind})": lost
        for number, entry in enumerate(entries())
        if (lost := unnamed(entry, pages_for(number, entry)))
    }
    assert wrong == {}


def test_no_sentence_stands_on_nothing() -> None:
    assert {
        page: lost for page, book in whole().items() if (lost := sourceless(book, board()))
    } == {}


def test_each_entry_of_the_record_is_told_on_some_page() -> None:
    cited = {entry for book in whole().values() for one in told(book) for entry in behind(one)}
    silent = [entry for entry in entries() if entry.id not in cited]
    assert {type(entry.act) for entry in silent} == set(SILENT)


def test_what_was_undone_is_temporary_again_without_that_entry() -> None:
    ((undone, named),) = ((e, e.act.entry) for e in entries() if isinstance(e.act, Undone))
    pages = whole()[VEHICLE], written(without(undone), [VEHICLE])[VEHICLE]
    is_over = [
        [undone.id in behind(one) for one in told(book) if named in behind(one)] for book in pages
    ]
    assert is_over == [[True], [False]]


Spoil = Callable[[Sentence], Sentence]


def spoil(monkeypatch: pytest.MonkeyPatch, spoiled: Spoil) -> Pages:
    """A page on which every sentence of one making has lost what it rests on."""

    def told_wrongly(*given: Any) -> Sentence:
        return spoiled(statement.told(*given))

    monkeypatch.setattr("crewboard.telling.book.of_piece.told", told_wrongly)
    return written(board(), ["body-frame"])


@pytest.mark.parametrize("named", [(), ("nosuchid",)], ids=["nothing", "an entry that is not"])
def test_a_sentence_that_rests_on_nothing_is_found(
    named: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    pages = spoil(monkeypatch, lambda one: one._replace(entries=named))
    assert len(sourceless(pages["body-frame"], board())) > 10


def test_a_sentence_that_names_another_entry_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    of_the_joint = [e for e in entries() if getattr(e.act, "piece", "") == "body-frame/left-joint"]
    repair = next(entry for entry in of_the_joint if isinstance(entry.act, EarlierRepair))
    assert unnamed(repair, {"body-frame": whole()["body-frame"]}) == []
    pages = spoil(monkeypatch, lambda one: one._replace(entries=(of_the_joint[0].id,)))
    assert len(unnamed(repair, pages)) == 1
