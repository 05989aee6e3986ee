"""A loop written into the files is named whole, each step with the line it is written in."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path
from typing import Any

import networkx
from hypothesis import given

from crewboard.folder.read.folder import Folder
from crewboard.order.sequence.links import links
from crewboard.plan.component import Component
from crewboard.plan.task import Task
from tests.long_form import cases
from tests.order.random_plans import pairs, parts_of_a_plan

nx: Any = networkx  # the library carries no types
STEP = re.compile(r"\((components/\w+\.toml):(\d+)\)")


def listed(names: tuple[str, ...]) -> str:
    return "[" + ", ".join(f'"{name}"' for name in names) + "]"


def write(root: Path, components: dict[str, Component], tasks: dict[str, Task]) -> None:
    """The plan as files; every name is written as its full id."""
    (root / "components").mkdir()
    (root / "vehicle.toml").write_text('format = 1\nname = "A vehicle"\n', "utf-8")
    for main in (c for c in components.values() if not c.part_of):
        lines = [f'name = "{main.name}"', f"after = {listed(main.after)}"]
        for part in components.values():
            if part.id.startswith(f"{main.id}/"):
                lines += [f"[parts.{part.id.partition('/')[2]}]", f'name = "{part.name}"']
                lines += [f'part_of = "{part.part_of}"', f"after = {listed(part.after)}"]
        for task in tasks.values():
            if task.id.startswith(f"{main.id}/"):
                lines += [f"[tasks.{task.name}]", f'title = "{task.title}"']
                if "/" in task.component:
                    lines.append(f'part = "{task.component.partition("/")[2]}"')
                lines += [f"after = {listed(task.after)}", f"during = {listed(task.during)}"]
        text = "\n".join(lines) + "\n"
        (root / "components" / f"{main.id}.toml").write_text(text, "utf-8")


@cases(60, 1500)
@given(parts_of_a_plan(7))
def test_each_loop_is_told_with_the_lines_it_is_written_in_and_the_rest_still_opens(
    parts: tuple[dict[str, Component], dict[str, Task]],
) -> None:
    components, tasks = parts
    with tempfile.TemporaryDirectory() as made:
        root = Path(made)
        write(root, components, tasks)
        folder = Folder(root)
        loops = [fault for fault in folder.faults if fault.code == "loop"]
        graph = nx.DiGraph(pairs(components, tasks))
        assert bool(loops) is not nx.is_directed_acyclic_graph(graph)
        assert [f for f in folder.faults if f.code != "loop"] == []
        assert set(folder.plan.tasks) == set(tasks)
        left = nx.DiGraph([(e.before, e.after) for e in links(*folder.plan[1:3])])
        assert nx.is_directed_acyclic_graph(left)
        for fault in loops:
            first, *_, last = fault.steps
            assert STEP.sub("", first).strip() == STEP.sub("", last).strip(), "goes round"
            places = STEP.findall(fault.whole)
            assert places, fault
            for file, line in places:
                text = (root / file).read_text("utf-8").splitlines()[int(line) - 1]
                assert text.startswith(("after = [", "during = [")), (fault, text)
            told = (root / fault.file).read_text("utf-8").splitlines()[fault.line - 1]
            named = re.search(r'remove "([^"]+)" from this list', fault.hint)
            assert named is not None
            assert f'"{named[1]}"' in told
