"""The list of the plan's keys, held against what the readers ask for and accept."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from crewboard.folder.edit.new import NewVehicle, new_folder
from crewboard.folder.read import table
from crewboard.folder.read.component_file import decode_component
from crewboard.folder.read.fault import Misfit
from crewboard.folder.read.hazard_decode import decode_sheet
from crewboard.folder.read.keys import FILES, PlanKey
from crewboard.folder.read.lists import decode_crew, decode_supplies
from crewboard.folder.read.table import Table
from crewboard.folder.read.vehicle_file import decode_vehicle
from crewboard.folder.toml.decode import parse_text
from crewboard.folder.toml.meant import with_value

# Tables whose keys are names of the crew's choice.
FAMILIES = {
    "people",
    "periods",
    "supplies",
    "parts",
    "tasks",
    "certificates",
    "numbers",
    "checks",
    "clocks",
} | {
    "pieces",
    "jigs",
    "room",
    "enough",
    "within",
}


def _sheet(values: dict[str, Any]) -> tuple[object, list[Misfit]]:
    misfits: list[Misfit] = []
    outer = Table(values, (), misfits)
    for name, sheet in ((key, Table(values[key], (key,), misfits)) for key in outer.values):
        decode_sheet(name, sheet, own=True)
        sheet.done()
    return None, misfits


READERS: dict[str, Callable[[dict[str, Any]], tuple[Any, list[Misfit]]]] = {
    "vehicle.toml": decode_vehicle,
    "crew.toml": decode_crew,
    "supplies.toml": decode_supplies,
    "components/NAME.toml": lambda values: decode_component("deck", values),
    "hazards.toml": _sheet,
}


def one_of_each(keys: tuple[PlanKey, ...]) -> dict[str, Any]:
    """A file in which every key stands with its example; what the crew names is called after its
    family. Of a list whose items may be tables, one is."""
    whole: dict[str, Any] = {}
    for each in sorted(keys, key=lambda key: key.key.count(".")):
        path: list[str | int] = []
        for part in each.key.split("."):
            family = str(path[-1]) if path else "sheet"
            path += [family.removesuffix("s") if part == "NAME" else part]
            if part in (
                "also",
                "closed",
                "holidays",
                "away",
                "laws",
                "reporting",
                "first_aid",
            ) and not each.key.endswith(part):
                path.append(0)
        value = _value(each.value)
        if path[-1] == "certificates" and family == "people":
            continue
        for at in range(len(path) - 1):
            inner = tuple(path[: at + 1])
            if not isinstance(_at(whole, inner), dict | list) or (
                isinstance(path[at + 1], int) and not _tables(_at(whole, inner))
            ):
                whole = with_value(whole, inner, [{}] if isinstance(path[at + 1], int) else {})
        whole = with_value(whole, tuple(path), value)
    return whole


def _at(data: Any, path: tuple[str | int, ...]) -> Any:
    for key in path:
        try:
            data = data[key]
        except (KeyError, IndexError, TypeError):
            return None
    return data


def _tables(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(each, dict) for each in value)


def _value(written: str) -> Any:
    values = parse_text(f"value = {written}")
    assert isinstance(values, dict), written
    return values["value"]


@pytest.mark.parametrize("file", FILES)
def test_every_key_of_the_list_is_read_and_every_key_that_is_read_is_in_the_list(
    file: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = set[str]()
    real = Table._take

    def noting(self: Table, key: str) -> Any:
        asked.add(".".join(_names((*self.path, key), file)))
        return real(self, key)

    monkeypatch.setattr(table.Table, "_take", noting)
    _, misfits = READERS[file](one_of_each(FILES[file]))
    assert [misfit for misfit in misfits if misfit.code == "unknown-key"] == []
    listed = {each.key for each in FILES[file]}
    tables = {key.rpartition(".")[0] for key in listed} | FAMILIES
    assert asked - listed <= {each for each in asked if each in tables or _family(each)}
    assert {key for key in listed if not key.endswith(".NAME")} <= asked


def _names(path: tuple[str | int, ...], file: str) -> Iterator[str]:
    named = file == "hazards.toml"
    for part in path:
        if isinstance(part, int):
            continue
        yield "NAME" if named else part
        named = part in FAMILIES and not named


def _family(key: str) -> bool:
    return key.rpartition(".")[2] in FAMILIES | {
        "laws",
        "reporting",
        "work_days",
        "shop",
        "conditions",
    }


def test_a_new_folder_names_every_key_in_its_files(tmp_path: Path) -> None:
    new_folder(tmp_path, NewVehicle("Van", people=("Ada",), components=("frame", "deck")))
    files = {"components/NAME.toml": "components/frame.toml"}
    for file in FILES.keys() - {"hazards.toml"}:
        lines = (tmp_path / files.get(file, file)).read_text().splitlines()
        for each in FILES[file]:
            key = each.key.rpartition(".")[2]
            assert any(
                line.lstrip("# ").startswith(f"{key} = ") and f"# {each.says}" in line
                for line in lines
            ), f"{file}: {each.key}"
