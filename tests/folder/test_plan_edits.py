"""Edits of the plan: what is said in the plan's terms becomes the smallest change of the texts."""

from __future__ import annotations

import random
import re
from datetime import datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.folder.edit.plan_edits import Add, Change, PlanEdit, Remove, Rename
from crewboard.plan.duration import Duration
from crewboard.workbench import Outcome, Workbench
from tests.folder.a_vehicle import FILES, make
from tests.long_form import cases

BY_HAND = """\
# Deck. Kept by Ada.
name = 'Deck'      # single quotes on purpose
after = [
  "frame", # all of it
]

# --- the boards ---
[parts.boards]
name = "Boards"

[tasks.lay]   # the long one
title = 'Lay the boards'
part = "boards"
hours = [ 8, 12, 20 ]  # guessed
supplies = ["oak"]

# after the boards are down
[tasks.trim]
title = "Trim the boards"
after = ["lay"]  # of course
hold = { kind = "glue", lasts = "24 hours" } # the label says 20

# nothing below this line
"""


@pytest.fixture
def bench(tmp_path: Path) -> Workbench:
    files = {path: text.encode() for path, text in FILES.items()}
    files["components/deck.toml"] = BY_HAND.encode()
    bench = Workbench(make(tmp_path, files))
    assert bench.faults == []
    return bench


def deck(bench: Workbench) -> str:
    return (bench.folder.root / "components/deck.toml").read_bytes().decode()


def kept(outcome: Outcome) -> tuple[str, ...]:
    assert outcome.refused == ()
    return outcome.files


def said(outcome: Outcome) -> str:
    assert outcome.refused
    assert outcome.files == ()
    return str(outcome.refused[0])


def test_a_changed_value_changes_only_its_own_line(bench: Workbench) -> None:
    assert kept(bench.change(Change("task", "deck/lay", {"hours": (10, 12, 20)}))) == (
        "components/deck.toml",
    )
    assert deck(bench) == BY_HAND.replace("[ 8, 12, 20 ]", "[ 10, 12, 20 ]")
    assert bench.plan.tasks["deck/lay"].estimate == (10, 12, 20)


def test_a_title_keeps_its_quoting_and_user_text_stays_as_typed(bench: Workbench) -> None:
    title = "Lay [M8] [/] boards"
    kept(bench.change(Change("task", "deck/lay", {"title": title})))
    assert f"title = '{title}'\n" in deck(bench)
    steering = "a\x1b[31mb‮c"
    kept(bench.change(Change("task", "deck/lay", {"title": steering})))
    assert bench.plan.tasks["deck/lay"].title == steering
    assert "\x1b" not in deck(bench)


def test_what_comes_before_is_written_as_short_as_a_person_would(bench: Workbench) -> None:
    before = ("deck/lay", "frame/prime", "frame")
    kept(bench.change(Change("task", "deck/trim", {"after": before})))
    assert 'after = ["lay", "frame/prime", "frame"]  # of course\n' in deck(bench)
    assert bench.plan.tasks["deck/trim"].after == before


def test_a_name_taken_out_of_the_order_leaves_the_others_as_they_stood(bench: Workbench) -> None:
    kept(bench.change(Change("component", "deck", {"after": ("frame", "frame/prime")})))
    assert '  "frame", # all of it\n  "frame/prime",\n]' in deck(bench)
    kept(bench.change(Change("component", "deck", {"after": ("frame",)})))
    assert deck(bench) == BY_HAND


def test_an_order_that_would_go_round_is_refused_with_the_whole_loop(bench: Workbench) -> None:
    before = deck(bench)
    says = said(bench.change(Change("task", "frame/scrape", {"after": ("deck/trim",)})))
    for step in ("frame/scrape", "all of frame", "the start of deck", "deck/lay", "deck/trim"):
        assert step in says
    assert "components/deck.toml:3" in says  # where the deck says that it comes after the frame
    assert deck(bench) == before
    assert bench.faults == []


def test_a_trial_says_the_same_and_writes_nothing(bench: Workbench) -> None:
    edit = Change("task", "deck/lay", {"after": ("deck/trim",)})
    assert [r.code for r in bench.trial(edit)] == ["loop"]
    assert bench.trial(Change("task", "deck/lay", {"title": "X"})) == ()
    assert deck(bench) == BY_HAND


@pytest.mark.parametrize(
    ("edit", "tells"),
    [
        (Change("task", "deck/lie", {"title": "x"}), 'did you mean "deck/lay"?'),
        (Change("task", "deck/lay", {"supplies": ("oakk",)}), 'there is no supply "oakk"'),
        (Change("task", "deck/lay", {"after": ("frame/primer",)}), "there is no task or component"),
        (Change("task", "deck/lay", {"hours": (9, 3, 1)}), "a low, a likely and a high estimate"),
        (Change("task", "deck/lay", {"title": " "}), '"title" is empty'),
        (Change("task", "deck/trim", {("hold", "kind"): "nap"}), '"nap" is no kind'),
        (Change("vehicle", "", {("work_days", "every"): ("someday",)}), "is not a rule"),
        (Add("task", "deck/lay", {"title": "again"}), 'there is a "deck/lay" already'),
        (Add("task", "deck/a b", {"title": "x"}), "cannot be a short name"),
        (Add("task", "hull/x", {"title": "x"}), 'there is no component "hull"'),
        (Rename("task", "deck/lay", "trim"), 'there is a "deck/trim" already'),
        (Rename("task", "frame/scrape", "scour"), "change its title instead"),
        (Remove("task", "frame/scrape"), "set it aside instead"),
        (Remove("component", "deck"), '"Deck" has 2 tasks and 1 part'),
        (Remove("supply", "oak"), '"oak" is needed by "Lay the boards"'),
        (Remove("person", "ada"), "write the day they left instead"),
    ],
)
def test_a_mistake_is_refused_in_one_sentence_and_nothing_is_written(
    bench: Workbench, edit: PlanEdit, tells: str
) -> None:
    before = {p: p.read_bytes() for p in bench.folder.root.rglob("*.toml")}
    assert tells in said(bench.change(edit))
    assert {p: p.read_bytes() for p in bench.folder.root.rglob("*.toml")} == before


def test_a_mistake_that_is_there_already_does_not_stand_in_the_way(bench: Workbench) -> None:
    path = bench.folder.root / "components/deck.toml"
    path.write_text(BY_HAND.replace('["lay"]', '["lay", "sandd"]'))
    kept(bench.change(Change("task", "deck/lay", {"title": "Lay all boards"})))
    assert [fault.code for fault in bench.faults] == ["unknown-name"]
    # What names nothing stays as it was written until somebody takes it out.
    kept(bench.change(Change("task", "deck/trim", {"after": ("deck/lay", "sandd", "frame")})))
    assert 'after = ["lay", "sandd", "frame"]' in deck(bench)


def test_a_broken_file_is_never_written_over(bench: Workbench) -> None:
    path = bench.folder.root / "components/deck.toml"
    path.write_text(BY_HAND + "[tasks.half")
    says = said(bench.change(Change("component", "deck", {"name": "x"})))
    assert "components/deck.toml:24:12:" in says
    assert "mend the file first; nothing is written over it" in says
    assert "cannot be read" in said(bench.change(Rename("supply", "oak", "oaks")))
    assert "already" in said(bench.change(Add("component", "deck", {"name": "Deck"})))
    assert path.read_text() == BY_HAND + "[tasks.half"


def test_a_new_task_stands_behind_the_others_and_above_no_strange_comment(
    bench: Workbench,
) -> None:
    values: dict[str | tuple[str, ...], object]
    values = {"title": "Caulk", "part": "deck/boards", "after": ("deck/trim",), "hours": (1, 2, 3)}
    kept(bench.change(Add("task", "deck/caulk", values)))
    new = '[tasks.caulk]\ntitle = "Caulk"\npart = "boards"\nafter = ["trim"]\nhours = [1, 2, 3]\n'
    assert deck(bench).replace(f"\n{new}", "") == BY_HAND


def test_a_hold_is_added_changed_and_taken_away(bench: Workbench) -> None:
    hold = {"kind": "bend set", "lasts": Duration(months=1)}
    kept(bench.change(Change("task", "deck/lay", {"hold": hold})))
    assert 'hold = { kind = "bend set", lasts = "1 month" }\n' in deck(bench)
    kept(bench.change(Change("task", "deck/lay", {("hold", "leave_alone"): True})))
    assert 'hold = { kind = "bend set", lasts = "1 month", leave_alone = true }\n' in deck(bench)
    kept(bench.change(Change("task", "deck/lay", {"hold": None})))
    assert deck(bench) == BY_HAND
    kept(bench.change(Change("task", "deck/trim", {("hold", "lasts"): Duration(days=2)})))
    assert 'hold = { kind = "glue", lasts = "2 days" } # the label says 20\n' in deck(bench)


def test_a_removed_task_leaves_no_gap_in_the_order(bench: Workbench) -> None:
    kept(bench.change(Add("task", "deck/sand", {"title": "Sand", "after": ("deck/trim",)})))
    kept(bench.change(Remove("task", "deck/trim")))
    assert bench.plan.tasks["deck/sand"].after == ("deck/lay",)
    assert bench.faults == []


def test_a_new_name_goes_to_every_place_that_names_it(bench: Workbench) -> None:
    kept(bench.change(Add("component", "roof", {"name": "Roof", "after": ("deck/lay", "deck")})))
    kept(bench.change(Rename("task", "deck/lay", "lay-boards")))
    assert bench.plan.tasks["deck/trim"].after == ("deck/lay-boards",)
    assert bench.plan.components["roof"].after == ("deck/lay-boards", "deck")
    kept(bench.change(Rename("component", "deck", "floor")))
    root = bench.folder.root
    assert not (root / "components/deck.toml").exists()
    assert 'after = ["floor/lay-boards", "floor"]' in (root / "components/roof.toml").read_text()
    assert (root / "components/floor.toml").read_text() == BY_HAND.replace(
        "tasks.lay]", "tasks.lay-boards]"
    ).replace('["lay"]', '["lay-boards"]')
    kept(bench.undo(by="ada", now=datetime(2026, 5, 2, 12)))
    assert deck(bench).startswith("# Deck. Kept by Ada.")


def test_a_short_name_that_would_catch_another_meaning_is_refused(bench: Workbench) -> None:
    kept(bench.change(Add("component", "roof", {"name": "Roof"})))
    kept(bench.change(Add("task", "roof/canvas", {"title": "Canvas", "after": ("deck",)})))
    # In the roof's file, after = ["deck"] would from now on mean this task.
    edit = Add("task", "roof/deck", {"title": "A deck to stand on"})
    assert '"deck" would be taken for another thing' in said(bench.change(edit))
    kept(bench.change(Add("task", "frame/deck", {"title": "A frame for the deck"})))
    after = ("deck",)
    says = said(bench.change(Change("task", "frame/prime", {"after": after})))
    assert 'in frame, "deck" means a task or part of frame' in says


def test_people_certificates_and_work_days_are_changed_where_they_stand(
    bench: Workbench,
) -> None:
    kept(bench.change(Change("person", "ada", {("certificates", "first aid"): None})))
    kept(bench.change(Change("person", "ada", {("certificates", "rigging"): True})))
    kept(bench.change(Add("person", "eva", {"name": "Eva", "skills": ("wiring",)})))
    crew = (bench.folder.root / "crew.toml").read_text()
    assert 'certificates = { "hot work" = 2027-01-31, rigging = true }\n' in crew
    assert crew.endswith('[people.eva]\nname = "Eva"\nskills = ["wiring"]\n')
    kept(bench.change(Change("vehicle", "", {("work_days", "every"): ("friday",)})))
    vehicle = (bench.folder.root / "vehicle.toml").read_text()
    assert vehicle == FILES["vehicle.toml"].replace(
        '["first saturday", "third saturday"]', '["friday"]'
    )


def test_several_edits_are_kept_together_or_not_at_all(bench: Workbench) -> None:
    add = Add("task", "deck/sand", {"title": "Sand"})
    loop = Change("task", "deck/lay", {"after": ("deck/lay",)})
    assert said(bench.change(add, loop))
    assert deck(bench) == BY_HAND
    kept(bench.change(add, Change("task", "deck/trim", {"after": ("deck/sand",)})))
    assert bench.plan.tasks["deck/trim"].after == ("deck/sand",)


def test_an_edit_made_outside_in_between_is_kept_too(bench: Workbench) -> None:
    path = bench.folder.root / "components/deck.toml"
    path.write_text(BY_HAND.replace("# guessed", "# measured"))
    kept(bench.change(Change("task", "deck/lay", {"title": "New"})))
    assert "# measured" in deck(bench)
    assert bench.plan.tasks["deck/lay"].title == "New"


# --- any layout ----------------------------------------------------------------------------------

TITLES = ["Lay it", "[M8] bolts", 'say "hi"', "it's", "日本", "a # b"]


class HandMade:
    """A component's file laid out at random, with a comment of its own for each task."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        self.count = self.dice.randint(2, 5)
        lines = ["# the hull", 'name = "Hull"  # main', *self.gap()]
        for number in range(self.count):
            lines += [f"# about task {number}", *self.task(number), *self.gap()]
        newline = self.dice.choice(["\n", "\n", "\r\n"])
        self.text = newline.join(lines) + self.dice.choice(["", newline])

    def gap(self) -> list[str]:
        return [""] * self.dice.choice([0, 1, 1, 2])

    def task(self, number: int) -> list[str]:
        before = [f"t{n}" for n in range(number) if self.dice.random() < 0.5]
        quote = self.dice.choice(["'", '"'])
        names = self.dice.choice([", ", ",", " , "]).join(f'"{b}"' for b in before)
        if self.dice.random() < 0.3 and before:
            listed = "".join(f'\n    "{b}", # after {b}' for b in before)
            names = f"{listed}\n"
        lines = [f"title = {quote}Task {number}{quote}  # title {number}", f"after = [{names}]"]
        lines += [f"hours = [{number}, 5, 9] # hours {number}"] * self.dice.choice([0, 1])
        lines += ["hold = {kind='dry', lasts=\"2 days\"} # wet"] * self.dice.choice([0, 0, 1])
        self.dice.shuffle(lines)
        name = self.dice.choice([f"tasks.t{number}", f' tasks . "t{number}" '])
        return [f"[{name}]", *"\n".join(lines).split("\n")]


def comments(text: str) -> list[str]:
    made = r"# (?:the hull|main|about task \d|title \d|hours \d|wet|after t\d)"
    return re.findall(made, text)


EDITS = st.sampled_from(["title", "hours", "hold", "after", "rename", "remove", "add", "method"])


@cases(80, 1200)
@given(seed=st.integers(0, 10**9), kinds=st.lists(EDITS, min_size=1, max_size=4), data=st.data())
def test_in_a_file_of_any_layout_an_edit_says_what_was_meant_and_keeps_the_comments(
    tmp_path_factory: pytest.TempPathFactory,
    seed: int,
    kinds: list[str],
    data: st.DataObject,
) -> None:
    made = HandMade(seed)
    root = tmp_path_factory.mktemp("hull")
    files = {"vehicle.toml": b'name = "V"\n', "components/hull.toml": made.text.encode()}
    bench = Workbench(make(root, files))
    assert bench.faults == []
    about = {f"hull/t{number}": f"# about task {number}" for number in range(made.count)}
    for kind in kinds:
        ids = list(bench.plan.tasks)
        one = data.draw(st.sampled_from(ids))
        edit = _edit(kind, one, bench, data)
        before, was = bench.plan.tasks, (root / "components/hull.toml").read_bytes().decode()
        outcome = bench.change(edit)
        text = (root / "components/hull.toml").read_bytes().decode()
        if not outcome.kept:
            assert {r.code for r in outcome.refused} == {"loop"}
            assert text == was
            continue
        assert bench.faults == []
        _says_what_was_meant(edit, dict(before), dict(bench.plan.tasks))
        if not isinstance(edit, Remove) and kind not in ("after", "hold"):
            # Only a comment on the changed line itself may follow what it stood beside.
            assert comments(text) == comments(was)
        if isinstance(edit, Remove | Rename) and (comment := about.pop(edit.id, "")):
            # What is said above a task that is gone may go too, once what stands above it goes.
            about |= {f"hull/{edit.to}": comment} if isinstance(edit, Rename) else {}
        assert set(about.values()) <= set(comments(text))
        if "\r\n" in was:
            assert "\n" not in text.replace("\r\n", "")


def _edit(kind: str, one: str, bench: Workbench, data: st.DataObject) -> PlanEdit:
    others = [each for each in bench.plan.tasks if each != one]
    match kind:
        case "title":
            return Change("task", one, {"title": data.draw(st.sampled_from(TITLES))})
        case "method":
            text = data.draw(st.text(st.characters(codec="utf-8"), min_size=1, max_size=20))
            return Change("task", one, {"method": text.replace("\r", "") + "."})
        case "hours":
            return Change("task", one, {"hours": (1, 2, data.draw(st.integers(2, 9)))})
        case "hold":
            span = Duration(days=data.draw(st.integers(1, 6)))
            hold = data.draw(st.sampled_from([None, {"kind": "glue", "lasts": span}]))
            return Change("task", one, {"hold": hold})
        case "after":
            picked = data.draw(st.lists(st.sampled_from(others), unique=True)) if others else []
            return Change("task", one, {"after": tuple(picked)})
        case "rename":
            taken = {each.partition("/")[2] for each in bench.plan.tasks}
            return Rename("task", one, next(f"n{n}" for n in range(99) if f"n{n}" not in taken))
        case "remove" if len(others) > 1:
            return Remove("task", one)
        case _:
            taken = {each.partition("/")[2] for each in bench.plan.tasks}
            name = next(f"a{n}" for n in range(99) if f"a{n}" not in taken)
            return Add("task", f"hull/{name}", {"title": "New", "after": (one,)})


def _says_what_was_meant(edit: PlanEdit, before: dict[str, object], now: dict[str, object]) -> None:
    match edit:
        case Change():
            left = {k: v for k, v in before.items() if k != edit.id}
            assert left == {k: v for k, v in now.items() if k != edit.id}
            for key, value in edit.values.items():
                found = getattr(now[edit.id], "estimate" if key == "hours" else str(key))
                if isinstance(value, dict):
                    assert (found.kind, found.lasts) == (value["kind"], value["lasts"])
                elif key in ("after", "during"):
                    assert isinstance(value, tuple)
                    assert set(found) == set(value)
                else:
                    assert found == value
        case Add():
            assert before == {k: v for k, v in now.items() if k != edit.id}
            assert edit.id in now
        case Remove():
            assert set(now) == set(before) - {edit.id}
        case Rename():
            new = f"hull/{edit.to}"
            assert set(now) == (set(before) - {edit.id}) | {new}
            for task_id, task in before.items():
                meant = {new if a == edit.id else a for a in task.after}  # type: ignore[attr-defined]
                found = now[new if task_id == edit.id else task_id]
                assert set(found.after) == meant  # type: ignore[attr-defined]
