"""The house as DEVELOPERS.md draws it: which room may import which, and how large a file may be."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest

from crewboard.command.catalogue import all_commands
from crewboard.logbook.fields import NAMES
from crewboard.logbook.kinds import BY_WORD, KINDS_OF_ENTRY
from crewboard.paper.reports import REPORTS
from crewboard.terminal.screens import PAGES
from crewboard.trade.kinds import KINDS as RECKONINGS
from tests.house_graph import HOUSE, circles, classes, import_graph, nodes_of, reached

FILES = sorted(HOUSE.rglob("*.py"))
PURE = ("plan", "trade", "logbook", "fabric", "order")
BETWEEN = ("telling", "paper", "folder", "workbench", "legible", "wall_clock", "on_this_computer")
# Each room, and the rooms that it may look into besides itself.
MAY_SEE = {
    "plan": set(),
    "trade": {"plan"},
    "logbook": {"plan"},
    "fabric": {"plan", "logbook"},
    "order": {"plan", "trade", "logbook", "fabric"},
    "folder": {"plan", "logbook", "order", "legible", "on_this_computer"},
    "telling": {*PURE, "legible"},
    "paper": {*PURE, "telling", "legible"},
    "workbench": {*PURE, "folder"},
    "terminal": {*PURE, *BETWEEN},
    "command": {*PURE, *BETWEEN, "terminal"},
    "wall_clock": {"plan"},
    "legible": set(),
    "on_this_computer": set(),
    "__main__": {"command"},
    "__init__": set(),
}
# The file system, other programs, the screen, TOML, the clock, chance that nobody handed in.
NOT_PURE = {
    *("os", "io", "pathlib", "shutil", "tempfile", "subprocess", "socket", "sys", "glob"),
    *("tomli", "tomllib", "tomlkit", "textual", "rich", "filelock", "time", "asyncio", "logging"),
}
# The forecast's runs are divided among the machine's processors; their results depend on the seed.
PROCESSORS = {"os", "sys"}
MOST_LINES = 400


def room_of(path: Path) -> str:
    return path.relative_to(HOUSE).parts[0].removesuffix(".py")


def imported(path: Path) -> Iterator[str]:
    """Every module that a file imports, wherever in it the import stands."""
    for node in nodes_of(path):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            assert node.level == 0, f"{path}: relative import"
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def rooms_seen(path: Path) -> set[str]:
    parts = (name.split(".") for name in imported(path))
    rooms = {each[1] for each in parts if each[0] == "crewboard" and len(each) > 1}
    return rooms - {room_of(path), "__version__"}


def test_arrows_between_the_rooms_run_one_way() -> None:
    wrong = {str(path): rooms_seen(path) - MAY_SEE[room_of(path)] for path in FILES}
    assert {path: rooms for path, rooms in wrong.items() if rooms} == {}


@pytest.mark.parametrize("room", PURE)
def test_a_pure_room_touches_neither_files_nor_screen_nor_clock(room: str) -> None:
    for path in (HOUSE / room).rglob("*.py"):
        touched = {name.split(".")[0] for name in imported(path)} & NOT_PURE
        touched -= PROCESSORS if path == HOUSE / "order/forecast/runs.py" else set()
        assert not touched, f"{path.relative_to(HOUSE)} imports {touched}"
        assert not reads_the_clock(path), f"{path.relative_to(HOUSE)} reads the clock"


def reads_the_clock(path: Path) -> bool:
    return any(
        isinstance(node, ast.Attribute)
        and node.attr in ("now", "today", "utcnow")
        and isinstance(node.value, ast.Name | ast.Attribute)
        and ast.unparse(node.value).rpartition(".")[2] in ("datetime", "date")
        for node in nodes_of(path)
    )


def test_only_the_terminal_knows_textual_and_rich() -> None:
    for path in FILES:
        if room_of(path) != "terminal":
            screens = {name.split(".")[0] for name in imported(path)} & {"textual", "rich"}
            assert not screens, f"{path.relative_to(HOUSE)} imports {screens}"


# Where reasons, causes and the order of the work come from: `telling/` alone puts them into words.
FOR_THE_ROOM_OF_WORDS = ("crewboard.order.reasons.", "crewboard.order.ahead.")


def test_no_screen_puts_reasons_or_what_goes_first_in_words_of_its_own() -> None:
    for path in (HOUSE / "terminal").rglob("*.py"):
        reasons = [name for name in imported(path) if name.startswith(FOR_THE_ROOM_OF_WORDS)]
        assert not reasons, f"{path.relative_to(HOUSE)} imports {reasons}"


def test_no_file_is_longer_than_a_person_reads_in_one_sitting() -> None:
    lines = {str(path): path.read_text(encoding="utf-8").count("\n") for path in FILES}
    assert {path: many for path, many in lines.items() if many > MOST_LINES} == {}


@pytest.mark.parametrize("command", [["day"], ["why", "deck"], ["check"], ["holds"], ["log"]])
def test_the_command_line_starts_without_the_screens(command: list[str]) -> None:
    """In a process of its own, since the other tests have imported nearly everything."""
    name, *rest = command
    program = (
        "import sys\n"
        "from crewboard.command.run import main\n"
        f"main([{name!r}, {str(HOUSE.parent / 'sample_project')!r}, *{rest!r}])\n"
        "print(sorted({'textual', 'rich', 'tomlkit', 'asyncio', 'dataclasses', 'logging',"
        " 'crewboard.trade'}"
        " & set(sys.modules)), file=sys.stderr)"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, cwd=HOUSE.parent
    )
    assert run.stderr.splitlines()[-1] == "[]"


def test_the_types_made_at_every_start_are_made_without_compiling_their_annotations() -> None:
    """With postponed annotations each field of a NamedTuple is compiled when the type is made: a
    tenth of the time of `crewboard day`. So the modules that hold such types go without."""
    program = (
        "import io, sys, contextlib, typing\n"
        "from crewboard.command.run import main\n"
        "with contextlib.redirect_stdout(io.StringIO()):\n"
        f"    main(['day', {str(HOUSE.parent / 'sample_project')!r}])\n"
        "types = [t for m in list(sys.modules.values()) if m.__name__.startswith('crewboard')\n"
        "         for t in vars(m).values() if isinstance(t, type) and issubclass(t, tuple)]\n"
        "print(sum(isinstance(a, typing.ForwardRef)\n"
        "          for t in set(types) for a in t.__annotations__.values()))"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, cwd=HOUSE.parent
    )
    assert int(run.stdout) < 25, run.stderr


def test_no_module_imports_itself_in_a_circle() -> None:
    """Imports inside functions and for types only included: they hide a circle, they do not
    mend it."""
    assert [sorted(ring) for ring in circles(import_graph())] == []


def test_every_module_is_reached_from_the_command_line_or_the_screens() -> None:
    graph = import_graph()
    doors = {"crewboard.__main__", "crewboard.command.run", "crewboard.terminal"}
    doors |= {f"crewboard.command.{listed.module}" for listed in all_commands().values()}
    doors |= {listed.module for listed in REPORTS.values()}
    doors |= {listed.module(name) for name, listed in RECKONINGS.items()}
    doors |= {page.where.partition(":")[0] for page in PAGES}
    odd = graph.keys() - reached(graph, doors)
    assert not odd, f"nothing uses {sorted(odd)}"


def test_no_two_classes_have_the_same_name() -> None:
    assert {name: homes for name, homes in classes().items() if len(homes) > 1} == {}


def collections(path: Path) -> Iterator[set[str]]:
    """The texts of each table, list or set that a module writes out, and of each `match`."""
    for node in nodes_of(path):
        if isinstance(node, ast.Dict):
            yield texts(key for key in node.keys if key is not None)
        elif isinstance(node, ast.Tuple | ast.List | ast.Set):
            yield texts(node.elts)
        elif isinstance(node, ast.Match):
            yield texts(each for case in node.cases for each in ast.walk(case.pattern))


def texts(nodes: Iterable[ast.AST]) -> set[str]:
    return {n.value for n in nodes if isinstance(n, ast.Constant) and isinstance(n.value, str)}


def test_no_room_but_the_logbook_keeps_a_table_of_entries_or_of_their_fields() -> None:
    """What an entry means is said once, beside its type (`logbook/fields.py`, `kinds.py`)."""
    words = set(BY_WORD)
    fields = {field.name for kind in KINDS_OF_ENTRY.values() for field in kind.fields}
    naming = {f.name for kind in KINDS_OF_ENTRY.values() for f in kind.fields if f.names}
    naming -= NAMES.keys()  # a field may be called as what it holds: "task", "piece"
    for path in FILES:
        if room_of(path) == "logbook":
            continue
        for listed in collections(path):
            where = f"{path.relative_to(HOUSE)}: {sorted(listed)}"
            assert len(listed & words) <= len(words) // 4, f"a second table of kinds in {where}"
            assert len(listed & fields) <= len(fields) // 3, f"a second table of fields in {where}"
            assert not {"who", "crew"} <= listed, f"the fields of people again in {where}"
            assert len(listed & naming) <= 5, f"the fields that name something again in {where}"


def literals(path: Path) -> Iterator[tuple[int, set[str]]]:
    """The texts, and names of things, that stand side by side in a list, a set or as keys."""
    for node in nodes_of(path):
        keys = node.keys if isinstance(node, ast.Dict) else getattr(node, "elts", [])
        texts = {str(key.value) for key in keys if isinstance(key, ast.Constant)}
        yield getattr(node, "lineno", 0), texts | {k.id for k in keys if isinstance(k, ast.Name)}


def test_the_kinds_of_holds_are_listed_in_one_place() -> None:
    from crewboard.plan.hold import KINDS

    for path in FILES:
        if path != HOUSE / "plan/hold.py":
            for line, words in literals(path):
                assert len(words & KINDS.keys()) < 3, f"{path}:{line}: a second table of holds"


def test_the_kinds_of_entries_are_listed_in_one_place() -> None:
    """Room by room only what one room wants of some kinds: of three at most, or where the room
    chooses among all (the day sheet leaves out what it tells elsewhere)."""
    import crewboard.logbook.acts  # noqa: F401  (where they are described)
    from crewboard.logbook.kinds import BY_WORD

    kinds = BY_WORD.keys() | {kind.act.__name__ for kind in BY_WORD.values()}
    for path in FILES:
        if room_of(path) != "logbook" and path != HOUSE / "telling/day_sheet.py":
            for line, words in literals(path):
                assert len(words & kinds) < 5, f"{path}:{line}: a second table of entries"


# What may be done by whom: read where the question is answered.
ANSWERS = ("order/may/", "order/safety/signatures.py", "order/safety/checks.py")
RULES = {
    "not_near": ANSWERS,
    "not_after": (*ANSWERS, "order/day_plan/team.py"),
    "needs_beside": (*ANSWERS, "order/day_plan/team.py"),
    "has_certificate": (*ANSWERS, "order/safety/certificates.py"),
    "adults_only": ANSWERS,
}


@pytest.mark.parametrize("name", RULES)
def test_nobody_keeps_a_rule_of_their_own_of_who_may_do_what(name: str) -> None:
    """The order of work asks `order/may`; folders, forms and sheets spell and show the values."""
    for path in (HOUSE / "order").rglob("*.py"):
        where = path.relative_to(HOUSE).as_posix()
        names = {
            node.attr if isinstance(node, ast.Attribute) else getattr(node, "id", "")
            for node in nodes_of(path)
        }
        if name in names:
            assert where.startswith(RULES[name]), f"{where} reads {name}"


# Ages and numbers of people: who defines, spells, reads or shows them as the plan has them, may
# read them; whoever draws a conclusion from them asks `order/may`.
OF_THE_PLAN = {
    "minor_on": (
        *("plan/", "order/may/", "order/safety/signatures.py"),
        *("telling/crew.py", "telling/person.py", "command/json_folder.py"),
    ),
    "least_people": (
        *("plan/", "order/may/", "order/ahead/effort.py", "folder/read/"),
        *("telling/task.py", "terminal/planning/", "command/json_task.py"),
    ),
}


@pytest.mark.parametrize("name", OF_THE_PLAN)
def test_nobody_concludes_from_ages_or_numbers_of_people_but_the_room_that_answers(
    name: str,
) -> None:
    for path in FILES:
        if any(isinstance(node, ast.Attribute) and node.attr == name for node in nodes_of(path)):
            where = path.relative_to(HOUSE).as_posix()
            assert where.startswith(OF_THE_PLAN[name]), f"{where} reads {name}"


def test_all_who_say_who_may_do_what_ask_one_room() -> None:
    asking = (
        *("order/ahead/first.py", "order/admit/rules.py", "order/day_plan/jobs.py"),
        *("order/day_plan/team.py", "order/day_plan/apart.py", "order/day_plan/reasons.py"),
        *("order/forecast/who_may.py", "order/safety/briefing.py", "terminal/doing/begin.py"),
        *("order/programme/jobs.py", "order/programme/crews.py", "order/programme/around.py"),
        *("order/review/resources.py", "order/forecast/ways.py", "order/safety/unchecked.py"),
    )
    for each in asking:
        asked = [name for name in imported(HOUSE / each) if ".order.may." in name]
        assert asked, f"{each} does not ask order/may"
