"""`crewboard plan-keys`: what can be said in the plan's files."""

from __future__ import annotations

from crewboard.folder.read.keys import FILES
from tests.command.calling import Shell


def test_the_keys_are_printed_a_line_each_and_as_json(call: Shell) -> None:
    out = call("plan-keys").out
    for file, keys in FILES.items():
        assert f"{file}" in out.splitlines()
        for each in keys:
            assert any(line.strip().startswith(f"{each.key} = ") for line in out.splitlines()), (
                each.key
            )
    form = call("plan-keys", "--json").form
    assert [each["file"] for each in form["files"]] == list(FILES)
    only = call("plan-keys", "crew", "--json").form
    assert [each["file"] for each in only["files"]] == ["crew.toml"]
    assert call("plan-keys", "crow").code == 1
