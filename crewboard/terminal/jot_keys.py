"""The keys by which something is jotted down for the record: `j` asks what, and four more have what
is jotted down most at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.binding import Binding

from crewboard.terminal.letters import AT_ONCE, COMES_OF_IT
from crewboard.terminal.page import Page

if TYPE_CHECKING:
    from crewboard.terminal.doing.jot import Of

_SAYS = {
    "found": "found: what was seen, and what is thought of it",
    "done": "done to it: cleaned, spliced, replaced",
    "measured": "measured on it",
    "picture": "a picture of it",
}
JOT_KEY = Binding(
    *("j", "jot", "jot"),
    id="jot",
    tooltip="jot down for the record: found, done to it, put away, measured",
)
JOT_KEYS: list[Binding] = [
    JOT_KEY,
    *(
        Binding(
            *(key.lower(), f"jot('{word}')", word),
            show=False,
            key_display=key,
            id=f"jot-{word}",
            tooltip=_SAYS[word],
        )
        for word, key in AT_ONCE.items()
    ),
]

_COMES = {
    "task": "a task of the finding under the cursor",
    "hold": "a hold of it",
    "keep": "its piece is kept for ever",
    "order": "an order of it",
}
COMES_OF_IT_KEYS: list[Binding] = [
    Binding(
        *(key.lower(), f"comes_of_it('{way}')", _COMES[way]),
        show=False,
        key_display=key,
        id=f"comes-{way}",
        tooltip=_COMES[way],
    )
    for way, key in COMES_OF_IT.items()
]


class JotKeys(Page):
    """A page on which `jotted_of` is what the keys jot something down of."""

    @property
    def jotted_of(self) -> Of | None:
        """None where the cursor is on nothing of which anything can be said."""
        raise NotImplementedError

    def action_jot(self, word: str = "") -> None:
        from crewboard.terminal.doing.jot import jot

        if (of := self.jotted_of) is not None:
            self.board_app.run_worker(jot(self.board_app, of, word))
