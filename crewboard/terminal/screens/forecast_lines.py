"""What the Forecast page says of a forecast."""

from __future__ import annotations

from crewboard.order.board import Board
from crewboard.order.forecast.finish import Forecast
from crewboard.order.said import how_long, how_many
from crewboard.telling.forecast import bar_lines, component_lines, said
from crewboard.telling.line import GAP, Line, title
from crewboard.telling.row import Row, heading
from crewboard.telling.tones import STATE_TONE
from crewboard.terminal.widgets.rows import Column

COLUMNS = (Column(6, right=True), Column(), Column(9, wide_only=True))


def told(board: Board, found: Forecast, width: int, *, plain: bool) -> list[Line]:
    """Dates, how sure, bars, what would help, components."""
    finish = found.vehicle
    return [
        title("Finished"),
        Line(said(finish.even), "caution", 2, "even chance, by    "),
        Line(said(finish.likely), "must", 2, "four in five, by   "),
        Line(said(finish.nearly_sure), "safe", 2, "nearly sure, by    "),
        Line(
            f"{said(found.soonest)}, if nothing ever waited for people",
            "faint",
            2,
            "soonest of all     ",
        ),
        *(Line(remark, "warning", 2) for remark in found.remarks[:-1]),
        *(Line(remark, "faint", 2) for remark in found.remarks[-1:]),
        GAP,
        title("When: share of the courses, and of all up to then"),
        *(Line(each.strip(), indent=2) for each in bar_lines(found.courses, width, plain)),
        GAP,
        *_sooner(found),
        title("Components, with the same chances"),
        *_components(board, found, width),
        GAP,
        Line(_basis(found), "faint"),
    ]


def _sooner(found: Forecast) -> list[Line]:
    if not found.sooner:
        return []
    lines = [title("What would bring it forward, on average")]
    lines += [
        Line(each.says, "safe", 2, f"{how_long(each.gain)} sooner:")
        for each in found.sooner
        if each.tells
    ]
    others = [each.says for each in found.sooner if not each.tells]
    if others:
        lines.append(Line("; ".join(others), "faint", 2, "makes no difference that can be told:"))
    return [*lines, GAP]


def _components(board: Board, found: Forecast, width: int) -> list[Line]:
    # A leading blank would be lost in wrapping: what is set in keeps its place by its indent.
    lines = []
    for each in component_lines(board, found, width):
        text = each.lstrip()
        lines.append(Line(text, "plain", len(each) - len(text)))
    return lines


def _basis(found: Forecast) -> str:
    played = how_many(found.runs, "course")
    stopped = f" of {found.asked}, stopped" if found.stopped else ""
    return (
        f"{played}{stopped}, seed {found.seed}; from "
        f"{how_many(found.basis.work_days, 'work day')} of sign-ins and "
        f"{how_many(found.basis.tasks_with_hours, 'finished task')} with hours"
    )


def chain_rows(board: Board, found: Forecast) -> list[Row]:
    """The tasks by how often they set the date."""
    if not found.on_chain:
        return []
    rows = [heading("What sets the date: how often on the longest chain")]
    for each in found.on_chain:
        standing = board[each.task]
        tone = "warning" if each.share >= 0.5 else "plain"
        cells = (f"{each.share * 100:.0f} %", standing.task.title, standing.state)
        rows.append(Row(each.task, cells, tone, find=STATE_TONE[standing.state]))
    return rows
