"""How the command line behaves in a shell: exit codes, help, streams, and whatever is typed."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from crewboard.command.catalogue import all_commands
from crewboard.command.exits import Exit, WrongCall
from crewboard.command.run import command_of
from crewboard.command.typed import Call, Command, Option, Word, read_call
from tests.command.calling import REPOSITORY, SAMPLE, Shell, process
from tests.folder.a_vehicle import FILES, make

# Classes of strings that break programs: escape codes, clipboard and link codes, markup, zero
# width, direction changes, wide and combining characters, quotes, formulas, format signs.
NAUGHTY = [
    "[/] [bold]x[/bold] [@click=app.quit]y[/]",
    "\x1b[31mred\x1b[0m",
    "\x1b]52;c;aGk=\x07",
    "\x1b]8;;http://x.invalid\x07link\x1b]8;;\x07",
    "a\u202eb\u2066c",
    "zero\u200bwidth\ufeff",
    "tab\tand\nline",
    "\x9b31m C1",
    "漢字かな交じり文",
    "ñé ö \u0301\u0301",
    "{0} %s %n ${HOME} `id`",
    "'; DROP TABLE tasks; --",
    "\"quotes\" 'and' \\ backslash",
    "=1+1",
    "x" * 3000,
    "\U0001f6a7",
]


@pytest.mark.parametrize("name", all_commands())
def test_every_command_explains_itself_with_an_example_that_can_be_typed(
    call: Shell, name: str
) -> None:
    ended = call(name, "--help")
    assert ended.code == 0
    assert ended.err == ""
    command = command_of(name)
    assert ended.out.startswith(f"crewboard {name}")
    assert command.examples
    for example in command.examples:
        import shlex

        words = shlex.split(example.partition(" > ")[0])
        assert words[:2] == ["crewboard", name]
        read_call(name, command, words[2:], None)  # type: ignore[arg-type]
        assert example in ended.out


def test_the_overview_lists_every_command(call: Shell) -> None:
    out = call("--help").out
    assert all(f"\n  {name} " in out for name in all_commands())
    assert call("help").out == out


@pytest.mark.parametrize(
    ("typed", "code", "says"),
    [
        (["dya", "."], 2, 'did you mean "day"?'),
        (["day"], 2, "DIR is missing"),
        (["day", ".", "more"], 2, 'there is a word too many: "more"'),
        (["day", ".", "--att", "x"], 2, 'did you mean "--at"?'),
        (["day", ".", "--at"], 2, "--at needs a value"),
        (["day", ".", "--json=yes"], 2, "--json takes no value"),
        (["day", "/no/such/folder"], 1, "there is no folder"),
        (["check", "/no/such/folder"], 1, "no folder"),
        (["day", "VAN", "--at", "soon"], 2, '"soon" is not a moment'),
        (["day", "VAN", "--at", "2026-05-02T09:00Z"], 2, "has an offset from UTC"),
        (["hours", "VAN", "ada", "many"], 2, '"many" is not a number of hours'),
        (["hours", "VAN", "ada", "nan"], 2, '"nan" is not a number of hours'),
        (["hours", "VAN", "ada", "25", "scrape"], 1, "cannot be one person's day"),
        (["hours", "VAN", "nobody", "1"], 1, 'there is no person "nobody"'),
        (["report", "weather", "VAN"], 2, 'there is no report "weather"'),
        (["hold", "VAN", "glued"], 2, 'there is no hold "glued"'),
        (["new", "VAN"], 1, "this folder holds a vehicle already"),
        (["screenshot", "VAN"], 2, "say into which file"),
        (["screenshot", "VAN", "--out", "x.svg", "--size", "big"], 2, '"big" is not a size'),
        (["take-back", "VAN", "zzz"], 1, 'there is no entry "zzz"'),
    ],
)
def test_what_is_typed_wrongly_is_told_in_a_sentence(
    call: Shell, van: Path, typed: list[str], code: int, says: str
) -> None:
    ended = call(*(str(van) if each == "VAN" else each for each in typed))
    assert (ended.code, ended.out) == (code, "")
    assert says in ended.err
    assert "Traceback" not in ended.err


def test_an_option_takes_all_words_up_to_the_next_option() -> None:
    command = Command(
        lambda _: Exit.FINE, "", (Word("DIR", ""), Word("TASK", "")),
        (Option("who", "", "WHO", many=True), Option("at", "", "MOMENT"), Option("json", "")),
    )  # fmt: skip
    typed = ["d", "t", "--who", "ada", "tom", "--at=9:00", "--json", "--who", "kim"]
    read: Call = read_call("begin", command, typed, None)  # type: ignore[arg-type]
    assert (read.word("DIR"), read.word("TASK")) == ("d", "t")
    assert read.every("who") == ("ada", "tom", "kim")
    assert read.option("at") == "9:00"
    assert read.given("json")
    dashed = read_call("begin", command, ["d", "--", "--odd"], None)  # type: ignore[arg-type]
    assert dashed.word("TASK") == "--odd"
    with pytest.raises(WrongCall, match="no option --wo"):
        read_call("begin", command, ["d", "t", "--wo", "x"], None)  # type: ignore[arg-type]


@pytest.mark.parametrize("text", NAUGHTY, ids=range(len(NAUGHTY)))
def test_any_text_shows_as_typed_and_steers_nothing(call: Shell, van: Path, text: str) -> None:
    at = ("--at", "2026-05-16T10:00", "--by", "ada")
    written = call("note", van, text, "--task", "lay", *at)
    assert written.code == 0, written.err
    kept = call("note", van, text, "--json", *at).form["entries"][0]
    assert kept["text"] == text
    seen = [
        call("log", van).out,
        call("day", van, *at[:2]).out,
        call("why", van, text).err,
        call("day", text).err,
        call("report", "day", van, *at[:2]).out,
        call("check", van, *at[:2]).out,
    ]
    for out in seen:
        assert not set(out) & {"\x1b", "\x07", "\x9b", "\u202e", "\u2066", "\u200b", "\ufeff", "\t"}
    if text.isprintable() and "x" * 100 not in text:
        assert "".join(text.split()) in "".join(seen[0].split())


def test_texts_of_the_plan_are_shown_as_typed_too(call: Shell, tmp_path: Path) -> None:
    nasty = r"[bold]\u001b[31m\u202e{0} <b>"
    files = {path: text.encode() for path, text in FILES.items()}
    files["components/deck.toml"] = (
        FILES["components/deck.toml"].replace('"Lay the boards"', f'"{nasty}"').encode()
    )
    van = make(tmp_path / "van", files)
    for typed in (["day"], ["why", "deck/lay"], ["then", "deck/lay"], ["task", "deck/lay"],
                  ["vehicle", "--tasks"]):  # fmt: skip
        name, *rest = typed
        out = call(name, van, *rest, "--at", "2026-05-03T10:00").out
        assert "[bold]␛[31m<U+202E>{0} <b>" in " ".join(out.split())


def test_a_stream_that_knows_few_letters_gets_their_numbers(van: Path) -> None:
    ended = process(
        "note", van, "Grüße 漢", "--by", "ada", env={"PYTHONIOENCODING": "ascii"}
    )  # fmt: skip
    assert ended.returncode == 0
    assert b"Gr\\xfc\\xdfe \\u6f22" in ended.stdout


def test_a_reader_that_stops_early_ends_it_quietly() -> None:
    program = [sys.executable, "-m", "crewboard", "log", str(SAMPLE)]
    run = subprocess.Popen(program, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=REPOSITORY)
    assert run.stdout is not None
    assert run.stderr is not None
    run.stdout.read(10)
    run.stdout.close()
    assert run.stderr.read() == b""
    assert run.wait(30) == 0
    run.stderr.close()


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="needs a full device")
def test_a_full_disk_behind_the_output_is_told(van: Path) -> None:
    with open("/dev/full", "w") as full:
        run = subprocess.run(
            [sys.executable, "-m", "crewboard", "day", str(van)],
            stdout=full, stderr=subprocess.PIPE, cwd=REPOSITORY,
        )  # fmt: skip
    assert run.returncode == Exit.DISK
    assert b"Traceback" not in run.stderr
    assert b"No space left" in run.stderr


@contextmanager
def heard(number: int) -> Iterator[None]:
    """The programs begun meanwhile hear the signal, also where the tests were told not to."""
    before = signal.signal(number, signal.SIG_DFL)
    try:
        yield
    finally:
        signal.signal(number, before)


@pytest.mark.skipif(os.name == "nt", reason="signals differ there")
def test_ctrl_c_ends_it_without_a_word(van: Path) -> None:
    """While another writer holds the folder's lock, a command waits; then the person gives up."""
    from crewboard.folder.disk.lock import folder_lock

    program = (
        "import sys; from crewboard.command.run import main; print('up', flush=True);"
        " sys.exit(main(sys.argv[1:]))"
    )
    with folder_lock(van), heard(signal.SIGINT):
        run = subprocess.Popen(
            [sys.executable, "-c", program, "sign-in", str(van), "ada"],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=REPOSITORY,
        )  # fmt: skip
        assert run.stdout is not None
        assert run.stdout.readline() == b"up\n"
        time.sleep(0.3)
        run.send_signal(signal.SIGINT)
        out, err = run.communicate(timeout=30)
    assert (run.returncode, out, err) == (Exit.STOPPED, b"", b"")


def test_a_read_only_folder_is_told_as_disk_trouble(call: Shell, van: Path) -> None:
    if os.geteuid() == 0:
        pytest.skip("root may write anywhere")
    (van / "days/2026").chmod(0o500)
    ended = call("sign-in", van, "tom", "--at", "2026-05-16T10:00", "--by", "ada")
    (van / "days/2026").chmod(0o700)
    assert ended.code == Exit.DISK
    assert "you may not write here" in ended.err


def test_a_folder_of_a_newer_program_is_only_shown(call: Shell, van: Path) -> None:
    vehicle = van / "vehicle.toml"
    vehicle.write_text(vehicle.read_text().replace("format = 1", "format = 2"))
    assert call("day", van, "--at", "2026-05-03T10:00").code == 0
    ended = call("sign-in", van, "tom", "--by", "ada")
    assert ended.code == 1
    assert "written by a newer program and is only shown" in ended.err
