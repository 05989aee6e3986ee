"""Forecast, day plan and review on the command line."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from crewboard.order.review import RULES
from tests.command.calling import SAMPLE, Shell, process
from tests.folder.a_vehicle import make

MORNING = ("--at", "2026-05-02T09:00")


def test_the_forecast_tells_dates_components_and_what_sets_them(call: Shell) -> None:
    ended = call("forecast", SAMPLE, *MORNING, "--runs", 60, "--short", "--seed", 3)
    assert (ended.code, ended.err) == (0, "")
    day = r"(Sat|Wed) \d+ \w+ 20\d\d"
    assert re.search(rf"even chance \(50 %\) +{day} +{day}", ended.out)
    assert "four in five (80 %)" in ended.out
    assert ended.out.index("with what usually turns up") < ended.out.index("as the plan stands")
    assert "The dates suppose what nobody has seen to yet:" in ended.out
    assert "What would bring it forward" not in ended.out
    assert "60 trial runs, seed 3" in ended.out
    assert all(len(line) <= 80 for line in ended.out.splitlines())
    again = call("forecast", SAMPLE, *MORNING, "--runs", 60, "--short", "--seed", 3)
    assert again.out == ended.out


def test_the_forecast_as_json_has_every_key_that_is_promised(call: Shell) -> None:
    form = call("forecast", SAMPLE, *MORNING, "--runs", 40, "--json").form
    assert (form["form"], form["what"], form["runs"], form["asked"]) == (1, "forecast", 40, 40)
    dates = form["finish"]
    assert form["soonest"] <= dates["even"] <= dates["likely"] <= dates["nearly_sure"]
    assert len(form["courses"]) == 40
    assert form["courses"] == sorted(form["courses"])
    assert {"task", "share"} == set(form["on_chain"][0])
    assert {"kind", "what", "says", "name", "why"} == set(form["supposed"][0])
    assert form["as_planned"]["even"] <= dates["even"]
    assert (form["too_little"], form["rough"]) == ("", None)
    assert {"says", "gain_days", "doubt_days", "tells"} == set(form["sooner"][0])
    assert {each["id"] for each in form["components"]} >= {"roof", "deck"}


def test_the_forecast_is_drawn_as_svg_and_never_over_a_file(call: Shell, tmp_path: Path) -> None:
    path = tmp_path / "finish.svg"
    typed = ("forecast", SAMPLE, *MORNING, "--runs", 40, "--short", "--svg", path)
    assert call(*typed).code == 0
    root = ElementTree.fromstring(path.read_text(encoding="utf-8"))
    space = "{http://www.w3.org/2000/svg}"
    assert root.tag == f"{space}svg"
    said = " ".join("".join(each.itertext()) for each in root.iter())
    assert "four in five by" in said
    assert len(list(root.iter(f"{space}circle"))) == 6  # three dates twice
    refused = call(*typed)
    assert refused.code == 1
    assert "is there already" in refused.err


def test_the_ruler_can_be_drawn_in_plain_characters(call: Shell) -> None:
    out = call("forecast", SAMPLE, *MORNING, "--runs", 40, "--short", "--ascii").out
    assert re.search(r"^  \|-+2027-+2028", out, re.MULTILINE)
    assert re.search(r"v50 ", out)
    assert "▼" not in out


def test_the_dates_stand_before_what_would_bring_them_forward(call: Shell) -> None:
    out = call("forecast", SAMPLE, *MORNING, "--runs", 40).out
    heads = ("even chance", "Components", "What sets the date", "What would bring it forward")
    places = [out.index(head) for head in heads]
    assert places == sorted(places)


def test_whoever_waits_at_a_terminal_reads_at_once_about_when(
    call: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed = ("forecast", SAMPLE, *MORNING, "--runs", 45, "--short")
    plain = call(*typed)
    assert plain.err == ""
    monkeypatch.setattr("crewboard.order.forecast.forecast.FIRST", 20)
    monkeypatch.setattr("crewboard.order.forecast.forecast.FEWEST", 20)
    monkeypatch.setattr("crewboard.command.forecast._somebody_looks", lambda: True)
    ended = call(*typed)
    assert ended.out == plain.out
    first, bar = (ended.err.index(w) for w in ("after 20 trial runs", "─ the trial runs (Ctrl-C"))
    assert first < bar
    assert re.search(r"even chance by \w+ \d+ \w+ 20\d\d, four in five by", ended.err)


def test_the_figures_behind_the_dates_are_told_when_asked_for(call: Shell) -> None:
    typed = ("forecast", SAMPLE, *MORNING, "--runs", 40, "--short")
    out = " ".join(call(*typed, "--figures").out.split())
    for says in (
        "The figures behind the dates",
        "pace: a task takes",
        "people: ",
        "growth: The plan",
    ):
        assert says in out
    assert "The longest waits on the way, on average" in out
    assert "The figures behind" not in call(*typed).out
    form = call(*typed, "--figures", "--json").form
    assert form["figures"]["pace"]["low"] < form["figures"]["pace"]["middle"]
    assert len(form["figures"]["waited"]["longest"]) == 10
    assert call(*typed, "--json").form["figures"] is None


@pytest.mark.parametrize("runs", ["0", "many", "-3", "1.5", "99999999"])
def test_a_number_of_runs_that_makes_no_sense_is_refused(call: Shell, runs: str) -> None:
    ended = call("forecast", SAMPLE, f"--runs={runs}")
    assert ended.code == 2
    assert "write a whole number" in ended.err


def test_a_forecast_of_a_new_folder_says_how_little_it_knows(call: Shell, tmp_path: Path) -> None:
    van = make(tmp_path / "van2")
    out = " ".join(call("forecast", van, *MORNING, "--runs", 40).out.split())
    assert "Too little is known: after 3 work days with hours this becomes a date (1 so far)" in out
    assert re.search(r"by the estimates alone: between \w+ 20\d\d and \w+ 20\d\d", out)
    assert "%" not in out
    form = call("forecast", van, *MORNING, "--runs", 40, "--json").form
    assert form["finish"] == {"even": None, "likely": None, "nearly_sure": None}
    assert form["rough"]["first"] < form["rough"]["last"]


def test_a_folder_just_made_says_that_there_is_no_work_yet(call: Shell, tmp_path: Path) -> None:
    call("new", tmp_path / "bus")
    out = call("forecast", tmp_path / "bus", "--runs", 20).out
    assert "no task is written down yet" in out
    assert "fifty" not in out


def test_the_day_plan_keeps_to_what_the_lead_fixed(call: Shell) -> None:
    people = ("--people", "mirela", "henrik", "nadia", "leila", "kwame")
    form = call("plan-day", SAMPLE, *MORNING, *people, "--seconds", 0, "--json").form
    assert form["by"] == "plain rule"
    assert form["people"] == ["mirela", "henrik", "nadia", "leila", "kwame"]
    assert 0 <= form["gap"] < 1
    first, second = form["placed"][0]["task"], form["placed"][1]["task"]
    form = call(
        "plan-day", SAMPLE, *MORNING, *people, "--seconds", 0, "--json",
        "--leave-out", first, "--fix", second, "henrik", "11:00",
    ).form  # fmt: skip
    placed = {each["task"]: each for each in form["placed"]}
    assert first not in placed
    if second in placed:
        assert "henrik" in placed[second]["people"]
        # After tea the blocks begin at 10:45 and 11:15: nothing begins before its wished hour
        # where it need not.
        assert placed[second]["start"] == "2026-05-02T11:15:00"
    else:
        assert second in {each["task"] for each in form["not_placed"]}


def test_the_day_plan_in_words_says_that_the_lead_decides(call: Shell) -> None:
    out = call("plan-day", SAMPLE, *MORNING, "--seconds", 0).out
    assert "A proposal: the lead decides" in " ".join(out.split())
    assert "The plain rule was used" in out
    assert all(len(line) <= 80 for line in out.splitlines())


def test_between_work_days_the_next_one_is_planned(call: Shell) -> None:
    out = call("plan-day", SAMPLE, "--at", "2026-05-05T12:00", "--seconds", 0).out
    assert out.startswith("Plan for Sat 16 May 2026")


def test_a_fix_that_begins_with_no_task_is_refused(call: Shell) -> None:
    assert call("plan-day", SAMPLE, "--fix", "10:00").code == 2
    assert call("plan-day", SAMPLE, "--fix", "no such task").code == 1
    assert call("plan-day", SAMPLE, "--not", "mirela").code == 2


def test_each_question_of_the_review_names_file_and_line(call: Shell) -> None:
    ended = call("review", SAMPLE, *MORNING)
    assert ended.code == 0
    lines = ended.out.splitlines()
    assert lines
    for line in lines:
        found = re.match(r"([\w/.-]+\.toml):(\d+): .+; .+", line)
        assert found, line
        text = (SAMPLE / found[1]).read_text(encoding="utf-8").splitlines()
        assert 1 <= int(found[2]) <= len(text)
    assert ended.err.strip() == f"{len(lines)} questions"


def test_the_review_points_at_the_key_that_it_asks_about(call: Shell, tmp_path: Path) -> None:
    van = make(tmp_path / "van2")
    frame = van / "components/frame.toml"
    frame.write_text(frame.read_text().replace('"36 hours"', '"36 months"'))
    line = next(
        e for e in call("review", van, *MORNING).out.splitlines() if "36" in e or "3 y" in e
    )
    number = int(line.split(":")[1])
    assert frame.read_text().splitlines()[number - 1].startswith("hold =")


def test_the_review_tells_its_rules_with_their_sources(call: Shell) -> None:
    form = call("review", SAMPLE, *MORNING, "--json").form
    for each in form["questions"]:
        assert each["source"] == RULES[each["rule"]].source
        assert each["mark"] in ("second-hand", "from memory", "common practice")
    out = call("review", SAMPLE, *MORNING, "--sources").out
    assert "GAO-16-89G" in out


def test_the_commands_run_as_a_process_and_load_no_screens() -> None:
    for typed in (("review", SAMPLE), ("forecast", SAMPLE, "--runs", "20", "--short")):
        ended = process(*typed)
        assert ended.returncode == 0, ended.stderr
