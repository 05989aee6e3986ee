"""Handing a page or a file to the desktop's own programs, where there is a desktop.

Only a path on the disk is handed over, whole and by itself: nothing is a command line, and no
address of the net is ever opened.
"""

from __future__ import annotations

import os
import sys
from shutil import which
from subprocess import DEVNULL, run
from threading import Thread


def has_desktop() -> bool:
    """Whether a program with windows can be opened: not in a bare terminal or over a line."""
    if sys.platform in ("win32", "darwin"):
        return not os.environ.get("SSH_CONNECTION")
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def open_page(path: str) -> None:
    """Hand the page to the browser, whose own words do not go onto the screen."""
    import webbrowser
    from pathlib import Path

    Thread(target=webbrowser.open, args=(Path(path).as_uri(),), daemon=True).start()


def open_file(path: str) -> str:
    """Hand a file to the program that the desktop has for it; why not, in a sentence, empty where
    it was handed over."""
    whole = os.path.abspath(path)
    if not has_desktop():
        return "there is no desktop here to open it on"
    if sys.platform == "win32":
        os.startfile(whole)
        return ""
    opener = "/usr/bin/open" if sys.platform == "darwin" else which("xdg-open")
    if not opener:
        return "this desktop has no program that opens files (xdg-open)"
    streams = {"stdin": DEVNULL, "stdout": DEVNULL, "stderr": DEVNULL}
    # Waited for beside the screens, so that no ended program is left behind.
    Thread(target=run, args=([opener, whole],), kwargs=streams, daemon=True).start()
    return ""
