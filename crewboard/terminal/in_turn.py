"""Keys in turn: the next is taken once all that the last one began is ready for it.

So whoever types ahead of a slow computer has each key go where they saw it go: what follows the key
that opens a form stands in its first field, in order, and no key is lost or does something else.
"""

from __future__ import annotations

from asyncio import CancelledError, Event, Queue, Task, create_task, sleep, timeout
from collections.abc import Awaitable, Callable
from itertools import count
from typing import Any, Protocol, runtime_checkable
from weakref import WeakSet

from textual import events
from textual.app import App
from textual.message_pump import MessagePump
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Input, TextArea
from textual.worker import Worker

Typed = events.Key | events.Paste
_LONGEST = 2.0  # seconds for which a key is waited for; what takes longer is waited for no more
_AT_ONCE, _TURN = 200, 0.002  # turns of the loop in which it is looked; then seconds between looks


class KeysInTurn:
    """Takes what is typed one by one. `take` does with a key what the toolkit does; `asking` is how
    many workers wait for the answer to a question that is on the screen."""

    def __init__(
        self,
        app: App[Any],
        take: Callable[[Typed], Awaitable[None]],
        asking: Callable[[], int],
    ) -> None:
        self.app, self._take, self._asking = app, take, asking
        self._typed: Queue[Typed] = Queue()
        self._task: Task[None] | None = None
        self._slow: WeakSet[Worker[Any]] = WeakSet()  # copying files, and the like

    def begin(self) -> None:
        self._task = create_task(self._go_on())

    def end(self) -> None:
        if self._task is not None:
            self._task.cancel()

    def put(self, event: Typed) -> None:
        self._typed.put_nowait(event)

    async def _go_on(self) -> None:
        while True:
            event = await self._typed.get()
            if not self.app.screen_stack:  # a key typed on while the screens were left
                continue
            try:
                await self._one(event)
            except CancelledError:
                raise
            except Exception as fault:
                self.app._handle_exception(fault)

    async def _one(self, event: Typed) -> None:
        """Let one be taken, and wait until it has done all that it does."""
        here, target = self.app.screen, self.app.focused or self.app.screen
        is_text = takes(target, event)
        way = [target] if is_text else [*target.ancestors_with_self]
        await self._take(event)
        try:
            async with timeout(_LONGEST):
                for pump in way:  # up which a key goes to whoever takes it
                    await done_so_far(pump)
                if not (is_text and self._stays(here, target)):
                    await self._at_rest()
        except TimeoutError:
            self._slow.update(self.app.workers)

    def _stays(self, here: Screen[Any], target: Widget) -> bool:
        """Whether the next key goes where this one went."""
        app = self.app
        return bool(app.screen_stack) and app.screen is here and app.focused is target

    async def _at_rest(self) -> None:
        """Until no worker is on its way to a question, and the screen is ready for keys."""
        await sleep(0)  # a worker that was answered goes on
        for turn in count():
            if not self.app.screen_stack:
                return
            screen = self.app.screen
            if self._working <= self._asking() and is_ready(screen):
                await done_so_far(screen)
                await done_so_far(self.app)
                if self.app.screen_stack and self.app.screen is screen and is_ready(screen):
                    return
            else:
                await sleep(0 if turn < _AT_ONCE else _TURN)

    @property
    def _working(self) -> int:
        """How many workers are at it, but for those that reckon in a thread of their own."""
        return sum(
            not (worker.is_finished or worker._thread_worker or worker in self._slow)
            for worker in self.app.workers
        )


async def done_so_far(pump: MessagePump) -> None:
    """Wait until the pump has done with all messages that it has now."""
    done = Event()
    if pump.is_running and pump.call_later(done.set):
        await done.wait()


@runtime_checkable
class TakesKeys(Protocol):
    """A widget that takes keys as they are typed."""

    def takes(self, key: events.Key) -> bool:
        """Whether the key goes no further than the widget, and leaves the others as they are."""


def takes(target: Widget, event: Typed) -> bool:
    """Whether what was typed is text, or a step, where the keys go now."""
    if isinstance(event, events.Paste):
        return False
    if isinstance(target, Input | TextArea):
        return event.is_printable
    return isinstance(target, TakesKeys) and target.takes(event)


def is_ready(screen: Screen[Any]) -> bool:
    """Whether everything on the screen is in its place, and the keys go where they should."""
    inside = list(screen.walk_children(Widget))
    whole = bool(inside) and all(widget.is_mounted for widget in inside)
    return whole and (screen.focused is not None or not screen.focus_chain)
