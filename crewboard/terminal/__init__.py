"""The screens in the terminal. Nothing here is imported by the command line until they open."""

from __future__ import annotations

import os
from datetime import datetime


def open_screens(
    root: str | os.PathLike[str], at: datetime | None = None, by: str = "", plain: bool = False
) -> int:
    """Open the screens over a folder and stay until they are left; the exit code.

    With `at` the clock starts there and runs on.
    """
    from crewboard.terminal.app import CrewboardApp
    from crewboard.workbench import Workbench

    started = datetime.now()

    def clock() -> datetime:
        now = datetime.now()
        return now if at is None else at + (now - started)

    app = CrewboardApp(Workbench(root), clock, by=by, plain=plain)
    code = app.run()
    return code if code is not None else (app.return_code or 0)
