"""`crewboard reckon --need` and `--pieces`: tins, boards and nails become what a task needs of a
supply, the boards of a layout pieces of the component."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewboard.folder.read.folder import Folder
from crewboard.logbook.acts import Reckoned
from crewboard.order.reckoning.needed import needed_for
from crewboard.plan.series import Series
from crewboard.plan.supply import Supply
from crewboard.trade.given import Given
from crewboard.trade.reckoning import Reckoning
from tests.command.calling import Shell
from tests.command.test_reckon import RIBS
from tests.order import small_plans

SUPPLIES = """
[supplies.varnish]
name = "Varnish"
quantity = "3 tins of 1 l"

[supplies.oil]
name = "Oil [raw]"
quantity = "2 l"

[supplies.planks]
name = "Planks"
quantity = "6 planks of 4 m"

[supplies.batten]
name = "Batten"
quantity = "22 m"

[supplies.nails]
name = "Copper nails"
quantity = "200"

[supplies.duck]
name = "Cotton duck"
quantity = "10 m"

[supplies.duck-sold]
name = "Canvas by the yard"
quantity = "12 yd"

[supplies.half-round]
name = "Half-round of ash"
quantity = "13 m"

[supplies.tacks]
name = "Copper tacks"
quantity = "600"

[supplies.glue]
name = "Glue"
quantity = "some"
"""
COATS = ("coats", "--task", "varnish", "--given", "coats=2", "rate=8 m2/l", "tin=1 l")
CANVAS = ("canvas", "--task", "varnish", "--given", "arc=2 m", "length=4 m", "tacks=20 mm")
LENGTHS = ("cutting", "--task", "varnish", "--given", "pieces=5 x 1.9 m")


@pytest.fixture
def shop(van: Path) -> Path:
    with (van / "components/frame.toml").open("a", encoding="utf-8") as frame:
        frame.write(RIBS)
    with (van / "supplies.toml").open("a", encoding="utf-8") as supplies:
        supplies.write(SUPPLIES)
    return van


def needs(shop: Path) -> dict[str, float]:
    task = Folder(shop).plan.tasks["frame/varnish"]
    assert set(task.amounts) <= set(task.supplies)
    return dict(task.amounts)


def test_tins_litres_boards_and_nails_by_what_the_supply_is_counted_in(
    call: Shell, shop: Path
) -> None:
    nails = ("fastenings", "--task", "varnish", "--given", "length=2 m", "spacing=100 mm")
    for typed, supply in (
        (COATS, "varnish"),
        (COATS, "Oil [raw]"),
        ((*LENGTHS, "stock=6 x 4 m"), "planks"),
        ((*LENGTHS, "stock=6 x 4 m"), "batten"),
        (nails, "nails"),
    ):
        ended = call("reckon", shop, *typed, "--need", supply)
        assert ended.code == 0, ended.err
    # 7.5 m2 twice at 8 m2/l, a tenth lost: 2.083 l, rounded up; a nail each 100 mm with both ends.
    nailed = call("reckon", shop, *nails, "--json").form["figures"]["with_spare"]
    assert needs(shop) == {"varnish": 3, "oil": 2.09, "planks": 3, "batten": 12, "nails": nailed}
    assert nailed >= 21
    assert call("check", shop).code == 0


def test_canvas_its_tacks_and_the_moulding_over_them_each_in_its_own_unit(
    call: Shell, shop: Path
) -> None:
    """Worked by hand: 4 m of roof with 100 mm turned at both ends are 4.2 m, cloths of 1.6 m lapped
    50 mm: (4.2 - 0.05) / 1.55, so 3, each the 2 m of the arc and twice 75 mm: 6.45 m, which are
    7.06 yards rounded up. Round it 2 x (2 + 4) = 12 m, a tack each 20 mm: 600."""
    typed = (*CANVAS, "side_turn=75 mm", "end_turn=100 mm", "cloth=1.6 m", "lap=50 mm")
    for supply in ("duck", "duck-sold", "half-round", "tacks"):
        ended = call("reckon", shop, *typed, "--need", supply)
        assert ended.code == 0, ended.err
    assert needs(shop) == {"duck": 6.45, "duck-sold": 7.06, "half-round": 12, "tacks": 600}


def test_what_a_series_needs_is_divided_among_its_pieces_and_never_asks_for_more(
    call: Shell, shop: Path
) -> None:
    """A tin for both ribs is half a tin each; reckoned for one rib it is a tin for each."""
    tin = ("--given", "area=1 m2", "coats=1", "rate=8 m2/l", "tin=1 l", "--need", "varnish")
    ended = call("reckon", shop, "coats", "--task", "bend", *tin)
    assert ended.code == 0, ended.err
    assert '"Bend the ribs" needs 1 tin of 1 l: Varnish, 0.5 for each' in " ".join(
        ended.out.split()
    )
    plan = Folder(shop).plan
    assert [plan.tasks[f"frame/bend/ribs/{n}"].amounts["varnish"] for n in (1, 2)] == [0.5, 0.5]
    assert call("reckon", shop, "coats", "--task", "bend/ribs/1", *tin).code == 0
    plan = Folder(shop).plan
    assert [plan.tasks[f"frame/bend/ribs/{n}"].amounts["varnish"] for n in (1, 2)] == [1, 1]
    assert call("check", shop).code == 0


@given(st.integers(1, 40), st.integers(1, 60))
def test_the_pieces_of_a_series_never_want_more_than_was_reckoned(tins: int, pieces: int) -> None:
    task = small_plans.task("c/a", hours=None)
    members = {f"c/p/{n}": f"c/a/p/{n}" for n in range(pieces)}
    plan = small_plans.plan([])._replace(series={"c/a": Series(task, members, pieces)})
    supply = Supply("varnish", "Varnish", quantity=f"{tins} tins")
    answer = Reckoning(("",), figures={"tins": tins})
    needed = needed_for(plan, "c/a", supply, "coats", Given({}), answer)
    assert needed.amount == tins
    assert sum(needed.each for _ in members) <= tins, "as supplies are summed"
    assert abs(needed.each * pieces - tins) < 1e-4


def test_it_says_what_the_task_needs_and_that_it_is_more_than_the_plan_has(
    call: Shell, shop: Path
) -> None:
    ended = call("reckon", shop, *COATS, "--need", "oil")
    assert '"Varnish the panel" needs 2.09 l: Oil [raw]' in ended.out
    assert "its tasks want 2.09 l, supplies.toml says 2" in ended.out
    assert "its tasks want" not in call("reckon", shop, *COATS, "--need", "varnish").out


def test_with_keep_the_answer_is_kept_too(call: Shell, shop: Path) -> None:
    ended = call("reckon", shop, *COATS, "--need", "varnish", "--keep", "--by", "ada")
    assert ended.code == 0, ended.err
    acts = [entry.act for entry in Folder(shop).logbook.record()]
    assert sum(isinstance(act, Reckoned) for act in acts) == 1
    assert needs(shop) == {"varnish": 3}


@pytest.mark.parametrize(
    ("typed", "supply", "says"),
    [
        (COATS, "planks", 'is counted in "planks of 4 m", this gives tins or litres'),
        (COATS, "glue", 'the supply "Glue" is not counted'),
        (COATS, "nothing", 'there is no supply "nothing"'),
        ((*COATS[:5], "rate=8 m2/l"), "varnish", "give the tin's size too"),
        ((*COATS[:6], "tin=2.5 l"), "varnish", "comes in 1 l, another size was reckoned with"),
        ((*LENGTHS, "stock=9 x 3 m"), "planks", "comes in 4 m, another size"),
        (("arc", "--task", "varnish", "--given", "chord=1 m", "rise=9 cm"), "nails", "no quantity"),
        (("coats", "--given", "area=1 m2", *COATS[4:]), "varnish", "say which task needs it"),
        (
            (*CANVAS, "cloth=1.6 m"),
            "batten",
            "square metres of canvas or m of canvas or m of mo",
        ),
        (CANVAS, "duck", "give the width of the cloth too"),
    ],
)
def test_what_does_not_fit_is_refused_in_a_sentence(
    call: Shell, shop: Path, typed: tuple[str, ...], supply: str, says: str
) -> None:
    before = (shop / "components/frame.toml").read_bytes()
    ended = call("reckon", shop, *typed, "--need", supply)
    assert ended.code in (1, 2)
    assert says in ended.err
    assert (shop / "components/frame.toml").read_bytes() == before


DECK = ("boards", "--task", "varnish", "--given", "width=300 mm", "gap=0 mm", "tolerance=0 mm")


def test_the_boards_of_a_layout_become_pieces_where_they_lie(call: Shell, shop: Path) -> None:
    laid = (*DECK, "stock=2 x 100, 1 x 60, 1 x 40 mm")
    figures = call("reckon", shop, *laid, "--json").form["figures"]["boards"]
    ended = call("reckon", shop, *laid, "--pieces", "deck boards")
    assert ended.code == 0, ended.err
    assert "added to" in ended.out
    plan = Folder(shop).plan
    pieces = [plan.pieces[one] for one in plan.several["frame/deck-boards"]]
    assert [(p.size, p.place) for p in pieces] == [
        (f"{board['width_mm']} mm wide", f"{board['at_mm']} mm from the left edge")
        for board in figures
    ]
    assert len(pieces) == 4
    assert call("check", shop).code == 0
    again = call("reckon", shop, *laid, "--pieces", "deck boards")
    assert again.code == 2
    assert "are there already" in again.err


def test_what_lays_no_boards_makes_no_pieces(call: Shell, shop: Path) -> None:
    refused = call("reckon", shop, *COATS, "--pieces", "boards")
    assert refused.code == 2
    assert "no new boards are laid in this" in refused.err
    nowhere = call("reckon", shop, "boards", *DECK[3:], "stock=3 x 100 mm", "--pieces", "boards")
    assert "say of which task" in nowhere.err
