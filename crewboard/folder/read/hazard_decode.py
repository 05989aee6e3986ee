"""One hazard sheet as a TOML table -> `Hazard`, with every mistake."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, cast, get_args

from crewboard.folder.read.fault import nearest
from crewboard.folder.read.table import Table
from crewboard.plan.bench_card import BenchCard
from crewboard.plan.hazard import (
    CertificateNeed,
    Check,
    Clock,
    Concerns,
    Every,
    Guards,
    Hazard,
    Law,
    Mark,
    Near,
    Number,
    When,
    references,
)
from crewboard.plan.units import Safe

EVERY = get_args(Every)
GUARDS = get_args(Guards)
MARKS = get_args(Mark)
WHEN = get_args(When)
# What a crew's own number is where its sheet does not say otherwise.
OWN_SOURCE = "this crew"
OWN_MARK: Mark = "crew's rule"


def decode_sheet(hazard_id: str, table: Table, *, own: bool = False) -> Hazard:
    """The hazard as far as it can be read; mistakes are told to the table.

    `own` sheets are the crew's: their numbers need no source, they are the crew's rule.
    """
    numbers = tuple(decode_numbers(table, own=own))
    hazard = Hazard(
        id=hazard_id,
        name=table.text("name", hazard_id, needed=True),
        harm=table.names("harm"),
        checks=tuple(decode_checks(table)),
        gear=table.names("gear"),
        numbers=numbers,
        not_near=table.names("not_near"),
        near=cast("Near", table.one_of("near", get_args(Near), "shop")),
        not_after=table.names("not_after"),
        clocks=tuple(decode_clocks(table)),
        certificates=tuple(decode_certificates(table)),
        under_18=table.flag("under_18", True),
        under_18_why=table.text("under_18_why"),
        if_wrong=table.names("if_wrong"),
        laws=tuple(_laws(table, "laws")),
        prevail=table.names("prevail"),
        concerns=cast("Concerns", table.one_of("concerns", get_args(Concerns), "task")),
        own=own,
        closes_place=table.flag("closes_place"),
        reporting=tuple(_laws(table, "reporting")),
        words=table.names("words"),
        words_not=table.names("words_not"),
        watch=table.text("watch"),
        training=table.flag("training"),
        card=decode_card(table),
        first_aid=tuple(_laws(table, "first_aid")),
        do_not_use=table.text("do_not_use"),
    )
    return with_people(hazard, table)


def decode_card(table: Table) -> BenchCard:
    """[card]; an empty one where the sheet has none."""
    row = table.table("card")
    if row is None:
        return BenchCard()
    card = BenchCard(
        row.text("kills"),
        row.names("wear"),
        row.names("check"),
        row.names("wrong"),
        row.names("look_up"),
        _law_in_short(row.table("law")),
    )
    row.done()
    return card


def _law_in_short(table: Table | None) -> dict[str, str]:
    """[card.law]: US = "Fire watch {watch-rule}." """
    return {} if table is None else {where: table.text(where) for where in table.values}


def with_people(hazard: Hazard, table: Table) -> Hazard:
    """`least_people` names a number of the sheet; a crew may simply write 3."""
    value = table.any("least_people")
    if value is None:
        return hazard
    if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 100:
        number = own_number("people-own", value, "people", "least number of people for this work")
        return hazard._replace(numbers=(*hazard.numbers, number), least_people=number.id)
    if isinstance(value, str) and hazard.number(value) is not None:
        return hazard._replace(least_people=value)
    known = nearest(str(value), (n.id for n in hazard.numbers))
    table.tell("least_people", "unknown-name", f'"{value}" is no number of this sheet', known)
    return hazard


def own_number(number_id: str, value: float, unit: str, words: str) -> Number:
    """A number that the crew set itself."""
    return Number(number_id, value, unit, words, OWN_SOURCE, "anywhere", "", None, OWN_MARK)


def decode_numbers(table: Table, *, own: bool) -> Iterator[Number]:
    for number_id, row in table.tables("numbers"):
        value = row.day("value") if _is_day(row) else row.number("value")
        number = Number(
            number_id,
            value if value is not None else 0.0,
            row.text("unit"),
            row.text("says"),
            row.text("source", OWN_SOURCE if own else "", needed=not own),
            row.text("where", "anywhere"),
            row.text("edition", needed=not own),
            row.day("read"),
            cast("Mark", row.one_of("mark", MARKS, OWN_MARK if own else "from memory")),
            cast("Safe", row.one_of("safe", ("more", "less"))),
        )
        if value is None and "value" not in row:
            row.tell(None, "missing", f'"value" is missing in "{number_id}"', "add value = 60")
        row.done()
        if value is not None and row.well_named():
            yield number


def _is_day(table: Table) -> bool:
    return not isinstance(table.values.get("value"), int | float)


def decode_checks(table: Table) -> Iterator[Check]:
    for check_id, row in table.tables("checks"):
        if row.well_named():
            yield decode_check(check_id, row, None)


def decode_check(check_id: str, table: Table, before: Check | None) -> Check:
    """A check; what the table leaves out is as it was `before`, where it changes one."""
    usual = before or Check(check_id, "before", "")
    check = Check(
        check_id,
        cast("When", table.one_of("when", WHEN, usual.when)),
        table.text("text", usual.text, needed=before is None),
        cast("Every", table.one_of("every", EVERY, usual.every)),
        table.text("signs", usual.signs),
        table.text("interval", usual.interval),
        table.flag("last_out", usual.last_out),
        table.flag("waivable", usual.waivable),
        table.flag("licensed", usual.licensed),
        table.text("names", usual.names),
        table.text("title", usual.title),
    )
    if before is None:
        if "when" not in table:
            hint = 'add when = "before", "during" or "after"'
            table.tell(None, "missing", f'"when" is missing in the check "{check_id}"', hint)
        table.done()
    return check


def decode_clocks(table: Table) -> Iterator[Clock]:
    for clock_id, row in table.tables("clocks"):
        clock = Clock(
            clock_id,
            row.text("kind", clock_id.replace("-", " ")),
            row.names("numbers"),
            cast("Guards", row.one_of("guards", GUARDS, "closing")),
            row.text("text"),
            row.text("applies"),
            row.text("starts"),
            row.text("ends"),
        )
        row.done()
        if row.well_named():
            yield clock


def decode_certificates(table: Table) -> Iterator[CertificateNeed]:
    for kind, row in table.tables("certificates"):
        who: Any = row.one_of("who", ("one", "each"), "each")
        yield CertificateNeed(kind, who, row.text("lasts"))
        row.done()


def _laws(table: Table, key: str) -> Iterator[Law]:
    """What laws and advice say, from the list of tables under the key."""
    value = table.any(key)
    if value is None:
        return
    if not isinstance(value, list) or not all(isinstance(row, dict) for row in value):
        sentence = f'"{key}" is no list of tables'
        table.tell(key, "wrong-type", sentence, f"write [[{key}]] for each")
        return
    for place, row in enumerate(value):
        law = Table(row, (*table.path, key, place), table.misfits)
        yield Law(
            law.text("where", "anywhere"),
            law.text("says", needed=True),
            law.text("source"),
            law.text("edition"),
            law.day("read"),
            cast("Mark", law.one_of("mark", MARKS, "from memory")),
            law.text("borrowed"),
        )
        law.done()


def tell_loose_ends(hazard: Hazard, table: Table, known: Iterable[str]) -> None:
    """Mistakes between the parts of a sheet: numbers, checks and hazards that do not exist.

    `known` are the ids of all hazards, those that were not read among them.
    """
    numbers = [n.id for n in hazard.numbers]
    for where, text in texts_of(hazard):
        for wanted in references(text):
            if wanted not in numbers:
                sentence = f'{where} refers to "{{{wanted}}}", which is no number of the sheet'
                table.tell(None, "unknown-name", sentence, nearest(wanted, numbers))
    wanting = [(f'the check "{c.id}"', c.interval) for c in hazard.checks if c.interval]
    wanting += [(f'the clock "{c.id}"', n) for c in hazard.clocks for n in c.numbers]
    wanting += [(f'the clock "{c.id}"', c.applies) for c in hazard.clocks if c.applies]
    wanting += [(f'the certificate "{c.kind}"', c.lasts) for c in hazard.certificates if c.lasts]
    for where, wanted in wanting:
        number = hazard.number(wanted)
        if number is None:
            sentence = f'{where} of "{hazard.id}" goes by "{wanted}", which is no number of it'
            table.tell(None, "unknown-name", sentence, nearest(wanted, numbers))
        elif number.span is None:
            sentence = f'{where} of "{hazard.id}" goes by "{wanted}", which is no time'
            table.tell(None, "not-a-duration", sentence, 'give the number unit = "min"')
    after = [c.id for c in hazard.checks if c.when == "after"]
    for named in [name for clock in hazard.clocks for name in (clock.starts, clock.ends)]:
        if named and named not in after:
            sentence = f'"{named}" is no after-check of "{hazard.id}"'
            table.tell("clocks", "unknown-name", sentence, nearest(named, after))
    ids = list(known)
    for key, others in (("not_near", hazard.not_near), ("not_after", hazard.not_after)):
        for other in others:
            if other not in ids:
                sentence = f'"{other}" under "{key}" of "{hazard.id}" is no known hazard'
                table.tell(key, "unknown-name", sentence, nearest(other, ids))


def texts_of(hazard: Hazard) -> Iterator[tuple[str, str]]:
    """Every text of the sheet that may refer to numbers, with what to call it."""
    yield "the name", hazard.name
    for key in ("harm", "gear", "if_wrong", "prevail"):
        for text in getattr(hazard, key):
            yield f'"{key}"', text
    yield '"under_18_why"', hazard.under_18_why
    yield '"do_not_use"', hazard.do_not_use
    for text in hazard.card.texts():
        yield "the card", text
    for check in hazard.checks:
        yield f'the check "{check.id}"', check.text
        yield f'the title of the check "{check.id}"', check.title
    for clock in hazard.clocks:
        yield f'the clock "{clock.id}"', clock.text
    for number in hazard.numbers:
        yield f'the number "{number.id}"', number.says
    for law in hazard.laws:
        yield f'the law "{law.source}"', law.says
    for law in hazard.reporting:
        yield f'the duty to report "{law.source}"', law.says
    for law in hazard.first_aid:
        yield f'the first aid "{law.source}"', law.says
