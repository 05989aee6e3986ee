"""Where the forms' stylesheets are; a full path, since forms stand in several folders."""

from __future__ import annotations

from pathlib import Path, PurePath

from crewboard.terminal.dialogs import dialog

STYLES: list[str | PurePath] = [
    Path(dialog.__file__).with_name("dialog.tcss"),
    Path(__file__).with_name("form.tcss"),
]
