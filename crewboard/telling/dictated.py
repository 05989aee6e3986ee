"""A text dictated or typed elsewhere, cut into findings: one a line, on what the line begins with.

"ribs 3: the foot is soft" is a finding on that rib, "Roof: ..." one on the roof, and a line that
begins with no name of the plan, or with "vehicle:", one on the vehicle as a whole. A number that no
piece of that name has is asked about, with a colon or without. What follows "thought:" is kept
apart from what was seen.
"""

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from crewboard.logbook.acts import Found
from crewboard.order.said import component_name, listed, piece_name
from crewboard.plan.piece import numbers_of
from crewboard.plan.plan import Plan
from crewboard.telling.line import Line

MOST_LINES = 500
_BULLET = re.compile(r"\s*(?:[-*•–—]\s+|\d{1,3}[.)]\s+)")
_HEAD = re.compile(r"([^:]{1,120}):\s*(\S.*)", re.DOTALL)
_THOUGHT = re.compile(r"\bthought:", re.IGNORECASE)
_NUMBERED = re.compile(r"(.*?[^\d\s,/-])[\s/]*(\d[\d\s,]*(?:(?:-|to|and)[\d\s,]+)*)")
_ONE_OF = re.compile(r"[^\d:]{1,80}?[\s/]+\d+(?=[\s,;]|\.\s|\.?$)")
_SOME_OF = re.compile(r"([^\d:]{1,80}?)[\s/]+\d+(?:\s*(?:-|to|and)\s*\d+)+(?=[\s,;]|\.?$)")
_BREAKS = re.compile(r"[\s/_-]+")

_WHOLE = ("vehicle", "the vehicle")

_Names = Mapping[str, tuple[str, ...]]


class Dictated(NamedTuple):
    """A line of the text and the finding that it becomes. It becomes none where `of` names things
    of the plan, more than one of which has the name it begins with, or `nothing` a name that looks
    like that of a piece and is none."""

    number: int
    found: Found
    of: tuple[str, ...] = ()
    nothing: str = ""


def cut_into_findings(plan: Plan, text: str) -> list[Dictated]:
    """The findings of a text, in the order of its lines; empty lines fall away."""
    names = _names(plan)
    lines = [(number, line.strip()) for number, line in enumerate(_lines(text), 1)]
    return [
        dictated
        for number, line in lines
        if line
        for dictated in _read(plan, names, number, _unbulleted(line))
    ]


def _lines(text: str) -> list[str]:
    """Broken where a text is broken, not at the rarer signs that Python takes for breaks too."""
    return re.split(r"\r\n|\r|\n", text)


def _unbulleted(line: str) -> str:
    bullet = _BULLET.match(line)
    return line[bullet.end() :] if bullet and bullet.end() < len(line) else line


def _read(plan: Plan, names: _Names, number: int, line: str) -> Iterator[Dictated]:
    """The finding of a line; of several pieces that it names by their numbers one each."""
    head = _HEAD.fullmatch(line)
    if head and (several := _numbered(names, head[1])):
        for piece in several:
            yield Dictated(number, _on_thing(plan, _found(head[2]), piece))
        return
    if head and _as_called(head[1]) in _WHOLE:
        yield Dictated(number, _found(head[2]))
        return
    things = names.get(_as_called(head[1]), ()) if head else ()
    if head and not things and _numbers_a_kind(plan, head[1]):
        yield Dictated(number, _found(head[2]), nothing=head[1].strip())
        return
    found = _found(head[2] if head and things else line)
    if not things and (some := _some_of(plan, line)):
        several = _numbered(names, some)
        for piece in several:
            yield Dictated(number, _on_thing(plan, found, piece))
        if not several:
            yield Dictated(number, found, nothing=some)
        return
    things = things or _begins_with(names, line)
    if not any(thing in plan.pieces for thing in things) and (nothing := _no_such(plan, line)):
        yield Dictated(number, found, nothing=nothing)
    elif len(things) == 1:
        yield Dictated(number, _on_thing(plan, found, things[0]))
    else:
        yield Dictated(number, found, things)


def _numbered(names: _Names, head: str) -> list[str]:
    """The pieces of "ribs 1 to 3", "ribs 2 and 5"; none where any of them is none."""
    match = _NUMBERED.fullmatch(head.strip())
    try:
        numbers = list(numbers_of(match[2].replace(" and ", ","))) if match else []
    except ValueError:
        return []
    things = [names.get(_as_called(f"{match[1]} {number}"), ()) for number in numbers if match]
    alone = len(numbers) > 1 and all(len(one) == 1 for one in things)
    return [one[0] for one in things] if alone else []


def _numbers_a_kind(plan: Plan, head: str) -> bool:
    """Whether it is a kind of the pieces that are numbered, with a number: "sash 99"."""
    match = _NUMBERED.fullmatch(_as_called(head))
    if match is None:
        return False
    kinds = {_as_called(name) for name in plan.several}
    kinds |= {_as_called(name.partition("/")[2]) for name in plan.several}
    kinds |= {
        _as_called(piece.name.removesuffix(str(piece.number)))
        for piece in plan.pieces.values()
        if piece.number
    }
    return _as_called(match[1]) in kinds


def _some_of(plan: Plan, line: str) -> str:
    """The pieces with which the line begins, of a kind in the plural: "sashes 1 and 2" of "sashes
    1 and 2 are dry". After one in the singular, "rib 3 and 4 nails", the number may be another."""
    begins = _SOME_OF.match(line)
    kinds = {_as_called(name.rpartition("/")[2]) for name in plan.several}
    return begins[0] if begins and _as_called(begins[1]) in kinds else ""


def _no_such(plan: Plan, line: str) -> str:
    """The name of no piece with which the line begins: "sash 99" of "sash 99 is odd"."""
    begins = _ONE_OF.match(line)
    return begins[0].strip() if begins and _numbers_a_kind(plan, begins[0]) else ""


def _on_thing(plan: Plan, found: Found, thing: str) -> Found:
    return found._replace(piece=thing) if thing in plan.pieces else found._replace(component=thing)


def _found(text: str) -> Found:
    return Found(*_parted(text))


def _parted(text: str) -> tuple[str, str]:
    """What was seen, and what is thought of it where that is said."""
    mark = _THOUGHT.search(text)
    seen = text[: mark.start()].rstrip(" ;,.(") if mark else ""
    thought = text[mark.end() :].strip() if mark else ""
    if mark is None or not seen or not thought:
        return text, ""
    opened = text[: mark.start()].rstrip().endswith("(")
    return seen, thought.removesuffix(")") if opened else thought


def _begins_with(names: _Names, line: str) -> tuple[str, ...]:
    """What has the longest name that the line begins with, as whole words."""
    words = line.split()
    for count in range(min(len(words), 12), 0, -1):
        if things := names.get(_as_called(" ".join(words[:count]).rstrip(",.;"))):
            return things
    return ()


def _names(plan: Plan) -> _Names:
    """All names by which pieces and components are called, and what has each."""
    names: dict[str, dict[str, None]] = {}
    for thing, name in _called(plan):
        names.setdefault(_as_called(name), {})[thing] = None
    names.pop("", None)
    return {name: tuple(things) for name, things in names.items()}


def _called(plan: Plan) -> Iterator[tuple[str, str]]:
    for component in plan.components.values():
        for name in (component.name, component.id, component.id.rpartition("/")[2]):
            yield component.id, name
    for piece in plan.pieces.values():
        where = component_name(plan, piece.component)
        for name in (piece.name, piece.id, piece.short, f"{where} {piece.name}"):
            yield piece.id, name
        yield piece.id, f"{where} {piece.short}"


def _as_called(name: str) -> str:
    """A name as it is compared: "Ribs/3", "ribs 3" and "ribs-3" are one."""
    return _BREAKS.sub(" ", name).strip().casefold()


def dictated_lines(plan: Plan, lines: list[Dictated]) -> Iterator[Line]:
    """The findings as they would be saved; those that could be of several things, or are of none,
    say so."""
    for one in lines:
        if one.nothing:
            yield Line(f'{one.found.seen} (there is no "{one.nothing}")', "danger", 0, "Which?")
            continue
        if one.of:
            things = listed(_thing(plan, thing) for thing in one.of)
            yield Line(f"{one.found.seen} ({things} have that name)", "danger", 0, "Which?")
            continue
        thought = f"; thought: {one.found.thought}" if one.found.thought else ""
        yield Line(f"{one.found.seen}{thought}", "plain", 0, f"{_on(plan, one.found)}:")


def _on(plan: Plan, found: Found) -> str:
    if found.piece:
        return _thing(plan, found.piece)
    return component_name(plan, found.component) if found.component else "the vehicle"


def _thing(plan: Plan, thing: str) -> str:
    """ "Rib 3 (Roof)", "Roof"."""
    piece = plan.pieces.get(thing)
    if piece is None:
        return component_name(plan, thing)
    return f"{piece_name(plan, thing)} ({component_name(plan, piece.component)})"


def amiss(lines: list[Dictated]) -> str:
    """Why the text cannot be saved as it is, in a sentence; empty where it can."""
    if not lines:
        return "there is no line in it"
    if len(lines) > MOST_LINES:
        return f"it has {len(lines):,} lines, and {MOST_LINES} at a time are taken"
    if nothing := [one for one in lines if one.nothing]:
        number, name = nothing[0].number, nothing[0].nothing
        more = f", and {len(nothing) - 1} more are like it" if len(nothing) > 1 else ""
        return (
            f'which piece is line {number} of? There is no "{name}"{more}: '
            'mend the name, or begin the line with "vehicle:"'
        )
    if unclear := [one for one in lines if one.of]:
        numbers = listed(str(one.number) for one in unclear)
        return (
            f"line {numbers} could be of several things: begin it with the component and the piece"
            if len(unclear) == 1
            else f"lines {numbers} could be of several things: begin them with component and piece"
        )
    return ""
