"""A sentence of the book, with the entries or the line of the plan that it rests on."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from crewboard.logbook.entry import Entry
from crewboard.logbook.fields import named_by
from crewboard.order.board import Board
from crewboard.order.said import day_in_words, listed, name_of, person
from crewboard.telling.entry_words import words_of


class Sentence(NamedTuple):
    """One sentence. `entries` are the ids of the entries behind it, `plan` is the place in the plan
    ("components/roof.toml: pieces.ribs"); one of the two is always there. `word` stands before it;
    `names` are the pieces and components that it speaks of.
    """

    says: str
    entries: tuple[str, ...] = ()
    plan: str = ""
    word: str = ""
    said: str = ""  # the day, and who
    names: tuple[str, ...] = ()


class Plate(NamedTuple):
    """A picture with its words, and the entry that captions or cites it, or its place in the plan;
    `taken` is the entry that says when it was taken."""

    file: str
    words: str
    entry: str = ""
    plan: str = ""
    taken: str = ""


class Section(NamedTuple):
    """A heading with its sentences and pictures, and what stands below it."""

    heading: str
    statements: tuple[Sentence, ...] = ()
    pictures: tuple[Plate, ...] = ()
    parts: "tuple[Section, ...]" = ()
    piece: str = ""  # the piece that it tells of

    def every_statement(self) -> Iterator[Sentence]:
        """Its sentences and those below, in reading order."""
        yield from self.statements
        for part in self.parts:
            yield from part.every_statement()

    def every_picture(self) -> Iterator[Plate]:
        yield from self.pictures
        for part in self.parts:
            yield from part.every_picture()


class Book(NamedTuple):
    """The pages of the whole vehicle, or of one component."""

    title: str
    sections: tuple[Section, ...]

    def every_statement(self) -> Iterator[Sentence]:
        for section in self.sections:
            yield from section.every_statement()

    def every_picture(self) -> Iterator[Plate]:
        for section in self.sections:
            yield from section.every_picture()


def said_by(board: Board, entry: Entry) -> str:
    """ "Sat 2 May 2026, Ada Marsh": behind each sentence."""
    by = f", {person(board.plan, entry.by)}" if entry.by else ", nobody's name"
    return f"{day_in_words(entry.at)}{by}"


def cited_by(entry: Entry) -> tuple[str, ...]:
    """The photographs, papers and findings that an entry cites, by the ids of their entries."""
    return tuple(getattr(entry.act, "sources", ()))


def told(board: Board, entry: Entry, word: str = "") -> Sentence:
    """What an entry says, in its own sentence; it rests on what it cites as well."""
    says = words_of(board).of(entry)
    says = says[:1].upper() + says[1:]
    names = (one.id for one in named_by(entry.act) if one.thing in ("piece", "component"))
    behind = (entry.id, *cited_by(entry))
    return Sentence(says, behind, "", word, said_by(board, entry), tuple(names))


def listed_below(board: Board, entry: Entry) -> Sentence:
    """As `told`, below a heading that says its kind: what it is on stands before it."""
    of = [one.id for one in named_by(entry.act) if one.thing in ("piece", "component")]
    says = words_of(board).of(entry, below_heading=True)
    names = listed(name_of(board.plan, one) for one in of)
    return told(board, entry)._replace(says=says[:1].upper() + says[1:], word=names)


def section(
    heading: str,
    statements: Iterable[Sentence] = (),
    pictures: Iterable[Plate] = (),
    parts: Iterable[Section] = (),
    piece: str = "",
) -> Iterator[Section]:
    """The section, none where nothing stands in it."""
    whole = Section(heading, tuple(statements), tuple(pictures), tuple(parts), piece)
    if whole.statements or whole.pictures or whole.parts:
        yield whole
