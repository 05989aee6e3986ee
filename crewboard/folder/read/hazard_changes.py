"""A built-in hazard sheet as the crew changed it in its own `hazards.toml`.

What makes the sheet stricter is simply taken over. What makes it weaker needs a name and a reason
(`decided_by`, `why`, if wanted `on`) beside it or at the top of the sheet's table; without them it
is a mistake, and the built-in rule stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import get_args

from crewboard.folder.read.fault import nearest
from crewboard.folder.read.hazard_decode import (
    decode_certificates,
    decode_check,
    decode_clocks,
    decode_numbers,
    decode_sheet,
    with_people,
)
from crewboard.folder.read.table import Table
from crewboard.order.safety.reason import is_a_reason
from crewboard.plan.bench_card import BenchCard
from crewboard.plan.hazard import Check, Clock, Hazard, Near, Weakened, minutes_of
from crewboard.plan.volunteer import Volunteer

_ADDED = ("harm", "gear", "not_near", "not_after", "if_wrong", "prevail", "words")
# How often a check is signed, the more often the higher; two of one rank cannot be compared.
_OFTEN = {"person a year": 0, "day": 1, "person a task": 1, "task": 1, "task a day": 2}


class _Decision:
    """Who decided to ask less, and why: of the sheet, or of one part of it."""

    def __init__(
        self,
        table: Table,
        outer: _Decision | None = None,
        crew: Mapping[str, Volunteer] | None = None,
    ) -> None:
        self.table = table
        self.crew: Mapping[str, Volunteer] | None = outer.crew if outer else crew
        self.by: str = table.text("decided_by") or (outer.by if outer else "")
        self.why: str = table.text("why") or (outer.why if outer else "")
        self.on: date | None = table.day("on") or (outer.on if outer else None)
        self.weakened: list[Weakened] = outer.weakened if outer else []

    def allows(self, what: str, key: str | None = None) -> bool:
        """Whether the weaker rule counts; it is noted, or told as a mistake."""
        lacking = self._lacking()
        if not lacking:
            self.weakened.append(Weakened(what, self.by, self.why, self.on))
            return True
        self.table.tell(
            key,
            "weaker",
            f"this asks less than the sheet that comes with the program: {what}",
            f"{lacking}, or remove it",
        )
        return False

    def _lacking(self) -> str:
        """What the decision still needs to count; empty where it counts."""
        if not (self.by.strip() and self.why.strip()):
            return 'add decided_by = "..." and why = "..."'
        if not is_a_reason(self.why):
            return "say in some words why"
        if self.crew is not None and not any(map(self._decides, self.crew.values())):
            return f'"{self.by}" is no lead of age in crew.toml: let one decide it'
        return ""

    def _decides(self, volunteer: Volunteer) -> bool:
        """Whether they are the one who decided, and may: a lead of the crew who is of age."""
        if self.by.strip().casefold() not in (volunteer.id.casefold(), volunteer.name.casefold()):
            return False
        if self.on is not None:
            return volunteer.leads_on(self.on) and volunteer.with_us_on(self.on)
        return volunteer.lead and volunteer.adult is not False and volunteer.eighteen_on is None


def changed_by(sheet: Hazard, table: Table, crew: Mapping[str, Volunteer] | None = None) -> Hazard:
    """The sheet with the crew's changes; mistakes are told to the table. Where the `crew` is known
    only one of its leads may ask less."""
    decision = _Decision(table, crew=crew)
    added = (*_ADDED, "laws", "reporting", "first_aid", "card")
    extra = decode_sheet(sheet.id, _only(table, added), own=True)
    changed = sheet._replace(
        harm=_joined(sheet.harm, extra.harm),
        gear=_joined(sheet.gear, extra.gear),
        not_near=_joined(sheet.not_near, extra.not_near),
        not_after=_joined(sheet.not_after, extra.not_after),
        if_wrong=_joined(sheet.if_wrong, extra.if_wrong),
        prevail=_joined(sheet.prevail, extra.prevail),
        words=_joined(sheet.words, extra.words),
        laws=(*sheet.laws, *extra.laws),
        reporting=(*sheet.reporting, *extra.reporting),
        first_aid=(*sheet.first_aid, *extra.first_aid),
    )
    changed = _with_card(changed, extra.card, decision)
    changed = _with_do_not_use(changed, table)
    changed = _with_numbers(changed, table)
    changed = _with_checks(changed, table, decision)
    changed = _with_clocks(changed, table, decision)
    changed = _with_certificates(changed, table, decision)
    changed = _with_fewer_or_more_people(changed, table, decision)
    changed = _with_reach(changed, table, decision)
    changed = _with_other_meanings(changed, table, decision)
    changed = _with_watch_and_training(changed, table, decision)
    changed = _without(changed, table, decision)
    return changed._replace(weakened=tuple(decision.weakened))


def _only(table: Table, keys: Iterable[str]) -> Table:
    """Those keys of the table, for a reader that would ask for all."""
    values = {key: table.any(key) for key in keys if key in table}
    return Table({"name": "as it was", **values}, table.path, table.misfits)


def _joined(first: tuple[str, ...], more: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*first, *more)))


def _with_card(sheet: Hazard, more: BenchCard, decision: _Decision) -> Hazard:
    """The bench card with what the crew adds; other words for what kills are somebody's decision,
    and the law in a few words stays where there is one."""
    old = sheet.card
    kills = more.kills or old.kills
    if old.kills and kills != old.kills and not decision.allows("its card has other words", "card"):
        kills = old.kills
    card = BenchCard(
        kills,
        _joined(old.wear, more.wear),
        _joined(old.check, more.check),
        _joined(old.wrong, more.wrong),
        _joined(old.look_up, more.look_up),
        {**more.law, **old.law},
    )
    return sheet._replace(card=card)


def _with_do_not_use(sheet: Hazard, table: Table) -> Hazard:
    """That it is not used is for no crew to undo; any may say so of a sheet that does not."""
    said = table.text("do_not_use", sheet.do_not_use)
    if sheet.do_not_use and said != sheet.do_not_use:
        sentence = f"{sheet.short} is not used: no crew can change that, nor what is done instead"
        table.tell("do_not_use", "weaker", sentence, "remove it")
        said = sheet.do_not_use
    return sheet._replace(do_not_use=said)


def _with_numbers(sheet: Hazard, table: Table) -> Hazard:
    added = []
    for number in decode_numbers(table, own=True):
        if sheet.number(number.id) is None:
            added.append(number)
        else:
            sentence = f'"{number.id}" is a quoted number of the built-in sheet'
            table.tell("numbers", "taken", sentence, "give the crew's own number another name")
    return sheet._replace(numbers=(*sheet.numbers, *added))


def _with_checks(sheet: Hazard, table: Table, decision: _Decision) -> Hazard:
    checks = {check.id: check for check in sheet.checks}
    for check_id, change in table.tables("checks"):
        old = checks.get(check_id)
        if old is None:
            checks[check_id] = decode_check(check_id, change, None)
            continue
        new = decode_check(check_id, change, old)
        own = _Decision(change, decision)
        change.done()
        checks[check_id] = _stricter(sheet, old, new, own)
    return sheet._replace(checks=tuple(checks.values()))


def _stricter(sheet: Hazard, old: Check, new: Check, decision: _Decision) -> Check:
    """The changed check; each field that is weaker only where somebody answers for it."""
    name = f'the check "{old.id}"'
    if new.when != old.when and not decision.allows(
        f"{name} is signed {new.when} the work, not {old.when}", "when"
    ):
        new = new._replace(when=old.when)
    if (new.text, new.title) != (old.text, old.title) and not decision.allows(
        f"{name} has other words", "text"
    ):
        new = new._replace(text=old.text, title=old.title)
    rarer = new.every != old.every and _OFTEN[new.every] <= _OFTEN[old.every]
    if rarer and not decision.allows(
        f'{name} is signed each "{new.every}", not each "{old.every}"', "every"
    ):
        new = new._replace(every=old.every)
    if new.signs not in (old.signs, "anyone") and old.signs == "anyone":
        pass  # fewer people may sign
    elif new.signs != old.signs and not decision.allows(
        f'{name} is signed by "{new.signs}", not by "{old.signs}"', "signs"
    ):
        new = new._replace(signs=old.signs)
    longer = old.interval and (
        not new.interval or _minutes(sheet, new.interval) > _minutes(sheet, old.interval)
    )
    if longer and not decision.allows(f"{name} comes round less often", "interval"):
        new = new._replace(interval=old.interval)
    if new.waivable > old.waivable and not decision.allows(
        f"{name} may be found not to apply", "waivable"
    ):
        new = new._replace(waivable=False)
    if old.licensed > new.licensed and not decision.allows(
        f"{name} is signed along with others", "licensed"
    ):
        new = new._replace(licensed=True)
    if old.names not in ("", new.names) and not decision.allows(
        f"{name} names no longer who it is", "names"
    ):
        new = new._replace(names=old.names)
    if old.last_out > new.last_out and not decision.allows(
        f"{name} is signed while others are in", "last_out"
    ):
        new = new._replace(last_out=True)
    return new


def _minutes(sheet: Hazard, number_id: str) -> int:
    number = sheet.number(number_id)
    return minutes_of(number) if number is not None else 0


def _with_clocks(sheet: Hazard, table: Table, decision: _Decision) -> Hazard:
    clocks = {clock.id: clock for clock in sheet.clocks}
    outer = table.table("clocks")
    for clock_id in outer.values if outer is not None else ():
        assert outer is not None
        change = outer.table(clock_id)
        if change is None:
            continue
        old = clocks.get(clock_id)
        if old is None:
            alone = Table({"clocks": {clock_id: change.values}}, table.path, table.misfits)
            clocks |= {clock.id: clock for clock in decode_clocks(alone)}
            continue
        new = old._replace(
            numbers=_joined(old.numbers, change.names("numbers")),
            applies=change.text("applies", old.applies),
        )
        own = _Decision(change, decision)
        change.done()
        clocks[clock_id] = new if _no_shorter(sheet, old, new, own) else old
    return sheet._replace(clocks=tuple(clocks.values()))


def _no_shorter(sheet: Hazard, old: Clock, new: Clock, decision: _Decision) -> bool:
    usual, chosen = sheet.ruling(old), sheet.ruling(new)
    if usual is None or chosen is None or minutes_of(chosen) >= minutes_of(usual):
        return True
    what = f"the {old.kind} lasts {chosen.amount}, not {usual.amount}"
    return decision.allows(what, "applies")


def _with_certificates(sheet: Hazard, table: Table, decision: _Decision) -> Hazard:
    needs = {need.kind: need for need in sheet.certificates}
    for need in decode_certificates(table):
        old = needs.get(need.kind)
        if old is not None and old.who == "each" and need.who == "one":
            what = f'one person with the certificate "{need.kind}" is enough, not each'
            if not decision.allows(what, "certificates"):
                continue
        needs[need.kind] = need._replace(lasts=need.lasts or (old.lasts if old else ""))
    return sheet._replace(certificates=tuple(needs.values()))


def _with_fewer_or_more_people(sheet: Hazard, table: Table, decision: _Decision) -> Hazard:
    changed = with_people(sheet, table)
    if changed.people < sheet.people and not decision.allows(
        f"at least {changed.people} on the work, not {sheet.people}", "least_people"
    ):
        return sheet
    return changed


def _with_reach(sheet: Hazard, table: Table, decision: _Decision) -> Hazard:
    """Under-18s, how far "near" reaches, and whether its place is closed to other work."""
    under_18 = table.flag("under_18", sheet.under_18)
    if under_18 and not sheet.under_18 and not decision.allows("under-18s may do it", "under_18"):
        under_18 = False
    near = table.one_of("near", get_args(Near), sheet.near)
    if near == "place" != sheet.near and not decision.allows(
        '"near" is the same place, not the whole shop', "near"
    ):
        near = sheet.near
    closes = table.flag("closes_place", sheet.closes_place)
    if sheet.closes_place > closes and not decision.allows(
        "other work goes on in its place", "closes_place"
    ):
        closes = True
    why = table.text("under_18_why", sheet.under_18_why)
    return sheet._replace(
        under_18=under_18,
        under_18_why=why,
        near="place" if near == "place" else "shop",
        closes_place=closes,
    )


def _with_other_meanings(sheet: Hazard, table: Table, decision: _Decision) -> Hazard:
    """Phrases in which the sheet's words mean something else: fewer questions are asked."""
    more = [text for text in table.names("words_not") if text not in sheet.words_not]
    if more and decision.allows(f"nothing is asked of {', '.join(more)}", "words_not"):
        return sheet._replace(words_not=(*sheet.words_not, *more))
    return sheet


def _with_watch_and_training(sheet: Hazard, table: Table, decision: _Decision) -> Hazard:
    """Who watches, and whether a lead may let an under-18 take part for training."""
    watch = table.text("watch", sheet.watch)
    if sheet.watch and not watch and not decision.allows(f"no {sheet.watch} is named", "watch"):
        watch = sheet.watch
    training = table.flag("training", sheet.training)
    if training and not sheet.training:
        training = decision.allows("under-18s may do it for training", "training")
    return sheet._replace(watch=watch, training=training)


def _without(sheet: Hazard, table: Table, decision: _Decision) -> Hazard:
    """`leave_out` names checks, clocks, certificates, gear or other hazards to be left out."""
    parts = {
        **{c.id: f'the check "{c.id}"' for c in sheet.checks},
        **{c.id: f'the clock "{c.id}"' for c in sheet.clocks},
        **{c.kind: f'the certificate "{c.kind}"' for c in sheet.certificates},
        **{text: f'the gear "{text}"' for text in sheet.gear},
        **{word: f'the word "{word}"' for word in sheet.words},
        **{other: f'"{other}" near or before it' for other in (*sheet.not_near, *sheet.not_after)},
    }
    gone = set()
    for name in table.names("leave_out"):
        if name not in parts:
            sentence = f'"{name}" is no part of the sheet "{sheet.id}"'
            table.tell("leave_out", "unknown-name", sentence, nearest(name, parts))
        elif decision.allows(f"{parts[name]} is left out", "leave_out"):
            gone.add(name)
    clocks = tuple(c for c in sheet.clocks if c.id not in gone)
    return sheet._replace(
        checks=tuple(c for c in sheet.checks if c.id not in gone),
        # A clock whose starting check is left out starts with the end of the work.
        clocks=tuple(
            c._replace(
                starts="" if c.starts in gone else c.starts, ends="" if c.ends in gone else c.ends
            )
            for c in clocks
        ),
        certificates=tuple(c for c in sheet.certificates if c.kind not in gone),
        gear=tuple(text for text in sheet.gear if text not in gone),
        words=tuple(word for word in sheet.words if word not in gone),
        not_near=tuple(other for other in sheet.not_near if other not in gone),
        not_after=tuple(other for other in sheet.not_after if other not in gone),
    )
