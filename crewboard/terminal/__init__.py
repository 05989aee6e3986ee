"""The screens in the terminal. Nothing here is imported by the command line until they open."""

from __future__ import annotations

import os
from datetime import datetime


def open_screens(
    root: str | os.PathLike[str], at: datetime | None = None, by: str = "", plain: bool = False
) -> int:
    """Open the screens over a folder and stay until they are left; 0, or 1 for a fault of ours.

    With `at`, or in an example folder that names its moment, the clock starts there and runs on.
    """
    from crewboard.terminal.app import CrewboardApp
    from crewboard.wall_clock import real_now, running_from, shop_now
    from crewboard.workbench import Workbench

    bench = Workbench(root)
    bench.wall = lambda: real_now(bench.plan)
    start = at or bench.plan.vehicle.shown_at
    clock = running_from(start) if start is not None else lambda: shop_now(bench.plan)
    app = CrewboardApp(bench, clock, by=by, plain=plain or _few_glyphs())
    code = app.run()
    return code if code is not None else (app.return_code or 0)


def _few_glyphs() -> bool:
    """Whether the terminal may lack the signs that lines and marks are drawn with."""
    import sys

    encoding = (getattr(sys.stderr, "encoding", "") or "").lower().replace("-", "")
    return os.environ.get("TERM") == "linux" or encoding not in ("utf8", "utf16")
