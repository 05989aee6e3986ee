"""The wet and the dry film of a coat, and the spreading rate that follows."""

from fractions import Fraction

from crewboard.plan.as_typed import Unread
from crewboard.trade.given import Ask, Given
from crewboard.trade.kind import KindOfReckoning
from crewboard.trade.measures import film_shown, number_shown, spreading_shown
from crewboard.trade.reckoning import Reckoning, Source

FILM = Source(
    "dry film = wet film x volume solids, thinned: x solids / (1 + thinner)",
    "coating makers' guides, worked examples",
    "verified",
)
SPREADING = Source(
    "a litre covers 1000 x solids / dry film in µm square metres (a gallon 1604 x solids / mil)",
    "coating makers' guides, worked examples",
    "verified",
)


def _answer(given: Given) -> Reckoning:
    units, share = given.units, given.percent("solids") / 100
    if not share:
        raise Unread("a paint without solids leaves no film", "write the solids by volume in %")
    thinned = share / (1 + given.percent("thinner") / 100)
    if given.has("wet") == given.has("dry"):
        raise Unread("say the wet film or the dry one", 'write "wet=..." or "dry=..."')
    wet = given.film("wet") if given.has("wet") else given.film("dry") / thinned
    dry = wet * thinned
    full = 1000 * share / dry
    reached = full * given.percent("transfer") / 100
    transfer = number_shown(given.percent("transfer"))
    lost = f", {spreading_shown(reached, units)} where {transfer} % arrives"
    return Reckoning(
        (
            f"wet {film_shown(wet, units)}, dry {film_shown(dry, units)}",
            f"a full tin covers {spreading_shown(full, units)}{lost if reached != full else ''}",
        ),
        (f"solids {_percent(share)}, as thinned {_percent(thinned)}",),
        (FILM, SPREADING),
        ("the solids are by volume, as the label or sheet says, not by weight",),
        figures={
            "wet_um": wet,
            "dry_um": dry,
            "spreading_m2_per_l": full,
            "spreading_with_loss_m2_per_l": reached,
        },
    )


def _percent(share: Fraction) -> str:
    return f"{number_shown(share * 100)} %"


KIND = KindOfReckoning(
    "film",
    "Film of a coat",
    (
        Ask("solids", "solids by volume, in %", "percent"),
        Ask("wet", "wet film, 200 µm or 8 mil", "film", needed=False),
        Ask("dry", "or the dry film that is wanted", "film", needed=False),
        Ask("thinner", "thinned by so much, in % of the paint", "percent", False, "0"),
        Ask("transfer", "how much arrives on the work, in %", "percent", False, "100"),
    ),
    _answer,
)
