"""The lines at the edges of a screen: what vehicle and day it is, which keys there are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple, cast

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding
from textual.strip import Strip
from textual.widget import Widget

from crewboard.legible import legible
from crewboard.order.presence import closed_at
from crewboard.order.said import day_in_words, how_many, person
from crewboard.telling.line import Tone
from crewboard.terminal.board_app import BoardApp, Notice
from crewboard.terminal.cells import cell_len, shortened, wrapped
from crewboard.terminal.tones import tones_of


class Wording(NamedTuple):
    """Some words of a line; a click on them runs `action`, where there is one."""

    text: str
    tone: Tone = "plain"
    action: str = ""
    bold: bool = False
    key: str = ""  # the letter of the text that is the key, shown underlined


class EdgeLine(Widget):
    """One line of pieces, cut off on the right where there is no room."""

    DEFAULT_CSS = "EdgeLine { height: 1; min-width: 1; }"

    @property
    def gap(self) -> str:
        """What stands between two pieces."""
        return "  "

    def pieces(self) -> Iterable[Wording]:
        raise NotImplementedError

    @property
    def board_app(self) -> BoardApp:
        return cast("BoardApp", self.app)

    def render_line(self, y: int) -> Strip:
        width, base = self.size.width, self.rich_style
        if y or width <= 0:
            return Strip.blank(max(0, width), base)
        segments, gap = [Segment(" ", base)], self.gap
        self._places: list[tuple[int, int, str]] = []
        at = 1
        for piece in self.pieces():
            text = shortened(legible(piece.text), width - at - 1, plain=self.board_app.plain)
            if at + min(3, cell_len(piece.text)) > width - 1 or not text:
                break
            segments += _keyed(text, piece, base, tones_of(self.app))
            self._places.append((at, at + cell_len(text), piece.action))
            segments.append(Segment(gap, base))
            at += cell_len(text) + cell_len(gap)
        return Strip(segments).adjust_cell_length(width, base)

    async def on_click(self, event: events.Click) -> None:
        for start, end, action in getattr(self, "_places", []):
            if start <= event.x < end and action:
                await self.screen.run_action(action)


def _keyed(text: str, piece: Wording, base: Style, tones: Mapping[Tone, str]) -> list[Segment]:
    style = base + Style(color=tones[piece.tone], bold=piece.bold or None)
    if not piece.key or not text.startswith(piece.key):
        return [Segment(text, style)]
    key = base + Style(color=tones["strong"], bold=True, underline=True)
    return [Segment(piece.key, key), Segment(text[len(piece.key) :], style)]


class TopLine(EdgeLine):
    """Vehicle, date, time, who is here, mistakes in the folder."""

    @property
    def gap(self) -> str:
        """Narrower where it would not all fit."""
        pieces = list(self.pieces())
        return "   " if _cells(pieces) + len(pieces) <= self.size.width else "  "

    def pieces(self) -> Iterable[Wording]:
        app = self.board_app
        board = app.board
        name = shortened(legible(board.plan.vehicle.name), max(16, self.size.width - 60))
        yield Wording(name, "strong", bold=True)
        yield Wording(day_in_words(board.at.date()))
        yield Wording(f"{board.at:%H:%M}")
        here = "?" if board.people_unknown and not board.present else len(board.present)
        guests = f" and {how_many(len(board.guests), 'guest')}" if board.guests else ""
        yield Wording(f"{here} here{guests}")
        if app.workbench.folder.newer:
            yield Wording("read-only", "warning", bold=True)
        if app.unread:
            yield Wording("cannot read the folder", "danger", bold=True)
        if count := len(app.workbench.faults):
            yield Wording(f"{how_many(count, 'mistake')}: m", "warning", "app.mistakes")
        if (closed := closed_at(board)) is not None:
            yield Wording(f"closed {closed:%H:%M}", "warning")
        elif board.opening is not None:
            yield Wording(f"closes {board.opening.closes:%H:%M}", "faint")
        writes = f"you: {person(board.plan, app.by)}" if app.by else "your name: y"
        yield Wording(writes, "plain" if app.by else "faint", "app.your_name")


class KeyLine(EdgeLine):
    """The keys of the present screen: the underlined letter is the key."""

    @property
    def gap(self) -> str:
        """Narrower where the keys would not all fit."""
        return "  " if 1 + _cells(self.pieces()) <= self.size.width else " "

    def pieces(self) -> Iterable[Wording]:
        actions: set[str] = set()
        for binding in self._bindings_shown():
            if not binding.show or binding.action in actions:
                continue
            actions.add(binding.action)
            action = binding.action if "." in binding.action else f"screen.{binding.action}"
            word = binding.description
            key = binding.key_display or key_name(binding.key)
            if len(key) == 1 and word.startswith(key):
                # Without underlining, a capital letter says which one is the key.
                shown = word.capitalize() if self.board_app.plain else word
                yield Wording(shown, "plain", action, key=shown[0])
            else:
                yield Wording(f"{key} {word}", "plain", action, key=key)

    def _bindings_shown(self) -> Iterable[Binding]:
        """Those of the page that a list passes on to it, then all others that act now."""
        for binding in self.screen.BINDINGS:
            if isinstance(binding, Binding) and binding.key_display:
                yield binding
        for active in self.screen.active_bindings.values():
            if active.node is not self.app:
                yield active.binding


def key_name(key: str) -> str:
    names = {"question_mark": "?", "slash": "/", "escape": "Esc", "enter": "Enter"}
    names |= {"space": "Space", "delete": "Del", "tab": "Tab"}
    if key.startswith("ctrl+"):
        return f"Ctrl+{key[5:].upper()}"
    return names.get(key, key.upper() if key.startswith("f") and key[1:].isdigit() else key)


class PageLine(EdgeLine):
    """The pages of the board and the keys that open them; for a moment what was just done."""

    @property
    def gap(self) -> str:
        return "  " if self._fits else " "

    @property
    def _fits(self) -> bool:
        """Whether the pages' whole names find room."""
        return _cells(self._pages(short=False)) + 1 < self.size.width

    def pieces(self) -> Iterable[Wording]:
        notice = self.board_app.notice
        if notice is not None:
            yield Wording(notice.sentence, notice.tone, bold=True)
            return
        yield from self._pages(short=not self._fits)

    def _pages(self, *, short: bool) -> Iterable[Wording]:
        """Key and word of each page; `short` says digits and short words.
        Then the keys that every page has."""
        from crewboard.terminal.screens import PAGES

        here = getattr(self.screen, "word", "")
        for page in PAGES:
            if short and not page.digit:
                continue  # it is reached from the page beside it
            tone = "strong" if page.word == here else "faint"
            key = page.digit if short else page.key.upper()
            word = page.short if short else page.word
            action = f"app.open('{page.name}')"
            yield Wording(f"{key} {word}", tone, action, bold=page.word == here)
        yield Wording("u undo", "faint", "app.undo", key="u")
        yield Wording("/find" if short else "/ find", "faint", "screen.find", key="/")
        yield Wording("?" if short else "F1 help", "faint", "app.help")


class LongNotice(Widget):
    """A notice too long for the last line, whole: it lies over the last lines for its moment."""

    DEFAULT_CSS = """
    LongNotice { display: none; layer: above; dock: bottom; min-width: 1; background: $panel; }
    LongNotice.-said { display: block; }
    """
    _notice: Notice | None = None
    _lines: Sequence[str] = ()

    def tell(self, notice: Notice | None) -> None:
        """Show this notice, or none where there is none, or the last line holds it."""
        width = self.screen.size.width
        self._notice = notice if notice is not None and not notice.fits(width) else None
        self._lines = wrapped(legible(self._notice.sentence), width - 2) if self._notice else ()
        self.styles.height = max(1, len(self._lines))
        self.set_class(bool(self._lines), "-said")
        self.refresh()

    def on_resize(self) -> None:
        self.tell(self._notice)

    def render_line(self, y: int) -> Strip:
        width, base = self.size.width, self.rich_style
        if self._notice is None or y >= len(self._lines):
            return Strip.blank(max(0, width), base)
        style = base + Style(color=tones_of(self.app)[self._notice.tone], bold=True)
        words = [Segment(" ", base), Segment(self._lines[y], style)]
        return Strip(words).adjust_cell_length(width, base)


def _cells(pieces: Iterable[Wording]) -> int:
    return sum(cell_len(piece.text) + 2 for piece in pieces)


class TinyNotice(Widget):
    """All that is shown where the window is too small to work in. Once it is larger again, the keys
    go where they went before."""

    DEFAULT_CSS = "TinyNotice { display: none; width: 1fr; height: 1fr; min-width: 1; }"
    SAYS = "Window too small: Crewboard needs 60 x 16"
    _keys_went_to: Widget | None = None

    def on_mount(self) -> None:
        self.watch(self.screen, "focused", self._keys_go_to)

    def _keys_go_to(self, widget: Widget | None) -> None:
        self._keys_went_to = widget or self._keys_went_to

    def on_hide(self) -> None:
        self.call_after_refresh(self._give_keys_back)

    def _give_keys_back(self) -> None:
        widget = self._keys_went_to
        if self.screen.focused is None and widget is not None and widget.focusable:
            self.screen.set_focus(widget)

    def render_line(self, y: int) -> Strip:
        if y or self.size.width <= 0:
            return Strip.blank(max(0, self.size.width), self.rich_style)
        text = shortened(self.SAYS, self.size.width, plain=True)
        return Strip([Segment(text, self.rich_style)]).adjust_cell_length(self.size.width)
