"""Layouts at which text editing of TOML is known to go wrong, each with the whole text meant."""

from __future__ import annotations

import tomllib

from crewboard.folder.toml.edit import add_table, remove, remove_table, rename_table, set_value


def test_an_array_whose_last_line_is_a_comment_gets_its_comma() -> None:
    text = 'after = [\n  "frame", # first\n  "wiring" # last\n  # and no more\n]\n'
    assert set_value(text, ["after"], ["frame", "wiring", "paint"]) == (
        'after = [\n  "frame", # first\n  "wiring", # last\n  "paint"\n  # and no more\n]\n'
    )


def test_an_empty_array_with_a_comment_in_it_takes_an_item() -> None:
    text = "after = [\n  # nothing yet\n]\n"
    assert tomllib.loads(set_value(text, ["after"], ["a"])) == {"after": ["a"]}
    assert "# nothing yet" in set_value(text, ["after"], ["a"])


def test_the_last_table_of_a_list_can_go_and_another_come() -> None:
    text = "[[parts]]\nname = 'a'\n\n[[parts]]\nname = 'b'\n\n[crew]\nx = 1\n"
    without = remove_table(text, ["parts", 1])
    assert without == "[[parts]]\nname = 'a'\n\n[crew]\nx = 1\n"
    assert add_table(without, ["parts", 1], {"name": "c"}) == (
        "[[parts]]\nname = 'a'\n\n[[parts]]\nname = \"c\"\n\n[crew]\nx = 1\n"
    )


def test_the_only_table_of_a_list_can_go_and_another_come() -> None:
    text = "a = 1\n\n[[parts]]\nname = 'a'\n\n[crew]\nx = 1\n"
    without = remove_table(text, ["parts", 0])
    assert tomllib.loads(without) == {"a": 1, "crew": {"x": 1}}
    again = add_table(without, ["parts", 0], {"name": "c"})
    assert tomllib.loads(again) == {"a": 1, "crew": {"x": 1}, "parts": [{"name": "c"}]}


def test_nested_lists_of_tables_keep_their_order_and_their_owners() -> None:
    text = "[[a]]\nx = 1\n[[a.b]]\ny = 1\n[[a.b]]\ny = 2\n[[a]]\nx = 2\n[[a.b]]\ny = 3\n"
    without = remove_table(text, ["a", 0, "b", 1])
    assert without == "[[a]]\nx = 1\n[[a.b]]\ny = 1\n[[a]]\nx = 2\n[[a.b]]\ny = 3\n"
    again = add_table(without, ["a", 0, "b", 1], {"y": 9})
    assert tomllib.loads(again) == {
        "a": [{"x": 1, "b": [{"y": 1}, {"y": 9}]}, {"x": 2, "b": [{"y": 3}]}]
    }
    assert tomllib.loads(remove_table(text, ["a", 0])) == {"a": [{"x": 2, "b": [{"y": 3}]}]}


def test_a_table_below_dotted_keys_does_not_swallow_the_keys_that_follow() -> None:
    text = "p.a = 1\nq = 2\n\n[r]\nz = 3\n"
    new = add_table(text, ["p", "sub"], {"b": 1})
    assert tomllib.loads(new) == {"p": {"a": 1, "sub": {"b": 1}}, "q": 2, "r": {"z": 3}}
    assert set_value(text, ["p", "b"], 5) == "p.a = 1\np.b = 5\nq = 2\n\n[r]\nz = 3\n"


def test_an_array_of_inline_tables_keeps_every_line_that_is_not_meant() -> None:
    text = "holds = [\n  { a = 1 },\n  {a=2},   # odd\n  { a = 3 , b = 4 },\n]\n"
    assert set_value(text, ["holds", 1, "a"], 9) == text.replace("{a=2}", "{a=9}")
    assert set_value(text, ["holds"], [{"a": 1}, {"a": 2}, {"a": 3, "b": 4}, {"a": 5}]) == (
        text.replace("]\n", "  { a = 5 },\n]\n")
    )


def test_a_file_with_crlf_keeps_it_in_every_new_line() -> None:
    text = "a = 1\r\nb = [\r\n  1,\r\n]\r\n\r\n[t.x]\r\ny = 1\r\n"
    new = set_value(text, ["c"], "two\nlines")
    new = set_value(new, ["b"], [1, 2])
    new = add_table(new, ["t", "z"], {"q": "one\ntwo"})
    new = set_value(new, ["t", "x", "w"], 3)
    assert "\n" not in new.replace("\r\n", "")
    assert tomllib.loads(new) == {
        "a": 1,
        "b": [1, 2],
        "c": "two\nlines",
        "t": {"x": {"y": 1, "w": 3}, "z": {"q": "one\ntwo"}},
    }


def test_lists_of_tables_with_others_between_are_not_put_in_another_order() -> None:
    text = "[[a]]\nx = 1\n[b]\ny = 2\n[[a]]\nx = 3\n"
    assert set_value(text, ["b", "y"], 9) == text.replace("y = 2", "y = 9")
    assert set_value(text, ["a", 1, "x"], 9) == text.replace("x = 3", "x = 9")
    assert remove_table(text, ["a", 0]) == "[b]\ny = 2\n[[a]]\nx = 3\n"


def test_a_new_key_stands_before_the_comment_of_the_next_table() -> None:
    text = "[a]\nx = 1\n\n# about b\n[b]\ny = 2\n"
    assert set_value(text, ["a", "z"], 3) == "[a]\nx = 1\nz = 3\n\n# about b\n[b]\ny = 2\n"


def test_a_new_key_of_the_whole_file_stands_above_the_first_tables_comment() -> None:
    text = "# the cab\n\n# about b\n[b]\ny = 2\n"
    assert set_value(text, ["z"], 3) == "# the cab\n\nz = 3\n\n# about b\n[b]\ny = 2\n"


def test_a_removed_table_of_a_list_leaves_its_neighbours_comment() -> None:
    text = "[[a]]\nx = 1\n\n# about the second\n[[a]]\nx = 2\n"
    assert remove_table(text, ["a", 0]) == "# about the second\n[[a]]\nx = 2\n"


def test_a_table_that_only_its_children_made_gets_a_header_of_its_own() -> None:
    text = "# all tasks\n[tasks.a]\nx = 1\n"
    assert set_value(text, ["tasks", "note"], "n") == (
        '[tasks]\nnote = "n"\n\n# all tasks\n[tasks.a]\nx = 1\n'
    )


def test_keys_in_one_line_tables_come_and_go_with_their_commas() -> None:
    text = "size = { long = 1,wide=2, deep.at = 3, deep.by = 4 }  # cm\n"
    assert remove(text, ["size", "long"]) == "size = { wide=2, deep.at = 3, deep.by = 4 }  # cm\n"
    assert remove(text, ["size", "deep"]) == "size = { long = 1,wide=2 }  # cm\n"
    assert set_value(text, ["size", "high"], 5) == text.replace(" }", ", high = 5 }")
    assert set_value(text, ["size", "deep", "z"], 5) == text.replace(" }", ", deep.z = 5 }")
    assert set_value("a = {}\n", ["a", "b"], 1) == "a = { b = 1 }\n"


def test_a_key_in_a_string_or_a_comment_is_not_taken_for_the_key() -> None:
    text = 'note = """\n[tasks.a]\nx = 1\n"""\n# [tasks.a]\n# x = 2\n[tasks.a]\nx = 3 # x = 4\n'
    assert set_value(text, ["tasks", "a", "x"], 5) == text.replace("x = 3", "x = 5")
    assert rename_table(text, ["tasks", "a"], ["tasks", "b"]).count("tasks.b") == 1


def test_a_byte_order_mark_stays_at_the_very_start() -> None:
    assert set_value("\ufeff[a]\nx = 1\n", ["z"], 1) == "\ufeffz = 1\n\n[a]\nx = 1\n"
    assert remove("\ufeffa = 1\nb = 2\n", ["a"]) == "\ufeffb = 2\n"


def test_an_indented_file_gets_indented_lines() -> None:
    text = "[a]\n  x=1\n"
    assert set_value(text, ["a", "y"], 2) == "[a]\n  x=1\n  y=2\n"
    assert set_value(text, ["a", "y = z"], 2) == '[a]\n  x=1\n  "y = z"=2\n'
