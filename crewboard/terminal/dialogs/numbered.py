"""A few answers, each with its number: the digit gives it at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import ClassVar

from crewboard.terminal.dialogs.pick import Choice, PickOne

MOST = 9  # answers that have a digit


class PickNumbered(PickOne):
    """Answers the id of the choice, None when left. `again` has the key = and stands first; z
    `shows` what is asked about, where that can be seen."""

    keys: ClassVar[str] = "digits, Enter OK   Esc cancel"
    more_keys: ClassVar[tuple[tuple[str, str], ...]] = (
        ("digits", "the answer with that number, at once"),
        ("=", "the same answer as the last time, where one stands there"),
        *PickOne.more_keys,
    )
    taken: ClassVar[dict[str, str]] = {
        "equals_sign": "accept",
        **{str(number): "accept" for number in range(1, MOST + 1)},
    }

    def __init__(
        self,
        title: str,
        choices: Sequence[Choice],
        *,
        again: Choice | None = None,
        intro: str = "",
        at: str = "",
        shows: Callable[[], None] | None = None,
    ) -> None:
        keyed = {str(number): choice for number, choice in enumerate(choices[:MOST], 1)}
        keyed = ({} if again is None else {"=": again}) | keyed
        listed = [c._replace(text=f"{key}  {c.text}") for key, c in keyed.items()]
        listed += [c._replace(text=f"   {c.text}") for c in choices[MOST:]]
        super().__init__(title, listed, intro=intro, at=at)
        self._shows = shows
        self._by_key = {key.replace("=", "equals_sign"): c.id for key, c in keyed.items()}

    def acts(self) -> dict[str, Callable[[], None]]:
        numbers = {key: partial(self._answer, some_id) for key, some_id in self._by_key.items()}
        seen = {"z": self._shows} if self._shows is not None else {}
        return super().acts() | numbers | seen

    def foot(self) -> str:
        shown = "z shows it   " if self._shows is not None and not self._typed else ""
        return f"{shown}{super().foot()}"

    def _answer(self, some_id: str) -> None:
        self.dismiss(some_id)
