"""A hazard sheet in plain lines, each number with its source and mark."""

from __future__ import annotations

from crewboard.order.said import day_in_words, listed
from crewboard.paper.plain import Paper
from crewboard.plan.hazard import CAUTION, Check, Hazard, Law, Number


def hazard_sheet(hazard: Hazard, width: int) -> list[str]:
    """The whole sheet."""
    paper = Paper(width)
    paper.line(f"{hazard.name}  [{hazard.id}]", hang=2)
    paper.line(CAUTION)
    paper.heading("What can happen")
    paper.items(hazard.told(each) for each in hazard.harm)
    for when in ("before", "during", "after"):
        checks = [each for each in hazard.checks if each.when == when]
        if checks:
            paper.heading(f"{when.capitalize()} the work")
            paper.items(_check(hazard, each) for each in checks)
    paper.line()
    gear_and_limits(paper, hazard)
    if hazard.if_wrong:
        paper.heading("If it goes wrong")
        paper.items(hazard.told(each) for each in hazard.if_wrong)
    numbers(paper, hazard)
    if hazard.laws:
        paper.heading("Law")
        paper.items(_law(hazard, each) for each in hazard.laws)
    return paper.lines


def gear_and_limits(paper: Paper, hazard: Hazard) -> None:
    """Gear, people, certificates, clocks, what may not happen near it, and what prevails."""
    facts = [
        ("gear", listed(hazard.told(each) for each in hazard.gear)),
        ("least people", str(hazard.people) if hazard.people > 1 else ""),
        ("certificates", listed(f"{c.kind} ({c.who})" for c in hazard.certificates)),
        ("clocks", listed(f"{kind} {rule.amount}" for kind, rule in _clocks(hazard))),
        ("not near", listed(hazard.not_near)),
        ("not after", listed(hazard.not_after)),
        ("under 18", "" if hazard.under_18 else f"no: {hazard.under_18_why}".rstrip(": ")),
        ("goes before this sheet", "; ".join(hazard.prevail)),
    ]
    for name, says in facts:
        if says:
            paper.line(f"{name}: {says}", indent=2, hang=2)
    for each in hazard.weakened:
        on = f" on {day_in_words(each.on)}" if each.on else ""
        paper.line(f"Less than the usual: {each.what}", indent=2, hang=2)
        paper.line(f"decided by {each.decided_by}{on}: {each.why}", indent=4, hang=2)


def _clocks(hazard: Hazard) -> list[tuple[str, Number]]:
    """Each clock's kind, and the number that sets it."""
    return [(c.kind, rule) for c in hazard.clocks if (rule := hazard.ruling(c)) is not None]


def numbers(paper: Paper, hazard: Hazard) -> None:
    """Where the sheet's numbers come from."""
    if hazard.numbers:
        paper.line("numbers:", indent=2)
        for each in hazard.numbers:
            paper.line(f"- {number_in_words(each)}", indent=4, hang=2)


def number_in_words(number: Number) -> str:
    """ "60 min: the fire watch after hot work (source, edition, where, read on ...; verified)"."""
    mark = "unverified: from memory" if number.mark == "from memory" else number.mark
    read = f", read {day_in_words(number.read)}" if number.read else ""
    source = f"{number.source}, {number.edition}" if number.edition else number.source
    return f"{number.amount}: {number.says} ({source}, {number.where}{read}; {mark})"


def _check(hazard: Hazard, check: Check) -> str:
    signs = {"anyone": "", "lead": ", by a lead"}.get(check.signs, f', with "{check.signs}"')
    return f"{hazard.told(check.text)} [{check.id}] (signed each {check.every}{signs})"


def _law(hazard: Hazard, law: Law) -> str:
    mark = "unverified: from memory" if law.mark == "from memory" else law.mark
    return f"{law.where}: {hazard.told(law.says)} ({law.source}, {law.edition}; {mark})"
