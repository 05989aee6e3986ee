"""When the screens have come to rest after a key, told from the event loop and not from the clock.

Textual's own pilot waits until the process was idle for 20 ms, twice for each key. Here it goes on
as soon as nothing is left to be run, laid out or painted: the same end, without the waiting.
"""

from __future__ import annotations

import asyncio
from time import monotonic
from typing import Any

from textual import app, pilot, screen
from textual._context import active_app


async def at_rest(min_sleep: float = 0, max_sleep: float = 1) -> None:
    """Go on when every message is dealt with and the screen painted, at the latest after a while.

    Timers that are not due yet and other threads are not waited for: a test says with `reads` or
    `until` what it waits for. Stands in for `textual._wait.wait_for_idle`; seconds.
    """
    loop: Any = asyncio.get_running_loop()
    end = monotonic() + max_sleep
    while monotonic() < end:
        await asyncio.sleep(0)
        if not loop._ready and not _painted_now():
            break


def _painted_now() -> bool:
    """Whether there was something to lay out or to paint, which is done by now."""
    board = active_app.get()
    if not board.screen_stack or board._batch_count:
        return False
    front = board.screen
    waits = (
        front._layout_required
        or front._scroll_required
        or front._repaint_required
        or front._recompose_required
        or front._dirty_widgets
        or front._callbacks
    )
    if waits:
        front._on_timer_update()
    return bool(waits)


def wait_no_longer_than_needed() -> None:
    """From now on every pilot waits by `at_rest`."""
    screen.UPDATE_PERIOD = 0.1  # type: ignore[misc]  # half-drawn states that nobody looks at
    app.wait_for_idle = pilot.wait_for_idle = at_rest  # type: ignore[attr-defined]
