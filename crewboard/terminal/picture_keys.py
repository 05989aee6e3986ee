"""The key that shows the pictures on record of what the cursor is on."""

from __future__ import annotations

from collections.abc import Sequence

from textual.binding import Binding

from crewboard.terminal.page import Page

PICTURES_SHOWN_KEY = Binding(
    *("z", "pictures", "pictures"),
    show=False,
    id="pictures",
    tooltip="its pictures and recordings: drawn here, or opened on the desktop",
)


class PictureKeys(Page):
    """A page on which `shown_files` are the files of what the cursor is on, by their paths in the
    folder."""

    @property
    def shown_files(self) -> Sequence[str]:
        raise NotImplementedError

    def action_pictures(self) -> None:
        from crewboard.telling.pictures import pictures_told
        from crewboard.terminal.dialogs.pictures import PicturesDialog

        app, files = self.board_app, self.shown_files
        if not files:
            app.tell("no picture is on record of it", warning=True)
            return
        fabric = app.workbench.fabric(self.board.at)
        told = pictures_told(self.board, fabric, files)
        app.push_screen(PicturesDialog(told, str(app.workbench.folder.root)))
