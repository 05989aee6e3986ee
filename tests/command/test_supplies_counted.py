"""Supplies are counted alike by every command that speaks of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command.calling import Shell
from tests.folder.a_vehicle import FILES, make

AT = ("--at", "2026-05-16T10:00")
BY = (*AT, "--by", "ada")
COUNTED = "1 here, 7 short, 4 still to come"


def _bus(root: Path, supply: str, task: str = 'supplies = ["bolts"]') -> Path:
    files = {
        "vehicle.toml": FILES["vehicle.toml"],
        "crew.toml": '[people.ada]\nname = "Ada Test"\n',
        "supplies.toml": f'[supplies.bolts]\nname = "Bolts"\n{supply}\n',
        "components/deck.toml": f'name = "Deck"\n[tasks.lay]\ntitle = "Lay the deck"\n{task}\n',
    }
    return make(root / "bus", {path: text.encode() for path, text in files.items()})


def _flat(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize(
    ("supply", "task"),
    [
        ('quantity = "8 of 10 mm"', 'supplies = ["bolts"]'),
        ('quantity = 8\nunit = "pieces"', 'supplies = ["bolts"]'),
        ("", 'supplies = ["bolts"]\namounts = { bolts = 8 }'),
    ],
)
def test_every_command_counts_a_supply_alike(
    call: Shell, tmp_path: Path, supply: str, task: str
) -> None:
    bus = _bus(tmp_path, supply, task)
    assert call("check", bus, *AT).code == 0
    call("ordered", bus, "bolts", "--amount", "10", "--due", "2026-05-30", *BY)
    call("arrived", bus, "bolts", "--amount", "6", *BY)
    call("sent-back", bus, "bolts", "--amount", "2", "--why", "bent", *BY)
    call("used", bus, "bolts", "--amount", "3", *BY)
    for command in (("day", bus), ("why", bus, "lay"), ("review", bus), ("supplies", bus)):
        assert COUNTED in _flat(call(*command, *AT).out), command
    assert COUNTED in _flat(call("begin", bus, "lay", "--who", "ada", *BY).err)
    assert "promised for Sat 30 May 2026" in _flat(call("why", bus, "lay", *AT).out)


def test_an_order_after_a_return_makes_it_short_again(call: Shell, tmp_path: Path) -> None:
    bus = _bus(tmp_path, "")
    call("ordered", bus, "bolts", *BY)
    assert "ordered, no date promised" in _flat(call("why", bus, "lay", *AT).out)
    call("arrived", bus, "bolts", *BY)
    assert '"Lay the deck": ready' in call("why", bus, "lay", *AT).out
    call("sent-back", bus, "bolts", "--why", "the wrong thread", *BY)
    assert "Bolts: not ordered yet" in call("why", bus, "lay", *AT).out
    call("ordered", bus, "bolts", "--due", "2026-05-10", *BY)
    late = "Bolts: ordered, overdue: was promised for Sun 10 May 2026"
    assert late in _flat(call("why", bus, "lay", *AT).out)
    call("arrived", bus, "bolts", *BY)
    assert '"Lay the deck": ready' in call("why", bus, "lay", *AT).out


def test_a_delivery_that_is_not_as_ordered_is_a_line_with_its_reason(
    call: Shell, tmp_path: Path
) -> None:
    bus = _bus(tmp_path, "quantity = 8")
    call("arrived", bus, "bolts", "--amount", "6", "--unlike", "8 mm, not 10", *BY)
    call("arrived", bus, "bolts", "--amount", "1", "--defects", "rusty", *BY)
    listed = _flat(call("supplies", bus, *AT).out)
    assert "7 here, 1 short, not ordered yet" in listed
    assert "Sat 16 May 2026: unlike the order: 8 mm, not 10" in listed
    assert "Sat 16 May 2026: accepted with defects: rusty" in listed
    log = _flat(call("log", bus).out)
    assert "Bolts arrived: 6, unlike the order: 8 mm, not 10" in log


def test_what_a_task_needs_is_named_among_its_supplies(call: Shell, tmp_path: Path) -> None:
    bus = _bus(tmp_path, "", 'supplies = ["bolts"]\namounts = { nuts = 8 }')
    told = _flat(call("check", bus, *AT).out)
    assert '"nuts" is none of the supplies of this task' in told


def test_the_list_of_orders_names_what_is_short_and_nobody_ordered(
    call: Shell, tmp_path: Path
) -> None:
    bus = _bus(tmp_path, "quantity = 8")
    call("ordered", bus, "bolts", "--amount", "5", *BY)
    form = call("supplies", bus, *AT, "--json").form
    [bolts] = form["supplies"]
    assert (bolts["here"], bolts["short"], bolts["to_come"], bolts["unordered"]) == (0, 8, 5, 3)
    assert bolts["tasks"] == ["deck/lay"]


def test_what_was_never_here_is_sent_back_or_used_only_with_a_reason(
    call: Shell, tmp_path: Path
) -> None:
    bus = _bus(tmp_path, 'quantity = "8 of 10 mm"')
    sent = call("sent-back", bus, "bolts", "--amount", "2", *BY)
    assert sent.code == 1
    assert "Bolts: only 0 of 2 are here" in sent.err
    assert "write down first what arrived" in _flat(sent.err)
    call("arrived", bus, "bolts", "--amount", "6", *BY)
    assert call("used", bus, "bolts", "--amount", "60", *BY).code == 1
    assert call("used", bus, "bolts", "--amount", "6", *BY).code == 0
    despite = ("--despite", "out of the old box")
    assert call("used", bus, "bolts", "--amount", "2", *despite, *BY).code == 0
