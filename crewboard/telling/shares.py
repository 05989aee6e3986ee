"""How much is original, in words: each measure by itself, its basis named."""

from fractions import Fraction

from crewboard.fabric.shares import Share
from crewboard.order.said import how_many
from crewboard.plan.extent import SIGN


def share_in_words(share: Share) -> str:
    """ "63 % original by length (12.4 m, 9 pieces); 20 % replaced in kind; of 17 % nobody said"."""
    others = [
        f"{percent(part)} {sort}"
        for sort, part in sorted(share.sorts.items(), key=lambda item: -item[1])
        if sort not in ("original", "unknown") and part
    ]
    open_part = share.open + share.sorts.get("unknown", Fraction(0))
    unsaid = [f"of {percent(open_part)} nobody said"] if open_part else []
    return "; ".join([counted_in_words(share), *others, *unsaid])


def counted_in_words(share: Share) -> str:
    """ "63 % original by length (12.4 m, 9 pieces)"."""
    amount = how_many(share.pieces, "piece")
    if share.basis != "pieces":
        amount = f"{round(float(share.amount), 2):,.10g} {SIGN[share.basis]}, {amount}"
    return f"{original_in_words(share)} original by {share.basis} ({amount})"


def original_in_words(share: Share) -> str:
    """ "97 %"; "61 to 97 %" where nobody said how much a splice kept."""
    least, most = percent(share.original), percent(share.most_original)
    return least if least == most else f"{least.removesuffix(' %')} to {most}"


def percent(share: Fraction) -> str:
    """ "97 %"; never "0 %" or "100 %" of what is a little more or less."""
    whole = round(share * 100)
    if whole == 0 and share:
        return "less than 1 %"
    if whole == 100 and share != 1:
        return "more than 99 %"
    return f"{whole} %"
