"""Which module of crewboard/ imports which, wherever in the file the import stands."""

from __future__ import annotations

import ast
from collections.abc import Collection, Iterable, Mapping
from functools import cache
from pathlib import Path

HOUSE = Path(__file__).parent.parent / "crewboard"
Graph = Mapping[str, frozenset[str]]


def module_name(path: Path) -> str:
    """ "crewboard.folder" for crewboard/folder/__init__.py."""
    parts = path.relative_to(HOUSE.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


@cache
def import_graph() -> Graph:
    """Each module and those of ours that it imports, inside functions and for types included."""
    files = {module_name(path): path for path in sorted(HOUSE.rglob("*.py"))}
    return {name: frozenset(_imported(path, files.keys()) - {name}) for name, path in files.items()}


def _imported(path: Path, known: Collection[str]) -> set[str]:
    names = set[str]()
    for node in nodes_of(path):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            for alias in node.names:  # a module of that package, or something in that module
                inner = f"{node.module}.{alias.name}"
                names.add(inner if inner in known else node.module)
    return names & set(known)


def circles(graph: Graph) -> list[frozenset[str]]:
    """Modules that import one another, each such set once (Tarjan's strong components)."""
    number, lowest = dict[str, int](), dict[str, int]()
    stack, rings = list[str](), list[frozenset[str]]()

    def visit(module: str) -> None:
        number[module] = lowest[module] = len(number)
        stack.append(module)
        for other in graph[module]:
            if other not in number:
                visit(other)
                lowest[module] = min(lowest[module], lowest[other])
            elif other in stack:
                lowest[module] = min(lowest[module], number[other])
        if lowest[module] == number[module]:
            at = stack.index(module)
            if len(stack) - at > 1:
                rings.append(frozenset(stack[at:]))
            del stack[at:]

    for module in graph:
        if module not in number:
            visit(module)
    return rings


def reached(graph: Graph, doors: Iterable[str]) -> set[str]:
    """All that importing the doors' modules imports, at once or later, packages included."""
    inside, ahead = set[str](), list(doors)
    while ahead:
        module = ahead.pop()
        if module not in inside:
            inside.add(module)
            ahead += graph[module]
            if "." in module:
                ahead.append(module.rpartition(".")[0])
    return inside


def classes() -> dict[str, list[str]]:
    """The modules in which a class of each name is defined."""
    homes = dict[str, list[str]]()
    for path in sorted(HOUSE.rglob("*.py")):
        for node in nodes_of(path):
            if isinstance(node, ast.ClassDef):
                homes.setdefault(node.name, []).append(module_name(path))
    return homes


@cache
def nodes_of(path: Path) -> tuple[ast.AST, ...]:
    """Every node of a file, read and walked once for all that is asked of the house."""
    return tuple(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
