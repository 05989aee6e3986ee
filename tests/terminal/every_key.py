"""Every page and dialog of the screens, and every key that each binds, with the deed it does."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator
from typing import Any

from textual.app import App
from textual.binding import Binding
from textual.screen import Screen

import crewboard.terminal
from crewboard.terminal.app import CrewboardApp
from crewboard.terminal.dialogs.dialog import Dialog
from crewboard.terminal.page import Page

Binds = type[Screen[Any]] | type[App[Any]]


def _everything() -> None:
    for module in pkgutil.walk_packages(crewboard.terminal.__path__, "crewboard.terminal."):
        if not module.name.endswith("posix_driver"):
            importlib.import_module(module.name)


def _below(kind: type[Any]) -> Iterator[type[Any]]:
    for below in kind.__subclasses__():
        if below.__module__.startswith("crewboard."):
            yield below
            yield from _below(below)


def every_page() -> list[type[Page]]:
    """The pages, and what several of them share."""
    _everything()
    return list(dict.fromkeys(_below(Page)))


def every_dialog() -> list[type[Dialog[Any]]]:
    _everything()
    return list(dict.fromkeys(_below(Dialog)))


def keys_of(binds: Binds) -> list[tuple[str, str]]:
    """Each key that it binds itself, or takes by itself, with the deed."""
    bound = [
        (key, _deed(binding.action))
        for binding in binds.BINDINGS
        if isinstance(binding, Binding)
        for key in binding.key.split(",")
    ]
    return [*bound, *getattr(binds, "taken", {}).items()]


def _deed(action: str) -> str:
    """ "answer('release')" answers that something is to be released."""
    name, _, inside = action.partition("(")
    return inside.strip("')") if name == "answer" else name


def all_keys() -> list[tuple[str, str, str]]:
    """Where, key and deed, for the app, its pages and its dialogs."""
    places: list[Binds] = [CrewboardApp, *every_page(), *every_dialog()]
    return [(place.__name__, key, deed) for place in places for key, deed in keys_of(place)]
