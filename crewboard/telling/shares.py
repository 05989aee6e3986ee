"""How much is original, in words: each measure by itself, its basis named."""

from collections.abc import Mapping
from fractions import Fraction

from crewboard.fabric.shares import Share
from crewboard.order.said import how_many
from crewboard.plan.extent import Extent, shown

_MAYBE, _NEW = "maybe original", "not original"  # the two parts of what nobody said


def share_in_words(share: Share, units: str) -> str:
    """ "63 % original by length (12.4 m, 9 pieces); 20 % replaced in kind; of 17 % nobody said".
    What is shown adds up to 100 %."""
    parts = _parts(share)
    whole = whole_percents(parts)
    by_size = sorted(parts.items(), key=lambda item: -item[1])
    told = [
        f"{_percent(part, whole[sort])} {sort}"
        for sort, part in by_size
        if sort not in ("original", _MAYBE, _NEW) and part
    ]
    if unsaid := parts[_MAYBE] + parts[_NEW]:
        told.append(f"of {_percent(unsaid, whole[_MAYBE] + whole[_NEW])} nobody said")
    return "; ".join([counted_in_words(share, units), *told])


def counted_in_words(share: Share, units: str) -> str:
    """ "63 % original by length (12.4 m, 9 pieces)"."""
    amount = how_many(share.pieces, "piece")
    if share.basis != "pieces":
        amount = f"{shown(Extent(share.basis, share.amount), units)}, {amount}"
    return f"{original_in_words(share)} original by {share.basis} ({amount})"


def original_in_words(share: Share) -> str:
    """ "97 %"; "61 to 97 %" where nobody said how much a splice kept."""
    whole = whole_percents(_parts(share))
    least = _percent(share.original, whole["original"])
    most = _percent(share.most_original, whole["original"] + whole[_MAYBE])
    return least if least == most else f"{least.removesuffix(' %')} to {most}"


def _parts(share: Share) -> dict[str, Fraction]:
    """All of it by sorts; what nobody said is parted into what may be original and what is not."""
    parts: dict[str, Fraction] = {"original": share.original}
    parts.update({str(sort): part for sort, part in share.sorts.items()})
    unsaid = share.open + parts.pop("unknown", Fraction(0))
    parts[_MAYBE] = share.most_original - share.original
    parts[_NEW] = unsaid - parts[_MAYBE]
    return parts


def whole_percents(parts: Mapping[str, Fraction]) -> dict[str, int]:
    """Shares of a whole in whole percents that add up to 100: the percents that rounding down
    leaves over go to the largest remainders (method of the largest remainder, as seats are shared
    out), of like ones to the larger share."""
    whole = {sort: int(part * 100) for sort, part in parts.items()}
    left = 100 - sum(whole.values())
    by_rest = sorted(parts, key=lambda sort: (whole[sort] - parts[sort] * 100, -parts[sort]))
    for sort in by_rest[:left]:
        whole[sort] += 1
    return whole


def _percent(share: Fraction, whole: int) -> str:
    """ "97 %"; never "0 %" or "100 %" of what is a little more or less."""
    if whole == 0 and share:
        return "less than 1 %"
    if whole == 100 and share != 1:
        return "more than 99 %"
    return f"{whole} %"
