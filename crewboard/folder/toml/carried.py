"""A table that goes from one text to another with its comments and its layout."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from crewboard.folder.cannot import CannotEdit, CannotPlace
from crewboard.folder.toml.decode import parse_text
from crewboard.folder.toml.edit import remove
from crewboard.folder.toml.meant import same, with_value
from crewboard.folder.toml.outline import Outline, Splice, spliced
from crewboard.folder.toml.scan import KeyPath, Pair
from crewboard.folder.toml.sections import above_comments, block, table_place, without_section
from crewboard.folder.toml.values import toml_key


def lines_of(text: str, path: KeyPath) -> str:
    """The table at the path as lines under headers of its own, whichever way it is written, with
    the comments within it and those that touch it from above."""
    outline = Outline(text)
    parts = [*_from_pairs(outline, path), *_sections(outline, path)]
    return "\n".join(part.replace("\r\n", "\n").rstrip("\n") + "\n" for part in parts)


def without_lines(text: str, path: KeyPath) -> str:
    """The text without what `lines_of` takes from it. Raises `CannotEdit`."""
    outline = Outline(text)
    splices = [
        without_section(outline, header, above_comments(outline, header))
        for header in outline.sections_below(path)
    ]
    return remove(text, path) if not splices else _rest_removed(text, path, splices)


def with_lines(text: str, path: KeyPath, lines: str, table: Mapping[str, Any]) -> str:
    """The text with the lines of a table, which say `table`, behind its siblings. Raises
    `CannotEdit`."""
    outline = Outline(text)
    try:
        at = table_place(outline, path)
    except CannotPlace as error:
        raise CannotEdit(str(error)) from None
    written = lines.rstrip("\n").replace("\n", outline.newline)
    new = spliced(text, [block(outline, at, written)])
    meant = with_value(parse_text(text.removeprefix("\ufeff")), path, dict(table))
    if not same(parse_text(new.removeprefix("\ufeff")), meant):
        raise CannotEdit("this text is laid out in a way that cannot be carried: edit it by hand")
    return new


def _sections(outline: Outline, path: KeyPath) -> Iterator[str]:
    for header in outline.sections_below(path):
        start = above_comments(outline, header)
        yield outline.text[start : outline.section_end(header.section)]


def _from_pairs(outline: Outline, path: KeyPath) -> Iterator[str]:
    """A table that is written inline, or by dotted keys, under a header."""
    text = outline.text
    lines = [*_dotted(outline, path), *_inline(outline, path)]
    if lines:
        name = ".".join(toml_key(str(part)) for part in path)
        comments = [
            text[s.pair.value.end : s.end].strip()
            for s in outline.statements
            if s.pair and s.pair.path == path
        ]
        yield "\n".join([*filter(None, comments), f"[{name}]", *lines])


def _dotted(outline: Outline, path: KeyPath) -> Iterator[str]:
    for statement in outline.pairs_below(path):
        assert statement.pair is not None
        if statement.pair.path != path:
            yield outline.text[_inner(statement.pair, path) : statement.end].strip("\r\n")


def _inline(outline: Outline, path: KeyPath) -> Iterator[str]:
    for table in outline.inline:
        for pair in table.pairs:
            if len(pair.path) > len(path) >= len(table.path) and pair.path[: len(path)] == path:
                yield outline.text[_inner(pair, path) : pair.value.end]


def _inner(pair: Pair, path: KeyPath) -> int:
    """Where the pair's key goes on behind the path."""
    return next(key.start for key in pair.keys if len(key.path) > len(path))


def _rest_removed(text: str, path: KeyPath, splices: list[Splice]) -> str:
    """The text without the sections, and without what else stands at the path."""
    rest = spliced(text, splices)
    return remove(rest, path) if lines_of(rest, path) else rest
