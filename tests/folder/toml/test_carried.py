"""A table goes from one file to another in whichever way it is written, comments and all."""

from __future__ import annotations

import tomllib

import pytest

from crewboard.folder.cannot import CannotEdit
from crewboard.folder.toml.carried import lines_of, with_lines, without_lines

PAINT = ("tasks", "paint")
THERE = 'name = "Doors"\n\n[tasks.hang]\ntitle = "Hang"\n'
WAYS = {
    "a header of its own": """\
[tasks.sand]
title = "Sand"

# two coats
# at least
[tasks.paint] # thin
title = "Paint" # red
# it dries
after = [
  "sand", # by hand
]

[tasks.paint.hold] # of both
kind = "dry"

# the rest

[tasks.trim]
title = "Trim"
""",
    "dotted keys": """\
[tasks]
paint.title = "Paint" # red
paint.hold.kind = "dry" # of both
paint.after = ["sand"] # by hand
sand.title = "Sand" # two coats at least, thin
# it dries
""",
    "one line": """\
[tasks]
sand = { title = "Sand" } # it dries
paint = { title = "Paint", hold.kind = "dry", after = ["sand"] } # red, of both, by hand, thin
# two coats
""",
    "one line of them all": """\
name = "Roof" # red, of both, by hand, thin, it dries, two coats
tasks = { sand = { title = "Sand" }, paint.title = "Paint", paint.after = ["sand"] }
""",
    "the last one, without a line end": """\
[tasks.sand]
title = "Sand" # two coats, it dries

[tasks.paint] # thin
title = "Paint" # red
after = ["sand"] # by hand, of both""",
}
SAID = ("red", "of both", "by hand", "thin", "it dries", "two coats")


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
@pytest.mark.parametrize("way", WAYS)
def test_a_table_is_carried_with_all_that_is_said_of_it(way: str, line_end: str) -> None:
    text = WAYS[way].replace("\n", line_end)
    before = tomllib.loads(text)
    table = before["tasks"].pop("paint")
    lines = lines_of(text, PAINT)
    rest, there = without_lines(text, PAINT), with_lines(THERE, PAINT, lines, table)
    assert tomllib.loads(rest) == before
    assert tomllib.loads(there)["tasks"]["paint"] == table
    assert "\r" not in there
    for comment in SAID:
        assert (rest + there).count(comment) == 1, comment
    again = with_lines(rest, PAINT, lines, table) if "tasks = {" not in rest else text
    assert tomllib.loads(again) == tomllib.loads(text)
    assert f"{line_end}{line_end}{line_end}" not in again


def test_a_table_is_not_put_among_tables_on_one_line() -> None:
    with pytest.raises(CannotEdit, match="on one line"):
        with_lines("tasks = {}\n", PAINT, '[tasks.paint]\ntitle = "x"\n', {"title": "x"})
