"""The screens in the terminal. Nothing here is imported by the command line until they open."""

from __future__ import annotations

import os
from collections.abc import MutableMapping
from datetime import datetime

# What the toolkit takes for its colours. Of others it knows none, and ends.
_COLOURS = ("auto", "standard", "256", "truecolor", "windows")
# What it offers to who makes programs with it, and reads when it is imported: another way to the
# terminal, a file of notes, keys pressed by themselves.
_FOR_MAKERS = ("TEXTUAL_DRIVER", "TEXTUAL_LOG", "TEXTUAL_DEBUG", "TEXTUAL_PRESS")


def leave_out_unfit(environment: MutableMapping[str, str]) -> None:
    """Take settings of the toolkit out that would end the screens, or act in a person's place."""
    for name in _FOR_MAKERS:
        environment.pop(name, None)
    if environment.get("TEXTUAL_COLOR_SYSTEM", "auto") not in _COLOURS:
        del environment["TEXTUAL_COLOR_SYSTEM"]


leave_out_unfit(os.environ)  # before anything here imports the toolkit


def open_screens(
    root: str | os.PathLike[str],
    at: datetime | None = None,
    by: str = "",
    plain: bool = False,
    keep: str = "",
) -> int:
    """Open the screens over a folder and stay until they are left; 0, 1 for a fault of ours, or 128
    and its number where a signal ended them.

    With `at`, or in an example folder that names its moment, the clock starts there and runs on.
    With `keep` the page for the wall is kept in that file, else where it was asked for once.
    """
    from crewboard.folder.disk.wall_asked import wall_asked
    from crewboard.terminal.app import CrewboardApp
    from crewboard.terminal.as_opened import AsOpened
    from crewboard.wall_clock import real_now, running_from, shop_now
    from crewboard.workbench import Workbench

    bench = Workbench(root)
    bench.wall = lambda: real_now(bench.plan)
    start = at or bench.plan.vehicle.shown_at
    clock = running_from(start) if start is not None else lambda: shop_now(bench.plan)
    app = CrewboardApp(bench, clock, by=by, plain=plain or _few_glyphs())
    app.keep_on_the_wall(keep or wall_asked(root))
    try:
        with AsOpened() as program:
            app.is_changed = program.is_changed
            app.run()
    except OSError:
        if app.return_value is None:
            raise
        # The terminal is gone: there is nothing left to say it on.
    return app.return_value if app.return_value is not None else (app.return_code or 0)


def _few_glyphs() -> bool:
    """Whether the terminal may lack the signs that lines and marks are drawn with."""
    import sys

    encoding = (getattr(sys.stderr, "encoding", "") or "").lower().replace("-", "")
    return os.environ.get("TERM") == "linux" or encoding not in ("utf8", "utf16")
