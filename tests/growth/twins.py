"""Folders of the same work on several pieces, written once for a series and task by task."""

from __future__ import annotations

from tests.growth.shapes import Texts

CHAIN = 6  # tasks of each piece, one after the other


def _folder(components: Texts) -> Texts:
    vehicle = 'name = "Van"\n[work_days]\nevery = ["saturday"]\n'
    crew = '[people.ada]\nname = "Ada"\nadult = true\n'
    return {"vehicle.toml": vehicle, "crew.toml": crew, **components}


def _pieces(pieces: int) -> str:
    return f'[pieces.ribs]\nname = "Rib"\ncount = {pieces}\n'


def with_series(tasks: int, components: int) -> Texts:
    """About so many tasks, by a table for each series."""
    pieces = tasks // CHAIN // components
    table = "".join(
        f'[tasks.t{n}]\ntitle = "T{n}"\neach = ["ribs"]\nhours = [1, 2, 3]\n'
        + (f'after = ["t{n - 1}"]\n' if n else "")
        for n in range(CHAIN)
    )
    text = _pieces(pieces) + table
    return _folder({f"components/c{c}.toml": f'name = "C{c}"\n{text}' for c in range(components)})


def by_hand(tasks: int, components: int) -> Texts:
    """The same tasks, each with a table of its own."""
    pieces = tasks // CHAIN // components
    table = "".join(
        f'[tasks.t{n}-{piece}]\ntitle = "T{n}: Rib {piece}"\npieces = ["ribs/{piece}"]\n'
        "hours = [1, 2, 3]\n" + (f'after = ["t{n - 1}-{piece}"]\n' if n else "")
        for n in range(CHAIN)
        for piece in range(1, pieces + 1)
    )
    text = _pieces(pieces) + table
    return _folder({f"components/c{c}.toml": f'name = "C{c}"\n{text}' for c in range(components)})
