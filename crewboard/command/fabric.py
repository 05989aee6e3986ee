"""The commands for the record of the vehicle as it stands: `fabric`, `gaps`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from crewboard.command import naming
from crewboard.command.exits import Exit
from crewboard.command.opened import AT, DIR, JSON, moment, open_bench
from crewboard.command.typed import Call, Command, Word

if TYPE_CHECKING:
    from crewboard.fabric.fabric import Fabric, PieceRecord

WHAT = Word("WHAT", 'a component, a kind such as "arches", or a piece', optional=True)


def _fabric(call: Call) -> Exit:
    bench = open_bench(call)
    fabric = bench.fabric(moment(call, bench.plan))
    chosen = chosen_records(fabric, call.word("WHAT"))
    if call.given("json"):
        from crewboard.command.json_fabric import fabric_form

        call.out.json(fabric_form(fabric, chosen))
    else:
        from crewboard.paper.plain import plain_lines
        from crewboard.telling.fabric import fabric_lines

        lines = fabric_lines(fabric, chosen, whole=not call.word("WHAT"))
        call.out.lines(plain_lines(lines, call.out.width))
    return Exit.FINE


def chosen_records(fabric: Fabric, typed: str) -> list[PieceRecord]:
    """All pieces, those of a component with its parts, or those that are named."""
    plan = fabric.plan
    if not typed:
        return list(fabric.pieces.values())
    if typed in plan.components:
        within = plan.with_parts(typed)
        return [record for record in fabric.pieces.values() if record.piece.component in within]
    return [fabric.pieces[some_id] for some_id in naming.pieces(plan, [typed])]


fabric = Command(
    _fabric,
    "Prints what the vehicle is made of now: each piece's state and where it is, where the old "
    "ones are, how much is original by component and in all. Pieces, lengths, areas and volumes "
    "are never added up together.",
    (DIR, WHAT),
    (AT, JSON),
    (
        "crewboard fabric sample_project",
        "crewboard fabric sample_project body-frame",
        "crewboard fabric sample_project arches/3",
    ),
)


def _gaps(call: Call) -> Exit:
    from crewboard.fabric.gaps import gaps as of_all
    from crewboard.fabric.gaps import treated
    from crewboard.folder.check.taken_in import files_amiss

    bench = open_bench(call)
    fabric = bench.fabric(moment(call, bench.plan))
    chosen = {record.piece.id for record in chosen_records(fabric, call.word("WHAT"))}
    lists = {piece: of_it for piece, of_it in of_all(fabric).items() if piece in chosen}
    amiss = [] if call.word("WHAT") else list(files_amiss(bench.folder))
    if call.given("json"):
        from crewboard.command.json_fabric import gaps_form

        files = {one.file: one.says for one in amiss}
        call.out.json(gaps_form(fabric, lists, files))
    else:
        from crewboard.paper.plain import plain_lines
        from crewboard.telling.gaps import file_lines, gap_lines

        any_treated = any(record.piece.id in chosen for record in treated(fabric))
        lines = gap_lines(fabric, lists, any_treated=any_treated)
        lines += file_lines((one.says, one.mend) for one in amiss)
        call.out.lines(plain_lines(lines, call.out.width))
    return Exit.FINE


gaps = Command(
    _gaps,
    "Prints what the record lacks of each piece to which something was done, the piece that lacks "
    "least first. Each line says what would close the gap. Without a component or piece it also "
    "says which files that were taken in are gone, or were changed since.",
    (DIR, WHAT),
    (AT, JSON),
    ("crewboard gaps sample_project", "crewboard gaps sample_project roof"),
)
