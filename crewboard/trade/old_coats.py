"""How long the coats of lead and oil waited, as old books have it: history, never a default."""

from crewboard.trade.reckoning import Source

_CYCLOPEDIA = "a painting cyclopedia"
_RECEIPTS = "Workshop Receipts, second series"
_BURGESS = "Burgess, Coach-Building, 1881"

OLD_COATS: tuple[Source, ...] = (
    Source("rough-stuff, first coat: 48 h; holes puttied after 24 h", _CYCLOPEDIA, "verified"),
    Source(
        "rough-stuff, coats 2 to 4: a day apart; after rubbing it dries out",
        _CYCLOPEDIA,
        "verified",
    ),
    Source(
        "rubbing varnish: 5 days; the second: 8; the wearing body: about 10", _RECEIPTS, "verified"
    ),
    Source(
        "a first-class railway coach, painted in all: twelve weeks",
        f"an address of master car-painters, in {_RECEIPTS}",
        "verified",
    ),
    Source("a body before its colour: 1 + 2 + 5 + 1 + 2 + 1 = 12 coats", _BURGESS, "verified"),
    Source("carriage parts before their colour: 2 + 2 + 1 = 5 coats", _BURGESS, "verified"),
    Source(
        "timber seasoned a year for each inch; thin stuff planed first, and stood with slips",
        _BURGESS,
        "verified",
    ),
)
CAUTION = "the old waits are of lead and oil: history, never for what is in the tin"
