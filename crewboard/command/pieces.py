"""The commands for pieces: `pieces`, `add-pieces`, `describe`, `remove-pieces`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, get_args

from crewboard.command import naming
from crewboard.command.exits import Exit, WrongCall
from crewboard.command.opened import AT, DIR, JSON, as_read, moment, open_bench, parse_number, today
from crewboard.command.typed import Call, Command, Option, Word
from crewboard.command.write import tell
from crewboard.plan.piece import AsFound

if TYPE_CHECKING:
    from collections.abc import Iterator

    from crewboard.folder.edit.plan_edits import Key
    from crewboard.order.board import Board
    from crewboard.plan.piece import Piece
    from crewboard.telling.line import Line
    from crewboard.workbench import Workbench

_PIECE = Word("PIECE", 'all of a kind, such as "ribs", or one, such as "ribs/3"')
_TEXTS = (
    ("name", "what it is called; of several, each with its number"),
    ("kind", "what kind of piece it is"),
    ("material", "what it is made of"),
    ("size", "how large it is"),
    ("place", "where on the vehicle it sits"),
    ("as-found", f"how it was found: {', '.join(get_args(AsFound))}"),
    ("period", "of which time it is"),
    ("condition", "in what state it was found"),
    ("extent", "its length, area or volume, for how much is original: 2.4 m, 0.8 m2"),
    ("intended", "what is to be done with it"),
    ("why", "and why"),
    ("runs-from", "where a wire or pipe comes from"),
    ("runs-to", "where it goes to"),
    ("serves", "what it is for"),
    ("part", "the part of the component that it belongs to"),
)
_COUNTS = (("count", "how many the vehicle has"), ("spares", "how many more are made"))


def _pieces(call: Call) -> Exit:
    bench = open_bench(call)
    board = bench.board(moment(call, bench.plan))
    chosen = _chosen(board, call.word("WHAT"))
    if call.given("json"):
        from crewboard.command.json_pieces import pieces_form

        call.out.json(pieces_form(board, chosen))
    else:
        from crewboard.paper.plain import plain_lines

        lines = list(_told(board, chosen, call.word("WHAT")))
        call.out.lines(plain_lines(lines, call.out.width) or ["No pieces are known."])
    return Exit.FINE


def _chosen(board: Board, typed: str) -> list[Piece]:
    """All pieces, those of a component, or those that are named."""
    plan = board.plan
    if not typed:
        return list(plan.pieces.values())
    if typed in plan.components:
        within = plan.with_parts(typed)
        if of_it := [piece for piece in plan.pieces.values() if piece.component in within]:
            return of_it
    return [plan.pieces[some_id] for some_id in naming.pieces(plan, [typed])]


def _told(board: Board, chosen: list[Piece], typed: str) -> Iterator[Line]:
    from crewboard.order.said import component_name
    from crewboard.telling.line import GAP, Line, title
    from crewboard.telling.piece_sheet import piece_sheet
    from crewboard.telling.pieces import facts_of, piece_tables, state_of, table_in_words
    from crewboard.telling.record_rows import piece_beside

    if typed and len(chosen) == 1:
        now = piece_beside(board.fabric, chosen[0].id)
        yield from piece_sheet(board, chosen[0].id, now)
        return
    ids = {piece.id for piece in chosen}
    where = ""
    for table in piece_tables(board):
        of_them = [piece for piece in table.pieces if piece.id in ids]
        if of_them and table.pieces[0].component != where:
            if where:
                yield GAP
            where = table.pieces[0].component
            yield title(component_name(board.plan, where))._replace(handle=where)
        if of_them and table.several:
            yield Line(table_in_words(board, table), "plain", 2, handle=table.id)
        for piece in of_them if typed or not table.several else ():
            state = state_of(board, piece)[0]
            word = "" if state == "piece" else f"{state}:"
            facts = ", ".join((piece.name, *facts_of(board.plan, piece).values()))
            yield Line(facts, "faint", 4 if table.several else 2, word, handle=piece.id)


pieces = Command(
    _pieces,
    "Prints what the vehicle is made of: pieces by component, several of a kind on one line. Of a "
    "component or a kind each piece by itself; of one piece all that is known of it, with the work "
    "that is done to it.",
    (DIR, Word("WHAT", 'a component, a kind such as "arches", or a piece', optional=True)),
    (AT, JSON),
    (
        "crewboard pieces sample_project",
        "crewboard pieces sample_project panes",
        "crewboard pieces sample_project arches/3",
    ),
)


def _add(call: Call) -> Exit:
    from crewboard.folder.edit.adding_pieces import added_in_words, adding_pieces

    bench = open_bench(call)
    component = naming.component(bench.plan, call.word("COMPONENT"))
    typed = ", ".join(call.each("PIECES"))
    edits = as_read(lambda: adding_pieces(typed, component, bench.plan))
    added = added_in_words(edits)
    outcome = bench.change(*edits, says=f"the pieces {added}", today=today(bench.plan).on)
    return tell(
        call, bench, outcome, [f"added to {bench.plan.components[component].name}: {added}"]
    )


add_pieces = Command(
    _add,
    'Adds pieces to a component, as many kinds as are named: "9 ribs", "ribs 1 to 9", "ridge", '
    '"7 arches + 1 spare". Of a kind that is there already "ribs 10 to 12" adds three.',
    (
        DIR,
        Word("COMPONENT", "a component or part"),
        Word("PIECES", 'pieces in quotes, such as "9 ribs, ridge"', many=True),
    ),
    (JSON,),
    ('crewboard add-pieces . roof "9 ribs, ridge, 2 sills + 1 spare"',),
)


def _describe(call: Call) -> Exit:
    from crewboard.folder.edit.as_written import said_alone
    from crewboard.folder.edit.plan_edits import Change, PlanEdit, Rename

    bench = open_bench(call)
    some_id = naming.table_or_piece(bench.plan, call.word("PIECE"))
    values = said_alone(bench.folder, bench.plan, some_id, _values(call, bench))
    edits: list[PlanEdit] = [Change("piece", some_id, values)] if values else []
    if call.given("short-name"):
        edits.append(Rename("piece", some_id, call.option("short-name")))
    if not edits:
        raise WrongCall("nothing is said of it", "write --material ash, for example")
    outcome = bench.change(*edits, says="what is known of a piece", today=today(bench.plan).on)
    return tell(call, bench, outcome, [f"saved: {', '.join(_keys(values)) or 'its short name'}"])


def _keys(values: dict[Key, Any]) -> list[str]:
    return [str(key).replace("_", " ") for key in values]


def _values(call: Call, bench: Workbench) -> dict[Key, Any]:
    values: dict[Key, Any] = {}
    for name, _ in _TEXTS:
        if call.given(name):
            values[name.replace("-", "_")] = call.option(name)
    if call.given("part"):
        part = naming.component(bench.plan, call.option("part"))
        values["part"] = part if "/" in part else None
    for name, _ in _COUNTS:
        if call.given(name):
            values[name] = _whole(call.option(name))
    for name, yes, no in (("keep", "yes", "no"), ("live", "live", "dead")):
        if call.given(name):
            values[name] = _either(name, call.option(name), yes, no)
    if call.given("pictures"):
        values["pictures"] = call.every("pictures")
    for name in call.every("clear"):
        if name not in _CLEARED:
            raise WrongCall(f'"{name}" cannot be cleared', f"write one of {', '.join(_CLEARED)}")
        values[name.replace("-", "_")] = None
    return values


_CLEARED = (
    *(name for name, _ in _TEXTS if name != "name"),
    *(name for name, _ in _COUNTS),
    *("keep", "live", "pictures"),
)


def _whole(typed: str) -> int | None:
    number = parse_number(typed, "pieces")
    if number != int(number) or number < 0:
        raise WrongCall(f'"{typed}" is no number of pieces', "write a whole number, such as 9")
    return int(number) or None


def _either(name: str, typed: str, yes: str, no: str) -> bool | None:
    if typed not in (yes, no):
        raise WrongCall(f'--{name} is "{typed}"', f"write {yes} or {no}")
    return typed == yes


describe = Command(
    _describe,
    "Says what is known of a piece, or of all of a kind: saved in its component's file. Of one of "
    "several only what is so of it alone is written; the rest is as of all.",
    (DIR, _PIECE),
    (
        *(Option(name, says, "TEXT") for name, says in _TEXTS),
        *(Option(name, says, "NUMBER") for name, says in _COUNTS),
        Option("keep", "whether it is kept for ever as it is: yes or no", "YES"),
        Option("live", "whether a wire or pipe carries anything: live or dead", "LIVE"),
        Option("pictures", "their paths in the folder", "PATH", many=True),
        Option("clear", "what is not said of it any more, such as period", "WHAT", many=True),
        Option("short-name", "another short name, everywhere in the plan", "NAME"),
        JSON,
    ),
    (
        'crewboard describe . sashes/3 --as-found "earlier repair" --period "about 1950"',
        "crewboard describe . panes --spares 2",
        "crewboard describe . sashes/6 --keep yes",
    ),
)


def _remove(call: Call) -> Exit:
    from crewboard.folder.edit.plan_edits import Remove

    bench = open_bench(call)
    some_id = naming.table_or_piece(bench.plan, call.word("PIECE"))
    outcome = bench.change(
        Remove("piece", some_id), says="removing pieces", today=today(bench.plan).on
    )
    return tell(call, bench, outcome, [f"removed from the plan: {some_id}"])


remove_pieces = Command(
    _remove,
    "Removes pieces from the plan: all of a kind, a single one, or the last of several, whose "
    "count is lowered. Refused where a task or the logbook names them.",
    (DIR, _PIECE),
    (JSON,),
    ("crewboard remove-pieces . scratched-names",),
)
