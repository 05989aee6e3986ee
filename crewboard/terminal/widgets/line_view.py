"""What lists, prose and tables have in common: lines that they draw, in a view that scrolls."""

from __future__ import annotations

from textual.geometry import Size
from textual.scroll_view import ScrollView


class LineView(ScrollView):
    """The screen is laid out anew only where the scroll bar comes or goes.

    Setting `virtual_size` would do that each time, and every cell would be drawn again.
    """

    def reach(self, width: int, height: int) -> None:
        """Say how far the lines reach, in cells."""
        size = Size(width, height)
        if size == self.virtual_size:
            return
        room = self.container_size.height
        has_bar = height > room
        if not room or has_bar != self.show_vertical_scrollbar or self.styles.is_auto_height:
            self.virtual_size = size
            return
        self.set_reactive(LineView.virtual_size, size)
        if has_bar:
            self.vertical_scrollbar.window_virtual_size = height
        if self.scroll_offset.y > self.max_scroll_y:
            self.scroll_to(y=self.max_scroll_y, animate=False)
