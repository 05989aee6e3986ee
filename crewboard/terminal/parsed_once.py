"""The stylesheets of the screens, each parsed when it is first met and not with each page again."""

from __future__ import annotations

from textual.css.stylesheet import Stylesheet


class ParsedOnce(Stylesheet):
    """Remembers what it parsed until a variable changes.

    The toolkit's own parses all sheets again, from the first letter, whenever a page or a dialog
    is opened for the first time: some 30 ms each. What is remembered is dropped by
    `set_variables`, so other tints are parsed anew.
    """

    def reparse(self) -> None:
        """Parse what came since. Raises `StylesheetError` as the toolkit's own does."""
        self.parse()
