"""Edits of plan files: the value meant, and no line touched that was not meant.

The values are checked with the standard library's reader, not with the one that the gate uses;
the lines with difflib.
"""

from __future__ import annotations

import datetime as dt
import difflib
import os
import random
import re
import tomllib
from typing import Any, NoReturn

import pytest
import tomlkit

from crewboard.folder.cannot import CannotEdit
from crewboard.folder.toml import edit
from crewboard.folder.toml.edit import add_table, remove, remove_table, rename_table, set_value
from crewboard.folder.toml.locate import Places
from crewboard.folder.toml.scan import KeyPath
from tests.folder.toml.hand_styled import hand_styled
from tests.folder.toml.test_locate import everything, leaves

FILES = 6000 if os.environ.get("CREWBOARD_LONG") else 250

PLAN = """\
# the cab's plan
name = 'Cab'   # as on the drawing
after = [
  "frame",  # bolts first
  "wiring"  # then the loom
]

# about the first task
[tasks.strip]  # old paint
name = "Strip"
size = { long = 1,wide=2 }

# paint it
[tasks.paint]
name = "Paint"
# hours = 3

# the end
"""


def changed_lines(old: str, new: str) -> tuple[list[str], list[str]]:
    """The lines that went and the lines that came, with their line ends."""
    one, two = old.splitlines(keepends=True), new.splitlines(keepends=True)
    went, came = list[str](), list[str]()
    for kind, a, b, c, d in difflib.SequenceMatcher(None, one, two, False).get_opcodes():
        if kind != "equal":
            went += one[a:b]
            came += two[c:d]
    return went, came


def read(text: str) -> dict[str, Any]:
    return tomllib.loads(text.removeprefix("\ufeff"))


def applied(data: Any, path: KeyPath, value: Any) -> Any:
    """The old value with the one change, in plain Python; `...` takes the thing away."""
    data = list(data) if isinstance(data, list) else dict(data)
    key: Any = path[0]
    if len(path) > 1:
        data[key] = applied(data[key], path[1:], value)
    elif value is ...:
        del data[key]
    else:
        data[key] = value
    return data


def comment_lines(text: str) -> list[str]:
    """Whole-line comments; `# second` is a line of a text that the random files use."""
    lines = [line for line in text.lstrip("\ufeff").splitlines() if line.lstrip()[:1] == "#"]
    return [line for line in lines if line.strip() != "# second"]


def assert_same_style(old: str, new: str) -> None:
    """Byte-order mark, line ends and the last line's end stay as they were."""
    assert new.startswith("\ufeff") == old.startswith("\ufeff")
    ends = set(re.findall(r"\r?\n", old))
    if len(ends) == 1:
        assert set(re.findall(r"\r?\n", new)) <= ends
    if old.strip("\ufeff \t\r\n") and new.strip("\ufeff \t\r\n"):
        assert new.endswith("\n") == old.endswith("\n")


def only_the_last_line(went: list[str], old: str) -> bool:
    """A line added behind a last line without line end gives that line one."""
    return went == [] or (not old.endswith("\n") and went == old.splitlines(keepends=True)[-1:])


@pytest.mark.parametrize("value", ["Big cab", "it's", 3, True, 2.5, dt.date(2026, 5, 2), ["a"]])
def test_a_new_value_takes_the_old_ones_place_and_nothing_else_moves(value: Any) -> None:
    for seed in range(FILES // 5):
        text = hand_styled(seed)
        data = read(text)
        found = [p for p in leaves(data) if not isinstance(p[-1], int)]
        if not found:
            continue
        path = random.Random(seed).choice(found)
        new = set_value(text, path, value)
        assert repr(read(new)) == repr(applied(data, path, value)), (seed, path)
        at = Places(text).value(path).line - 1
        lines, new_lines = text.splitlines(True), new.splitlines(True)
        assert new_lines[:at] == lines[:at]
        tail = len(new_lines) - at - 1
        assert tail == 0 or new_lines[-tail:] == lines[-tail:], (seed, path)
        assert comment_lines(new)[-3:] == comment_lines(text)[-3:] or "#" in str(leaves(data)[path])
        if text.endswith("\n"):
            assert_same_style(text, new)


def test_a_new_key_goes_behind_the_last_of_its_table_and_no_line_is_lost() -> None:
    made = 0
    for seed in range(FILES):
        text = hand_styled(seed)
        dice = random.Random(seed)
        places = Places(text)
        tables = [p for p, v in everything(read(text)) if isinstance(v, dict)]
        path = (*dice.choice(tables), "a new key")
        value: Any = dice.choice(["x", 3, ["a", "b"], dt.time(9, 30), "two\nlines", {"q": [1]}])
        new = set_value(text, path, value)
        meant = applied(read(text), path, value)
        assert leaves(read(new)) == leaves(meant), (seed, path)
        went, came = changed_lines(text, new)
        inline = path[:-1] in places and text_at(text, places.value(path[:-1])) == "{"
        if inline or len(went) == 1:
            assert len(went) == 1 or only_the_last_line(went, text)
        else:
            assert only_the_last_line(went, text), (seed, path)
        assert "a new key" in "".join(came)
        assert comment_lines(new) == comment_lines(text)
        assert_same_style(text, new)
        made += 1
    assert made == FILES


def text_at(text: str, place: Any) -> str:
    lines = text.removeprefix("\ufeff").split("\n")
    return str(lines[place.line - 1][place.column - 1])


def test_a_new_table_adds_lines_and_takes_none() -> None:
    for seed in range(FILES):
        text = hand_styled(seed)
        tables = [p for p, v in everything(read(text)) if isinstance(v, dict)]
        parent = random.Random(seed).choice(tables)
        new = add_table(text, (*parent, "a new table"), {"name": "x", "after": ["y"]})
        meant = applied(read(text), (*parent, "a new table"), {"name": "x", "after": ["y"]})
        assert leaves(read(new)) == leaves(meant), (seed, parent)
        went, came = changed_lines(text, new)
        if "[" in "".join(came) and "a new table" in "".join(came) and len(came) > 2:
            assert only_the_last_line(went, text), (seed, parent)
        else:
            assert len(went) <= 1
        assert comment_lines(new) == comment_lines(text)
        assert_same_style(text, new)


def test_what_is_removed_takes_its_own_lines_and_no_other() -> None:
    for seed in range(FILES):
        text = hand_styled(seed)
        data = read(text)
        found = [p for p, _ in everything(data) if p]
        if not found:
            continue
        path = random.Random(seed).choice(found)
        new = remove(text, path)
        assert leaves(read(new)) == leaves(applied(data, path, ...)), (seed, path)
        went, came = changed_lines(text, new)
        assert len(came) <= len(went)
        rest = iter(text.splitlines())
        kept = [line for line in new.splitlines() if line not in {c.rstrip("\r\n") for c in came}]
        assert all(line in rest for line in kept), (seed, path)  # in their old order
        assert new.startswith("\ufeff") == text.startswith("\ufeff")


def test_a_renamed_table_changes_only_lines_that_carry_its_name() -> None:
    renamed = 0
    for seed in range(FILES):
        text = hand_styled(seed)
        data = read(text)
        tables = [
            p for p, v in everything(data) if isinstance(v, dict) and p and isinstance(p[-1], str)
        ]
        if not tables:
            continue
        old = random.Random(seed).choice(tables)
        new = rename_table(text, old, (*old[:-1], "another name"))
        found = read(new)
        below: Any = data
        for key in old:
            below = below[key]
        meant = applied(applied(data, old, ...), (*old[:-1], "another name"), below)
        assert leaves(found) == leaves(meant), (seed, old)
        went, came = changed_lines(text, new)
        assert len(went) == len(came) >= 1
        assert all("another name" in line for line in came)
        assert_same_style(text, new)
        renamed += 1
    assert renamed > FILES // 3


def test_a_list_changed_item_by_item_keeps_the_comments_of_what_stays() -> None:
    changed = 0
    for seed in range(FILES):
        text = hand_styled(seed)
        data = read(text)
        dice = random.Random(seed)
        places = Places(text)
        lists = [
            (p, v)
            for p, v in everything(data)
            if isinstance(v, list)
            and text_at(text, places.value(p)) == "["
            and not any(isinstance(item, (list, dict)) for item in v)  # they take theirs along
        ]
        if not lists:
            continue
        path, old = dice.choice(lists)
        new_list = list(old)
        for _ in range(dice.randrange(1, 4)):
            at = dice.randrange(len(new_list) + 1)
            if dice.random() < 0.6 or not new_list:
                new_list.insert(at, dice.choice(["x", 3, {"q": "1"}]))
            else:
                new_list.pop(min(at, len(new_list) - 1))
        new = set_value(text, path, new_list)
        assert leaves(read(new)) == leaves(applied(data, path, new_list)), (seed, path)
        assert comment_lines(new) == comment_lines(text), (seed, path)
        changed += 1
    assert changed > FILES // 10


def test_quoting_and_the_comment_behind_a_value_stay() -> None:
    assert "name = 'Lower cab'   # as on the drawing\n" in set_value(PLAN, ["name"], "Lower cab")
    assert 'name = "it\'s"   # as on the drawing\n' in set_value(PLAN, ["name"], "it's")


def test_setting_what_is_there_already_changes_nothing() -> None:
    assert set_value(PLAN, ["after"], ["frame", "wiring"]) == PLAN


def test_true_is_not_one_and_one_is_not_one_point_nought() -> None:
    text = "a = 1\n"
    assert set_value(text, ["a"], True) == "a = true\n"
    assert set_value(text, ["a"], 1.0) == "a = 1.0\n"


def test_text_of_several_lines_is_written_as_several_lines() -> None:
    new = set_value(PLAN, ["tasks", "strip", "note"], 'two\n"""lines""" \\ and a blank \nend')
    assert read(new)["tasks"]["strip"]["note"] == 'two\n"""lines""" \\ and a blank \nend'
    went, came = changed_lines(PLAN, new)
    assert went == []
    assert len(came) == 4


def test_a_new_task_stands_behind_the_last_with_one_blank_line_between() -> None:
    new = add_table(PLAN, ["tasks", "sand"], {"name": "Sand", "after": ["strip"]})
    went, came = changed_lines(PLAN, new)
    assert went == []
    block = '# hours = 3\n\n[tasks.sand]\nname = "Sand"\nafter = ["strip"]\n\n# the end\n'
    assert new.endswith(block)
    assert len(came) == 4


def test_the_first_task_of_a_file_goes_to_its_end() -> None:
    assert add_table('name = "cab"\n', ["tasks", "a"], {"hours": 1}) == (
        'name = "cab"\n\n[tasks.a]\nhours = 1\n'
    )
    assert add_table("", ["tasks", "a"], {"hours": 1}) == "[tasks.a]\nhours = 1\n"
    assert add_table("a = 1", ["t"], {"b": 2}) == "a = 1\n\n[t]\nb = 2"


def test_a_removed_task_leaves_one_blank_line_and_the_comments_of_its_neighbours() -> None:
    text = "[t.a]\nx = 1\n\n[t.b]\nx = 2\n\n# about c\n[t.c]\nx = 3\n"
    assert remove_table(text, ["t", "b"]) == "[t.a]\nx = 1\n\n# about c\n[t.c]\nx = 3\n"
    assert remove_table(text, ["t", "c"]) == "[t.a]\nx = 1\n\n[t.b]\nx = 2\n\n# about c\n"
    assert remove_table(text, ["t", "a"]) == "[t.b]\nx = 2\n\n# about c\n[t.c]\nx = 3\n"


def test_a_comment_that_touches_the_next_table_is_the_next_tables() -> None:
    text = "[t.a]\nx = 1\n# about b\n[t.b]\nx = 2\n# y = 3\n\n[u]\n"
    assert remove_table(text, ["t", "a"]) == "# about b\n[t.b]\nx = 2\n# y = 3\n\n[u]\n"
    assert remove_table(text, ["t", "b"]) == "[t.a]\nx = 1\n# about b\n\n[u]\n"
    assert add_table(text, ["t", "c"], {}) == text.replace("\n\n[u]", "\n\n[t.c]\n\n[u]")


def test_a_new_table_between_two_that_touch_has_a_blank_line_on_either_side() -> None:
    text = "[t.a]\nx = 1\n[u]\ny = 2\n"
    assert add_table(text, ["t", "b"], {"z": 3}) == ("[t.a]\nx = 1\n\n[t.b]\nz = 3\n\n[u]\ny = 2\n")


def test_a_table_goes_with_the_tables_below_it() -> None:
    text = "[t.a]\nx = 1\n[t.b]\n[t.a.deep]\ny = 1\n\n[t.c]\n"
    assert remove_table(text, ["t", "a"]) == "[t.b]\n\n[t.c]\n"


def test_a_renamed_task_keeps_its_place_and_the_tables_below_it() -> None:
    text = "[t.a]\nx = 1\n[t.'a'.deep]\ny = 1\n[t.b]\n"
    assert rename_table(text, ["t", "a"], ["t", "new a"]) == (
        '[t."new a"]\nx = 1\n[t."new a".deep]\ny = 1\n[t.b]\n'
    )


@pytest.mark.parametrize(
    ("edit", "words"),
    [
        (lambda: set_value("a = \n", ["a"], 1), "the file is broken in line 1"),
        (lambda: remove(PLAN, ["tasks", "sand"]), "tasks.sand is not there"),
        (lambda: remove(PLAN, []), "nothing was named"),
        (lambda: remove_table(PLAN, ["name"]), "name is not a table"),
        (lambda: add_table(PLAN, ["tasks", "paint"], {}), "tasks.paint is there already"),
        (lambda: rename_table(PLAN, ["tasks", "paint"], ["paint"]), "only where it stands"),
        (lambda: rename_table(PLAN, ["tasks", "paint"], ["tasks", "strip"]), "is there already"),
        (lambda: set_value(PLAN, ["tasks", "strip"], "x"), "a table stands in that place"),
        (lambda: set_value(PLAN, ["name", "x"], 1), "name.x is not there"),
        (lambda: set_value(PLAN, ["name"], "\ud800"), "half a character"),
        (lambda: set_value(PLAN, ["name"], 2**63), "too large"),
        (lambda: set_value(PLAN, ["after", 9], "x"), "after.9 is not there"),
    ],
)
def test_what_cannot_be_done_is_said_in_a_sentence(edit: Any, words: str) -> None:
    with pytest.raises(CannotEdit) as caught:
        edit()
    assert words in caught.value.sentence


@pytest.mark.parametrize(
    ("written", "value", "says"),
    [
        ('"Oak"   # from the mill', "Ash", '"Ash"   # from the mill'),
        ("'Oak' # from the mill", "Ash", "'Ash' # from the mill"),
        ("3 # boards", 4, "4 # boards"),
        ("2026-05-02  #x", dt.date(2026, 5, 3), "2026-05-03  #x"),
        ("true", False, "false"),
        ('"""\nOak\n""" # from the mill', "Ash\nor oak", '"""\nAsh\nor oak""" # from the mill'),
        ('"Oak"', "Ash \u202e", '"Ash \\u202E"'),  # no character that turns the line around
    ],
)
def test_one_value_in_the_place_of_another_is_tomlkits_own_edit(
    written: str, value: Any, says: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With the ways of our own shut: where tomlkit's is switched off, this cannot be done."""

    def shut(*_: object) -> NoReturn:
        raise AssertionError("done by a splice of our own")

    monkeypatch.setattr(edit, "setting_splices", shut)
    monkeypatch.setattr(edit, "whole_value_splices", shut)
    before, after = "# top\n[a] # of a\nx = 1\nb = ", "\n# next\n[[c]]\nb = 2\n"
    text = set_value(f"{before}{written}{after}", ("a", "b"), value)
    assert text == f"{before}{says}{after}"
    crlf = f"{before}{written}{after}".replace("\n", "\r\n")
    assert set_value(crlf, ("a", "b"), value) == text.replace("\n", "\r\n")


def test_where_tomlkit_would_change_more_than_the_value_the_splice_of_our_own_is_made() -> None:
    """Tables of one list with another between them: tomlkit writes them in another order."""
    text = "[[a]]\nx = 1\n[b]\nx = 2\n[[a]]\nx = 3\n"
    assert tomlkit.parse(text).as_string() != text
    assert set_value(text, ("b", "x"), 5) == text.replace("x = 2", "x = 5")
