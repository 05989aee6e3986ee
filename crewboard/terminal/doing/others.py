"""What is done less often stands behind one key, in a list: no page needs a letter for each."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence
from typing import NamedTuple

from crewboard.terminal.board_app import BoardApp
from crewboard.terminal.dialogs.pick import Choice, PickOne


class Other(NamedTuple):
    """A deed: its word, what more is said of it, and what it does."""

    word: str
    says: str
    do: Callable[[], Awaitable[object]]


def as_choice(other: Other) -> Choice:
    return Choice(other.word, other.word, other.says)


async def one_of(app: BoardApp, others: Sequence[Other], *, at: str = "") -> None:
    """Offer these, with the cursor on the word `at`, and do what is picked."""
    picked = await app.push_screen_wait(PickOne("Other", [*map(as_choice, others)], at=at))
    for other in others:
        if other.word == picked:
            await other.do()
