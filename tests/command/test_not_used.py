"""What no crew uses, in a folder: told by `check` and `day`, refused by `begin` with any reason."""

from __future__ import annotations

from pathlib import Path

from tests.command.calling import Shell
from tests.command.trailer import make_trailer

INSTEAD = "Hand the sashes to a licensed trade."
CREW = '[people.ada]\nname = "Ada"\nadult = true\nlead = true\n'
BODY = 'name = "Body"\n[tasks.strip]\ntitle = "Clean the sashes"\nhazards = ["noise"]\n'


def test_the_folder_says_so_in_check_and_begin_and_cannot_take_it_back(
    tmp_path: Path, call: Shell
) -> None:
    make_trailer(tmp_path, CREW, BODY)
    own = tmp_path / "hazards.toml"
    own.write_text(f'[noise]\ndo_not_use = "{INSTEAD}"\n')
    told = call("check", tmp_path)
    assert told.code != 0
    assert '"Clean the sashes": noise is not used' in told.out
    at_ten = ("--by", "ada", "--at", "2026-05-02T10:00")
    refused = call(
        "begin", tmp_path, "strip", "--who", "ada", "--despite", "we must, today", *at_ten
    )
    assert refused.code != 0
    assert INSTEAD.rstrip(".") in refused.err + refused.out
    assert INSTEAD.rstrip(".") in call("day", tmp_path, "--at", "2026-05-02T10:00").out.replace(
        "\n", " "
    )
