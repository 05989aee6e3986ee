"""Whatever ends or stops the screens from outside leaves the terminal as it was, keeps what was
acknowledged, and throws away nothing that was typed."""

from __future__ import annotations

import os
import signal
from pathlib import Path

import pytest

from tests.terminal.shop import day_file, make_shop

if os.name != "posix":
    pytest.skip("needs a pseudo-terminal", allow_module_level=True)

from tests.terminal.real_terminal import RealTerminal

AT = "2026-05-02T10:00"
ENDS = (signal.SIGTERM, signal.SIGHUP, signal.SIGINT, signal.SIGQUIT)


@pytest.fixture
def van(tmp_path: Path) -> Path:
    (tmp_path / "passing").mkdir()
    return make_shop(tmp_path / "van")


def screens(van: Path) -> RealTerminal:
    """The screens of the van, opened and drawn."""
    passing = str(van.parent / "passing")
    terminal = RealTerminal([str(van), "--at", AT, "--by", "ada"], env={"TMPDIR": passing})
    terminal.until("Scrape the frame")
    return terminal


def typed_and_unkept(van: Path) -> str:
    (path,) = (van.parent / "passing").glob("crewboard-typed-*.txt")
    assert path.stat().st_mode & 0o077 == 0
    return path.read_text(encoding="utf-8")


def write_a_note(terminal: RealTerminal, text: str) -> None:
    so_far = len(terminal.drawn)
    terminal.type("n")
    terminal.until("Enter save", since=so_far)
    terminal.type(text)
    terminal.until(text, since=so_far)


@pytest.mark.parametrize("number", ENDS, ids=lambda number: number.name)
def test_a_signal_ends_the_screens_in_good_order(number: signal.Signals, van: Path) -> None:
    with screens(van) as terminal:
        write_a_note(terminal, "acknowledged")
        terminal.type("\r")
        terminal.until_true(lambda: "acknowledged" in day_file(van))
        write_a_note(terminal, "half a sentence")
        terminal.signal(number)
        assert terminal.ended() == 128 + number
        assert terminal.is_as_before()
        assert f"ended from outside ({number.name}); what was written is saved" in terminal.after
        assert "what was typed and not saved yet stands in" in " ".join(terminal.after.split())
        assert "Traceback" not in terminal.drawn.decode(errors="replace")
    assert day_file(van).count('text = "acknowledged"') == 1
    assert "half" not in day_file(van)
    assert "half a sentence" in typed_and_unkept(van)


def test_hours_and_a_form_that_were_typed_are_not_thrown_away_either(van: Path) -> None:
    (van / "days/2026").mkdir(parents=True)
    (van / "days/2026/2026-05-02.toml").write_text(
        "date = 2026-05-02\n\n[entries]\n"
        'aaaaaaaa = { at = 2026-05-02T09:00:00, kind = "sign-in", who = "ben" }\n'
        'bbbbbbbb = { at = 2026-05-02T09:01:00, kind = "begun", task = "frame/scrape" }\n'
    )
    with screens(van) as terminal:
        terminal.type("h")
        terminal.until("nothing new to save")
        terminal.type("3.5\r4")
        terminal.until("1 to save")
        terminal.type("\x1b[13~")  # F3, and it is asked whether to throw them away
        terminal.until("throw away")
        terminal.signal(signal.SIGTERM)
        assert terminal.ended() == 128 + signal.SIGTERM
    assert "Ben Holt, Scrape the frame, Frame: 3.5" in typed_and_unkept(van)


def test_what_was_typed_into_a_form_is_not_thrown_away_either(van: Path) -> None:
    with screens(van) as terminal:
        terminal.type("\x1b[13~")
        terminal.until("comes before: Roof")
        terminal.type("\x1b[C\x1b[Be")
        terminal.until("Edit: Scrape the frame")
        terminal.type(" and the axle")
        terminal.until("Scrape the frame and the axle")
        terminal.signal(signal.SIGTERM)
        assert terminal.ended() == 128 + signal.SIGTERM
    assert "Scrape the frame and the axle" in typed_and_unkept(van)


def test_a_terminal_that_is_gone_ends_the_screens(van: Path) -> None:
    with screens(van) as terminal:
        write_a_note(terminal, "half a sentence")
        terminal.hang_up()
        assert terminal.ended() in (128 + signal.SIGHUP, -signal.SIGHUP)
    assert "half a sentence" in typed_and_unkept(van)


def test_where_a_hang_up_is_to_be_passed_over_the_screens_end_with_their_terminal(
    van: Path,
) -> None:
    """As under nohup: the signal does nothing, but without a terminal there is nothing to do."""
    program = (
        "import signal, sys\n"
        "signal.signal(signal.SIGHUP, signal.SIG_IGN)\n"
        "from crewboard.command.run import main\n"
        "sys.exit(main())"
    )
    with RealTerminal([str(van), "--at", AT], program=program) as terminal:
        terminal.until("Scrape the frame")
        terminal.signal(signal.SIGHUP)
        terminal.look(0.5)
        assert terminal.lives()
        terminal.hang_up()
        assert terminal.ended() == 128 + signal.SIGHUP


@pytest.mark.parametrize("number", [signal.SIGTSTP, signal.SIGSTOP], ids=lambda n: n.name)
def test_who_is_stopped_and_goes_on_finds_the_screen_and_later_the_terminal_again(
    number: signal.Signals, van: Path
) -> None:
    with screens(van) as terminal:
        write_a_note(terminal, "half a sentence")
        terminal.signal(number)
        terminal.look(0.7)
        if number == signal.SIGTSTP:
            assert terminal.is_as_before()
        so_far = len(terminal.drawn)
        terminal.signal(signal.SIGCONT)
        terminal.until("half a sentence", since=so_far)
        terminal.look(0.5)
        terminal.type(" more\r")
        terminal.until_true(lambda: "more" in day_file(van))
        terminal.type("q")
        assert terminal.ended() == 0
        assert terminal.is_as_before()
    assert 'text = "half a sentence more"' in day_file(van)
