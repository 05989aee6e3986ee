"""Pictures of the folder on a page: shown where they lie, else named, with why they are not."""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from typing import NamedTuple
from urllib.parse import quote

from crewboard.legible import legible
from crewboard.telling.report import PictureShown

_SHOWN_AS_PICTURE = (".jpg", ".jpeg", ".png", ".gif", ".webp", ".svg", ".avif")


class Album(NamedTuple):
    """Where the pictures of a page are: `to_folder` leads from where the page lies to the
    vehicle's folder ("../van/"), `wrong` says in a sentence why a file cannot be shown, and
    nothing where it can."""

    to_folder: str
    wrong: Callable[[str], str]


def figure(shown: PictureShown, album: Album | None, escaped: Callable[[str], str]) -> str:
    """A picture with its words, below them its path. Of what is no picture (a recording), or
    cannot be shown, only these are printed, with the reason."""
    path, why = f'<span class="says">{escaped(shown.file)}</span>', ""
    name = f"{escaped(shown.words)}<br>{path}" if shown.words else path
    if album is not None and shown.file.lower().endswith(_SHOWN_AS_PICTURE):
        why = album.wrong(shown.file)
        if not why:
            address = escape(album.to_folder + quote(shown.file))
            alt = escape(legible(shown.words))
            image = f'<img src="{address}" alt="{alt}">'
            return f"<figure>{image}<figcaption>{name}</figcaption></figure>"
    says = f" <i>Not shown: {escaped(why)}.</i>" if why else ""
    return f"<figure><figcaption>{name}{says}</figcaption></figure>"
