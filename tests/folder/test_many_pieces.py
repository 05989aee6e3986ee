"""Many tables of pieces are read by their form: what comes out is what a TOML reader gives."""

from __future__ import annotations

from random import Random

import pytest

from crewboard.folder.read import piece_texts
from crewboard.folder.read.file_read import NO_FILE
from crewboard.folder.read.one_file import read_bytes
from crewboard.folder.read.piece_texts import TableOfTexts, parse_component
from crewboard.folder.toml.decode import parse_text
from tests.long_form import LONG

PATH = "components/frame.toml"
# What else may stand between the tables of pieces; most of it makes mistakes.
BETWEEN = (
    '[tasks.lay]\ntitle = "Lay"\n',
    "# [pieces.remark]\n",
    '[pieces.ribs]\nname = "Rib"\ncount = 3\n',
    '[pieces.ribs.2]\nname = "The second"\n',
    '[pieces.p3.1]\nname = "below a single one"\n',
    '[pieces.p5]\nname = "twice"\n',
    '[pieces."q u"]\nname = "quoted"\n',
    '[pieces.odd]\nname = ""\nas_found = "nonsense"\n',
    '[pieces.far]\nname = "Far"\nextent = "two hands"\n',
    '[pieces.keep]\nname = "Kept"\nkeep = true\n',
    '[pieces.key]\nname = "Unknown key"\ncolour = "red"\n',
    '[pieces.twice]\nname = "a"\nname = "b"\n',
    "[[pieces.p7]]\n",
    "[pieces]\n",
    "x = [\n[pieces.inside]\n]\n",
    "y = [\n",
    'about = """\n[pieces.text]\nname = "x"\n"""\n',
    "[pieces.bare]\n",
    '[pieces.torn]\nname = "its text goes\non"\n',
    "[broken\n",
)


def a_file(chance: Random, pieces: int = 12) -> str:
    parts = ['name = "Frame"\n']
    for number in range(pieces):
        parts.append(
            f'\n[pieces.p{number}]\nname = "Piece {number}"\nkind = "board"\n'
            + chance.choice(("", 'as_found = "original"\n', 'extent = "2.4 m"\n'))
        )
        if chance.random() < 0.12:
            parts.append("\n" + chance.choice(BETWEEN))
    return "".join(parts)


@pytest.fixture(autouse=True)
def _few_are_many(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(piece_texts, "FEWEST", 3)


def test_the_same_as_a_toml_reader_gives_in_the_same_order() -> None:
    taken_out = 0
    for seed in range(20_000 if LONG else 1500):
        text = a_file(Random(seed))
        read, known = parse_component(text), parse_text(text)
        assert read == known, text
        if isinstance(read, dict) and isinstance(known, dict):
            pieces = read["pieces"]
            assert list(pieces) == list(known["pieces"]), text
            taken_out += any(type(table) is TableOfTexts for table in pieces.values())
    assert taken_out > 500


def test_the_same_pieces_and_the_same_mistakes(monkeypatch: pytest.MonkeyPatch) -> None:
    for seed in range(4000 if LONG else 300):
        data = a_file(Random(seed)).encode()
        read = read_bytes(PATH, NO_FILE, data)
        with monkeypatch.context() as patch:
            patch.setattr(piece_texts, "FEWEST", 1_000_000)
            assert read == read_bytes(PATH, NO_FILE, data), data.decode()
