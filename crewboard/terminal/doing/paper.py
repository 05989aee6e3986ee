"""Printing from the screens: a sheet is written as a page beside the folder, to be printed from a
browser."""

from __future__ import annotations

import os
from collections.abc import Iterable
from datetime import date
from functools import partial
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from crewboard.folder.disk.own_page import put_page
from crewboard.folder.intake.to_show import way_to, why_not_shown
from crewboard.paper.page import PAPER
from crewboard.paper.pictures import Album
from crewboard.paper.reports import REPORTS, forms_of, made
from crewboard.telling.line import Line
from crewboard.telling.report import Request
from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.desktop import has_desktop, open_page
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.dialogs.pick import Choice, PickOne
from crewboard.terminal.doing.type_in_sheet import type_in_sheet
from crewboard.terminal.widgets.prose import Prose

# The sheet on which the cursor stands, by the page from which it is asked for.
_FIRST = {"holds": "tags", "crew": "hours", "logbook": "day", "vehicle": "shelf-list"}
_NOT_HERE = ("calendar",)  # no page to print
_TYPE_IN = "type in"  # the other way: what was written on a sheet by hand


async def print_paper(app: BoardApp, page: str) -> None:
    """Ask which sheet, write it, and say where."""
    sheets = {name: one.says for name, one in REPORTS.items() if name not in _NOT_HERE}
    choices = [Choice(name, name.replace("-", " "), says) for name, says in sheets.items()]
    choices.append(Choice(_TYPE_IN, _TYPE_IN, "a morning sheet that was filled by hand"))
    asked = PickOne("Print which sheet?", choices, at=_FIRST.get(page, "morning"))
    name = await app.push_screen_wait(asked)
    if name is None:
        return
    if name == _TYPE_IN:
        await type_in_sheet(app)
        return
    root = str(app.workbench.folder.root)
    path = paper_path(root, name, app.board.at.date())
    album = Album(way_to(root, os.path.dirname(path)), partial(why_not_shown, root))
    text = forms_of(made(name, Request(app.board, form="html")), album)["html"](0)
    try:
        os.makedirs(os.path.dirname(path), exist_ok=True)
        put_page(path, text, PAPER)
    except FileExistsError:
        app.tell(f"{path} is no page of ours, and was left as it is", warning=True)
        return
    except OSError as error:
        app.tell(f"{path} cannot be written: {error.strerror or error}", warning=True)
        return
    if await app.push_screen_wait(WrittenPanel(path)):
        open_page(path)
        app.tell("opened in the browser")


def paper_path(root: str, name: str, day: date) -> str:
    """Beside the folder, so that no copy of the folder carries paper about."""
    folder = os.path.realpath(root)
    return os.path.join(f"{folder}-paper", f"{name}-{day.isoformat()}.html")


class WrittenPanel(Dialog[bool]):
    """Where the page is; answers True where it is to be opened."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+p", "open", "open", show=False),
        Binding("enter", "leave", "OK", show=False),
    ]

    def __init__(self, path: str) -> None:
        super().__init__("Written", wide=True)
        self.path = path

    def inside(self) -> Iterable[Widget]:
        yield Prose(
            [
                Line(self.path, "strong"),
                Line("Open it in a browser and print it there; A4 and US letter both do."),
            ]
        )

    def foot(self) -> str:
        return "Ctrl+P open in the browser   Enter OK" if has_desktop() else "Enter OK"

    def action_open(self) -> None:
        if has_desktop():
            self.dismiss(True)
