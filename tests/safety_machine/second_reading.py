"""What should not be in the logbook: a plain second reading, which shares no code with the rules.

For each line that began something: was a check before the work unsigned, were there too few
different adults, was an under-18 without the named adult, was it inside a clashing clock, in a
closed place ... at that moment, by the lines that count and the plan as it stood then?
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, time, timedelta

from tests.safety_machine.books import Line, Plan, Sheet, is_of_age
from tests.safety_machine.moments import Moment, Wrong


def goes_on(lines: list[Line], plans: dict[str, Plan], now: datetime) -> set[str]:
    """The lines that began dangerous work which still goes on."""
    last = [line for line in lines if line["at"] <= now and line["id"] in plans]
    if not last:
        return set()
    latest = Moment(last, last[-1], plans)
    latest.at, latest.day = now, now.date()
    tasks = {task for task, _, _ in latest.dangers()}
    return {e["id"] for e in latest.today("begun") if e["task"] in tasks}


def everything_wrong(lines: list[Line], plans: dict[str, Plan]) -> set[Wrong]:
    """All that should not be, but for what a lead answers for in the line itself."""
    found = {*wrong_begins(lines, plans), *wrong_closings(lines, plans)}
    known = {line["id"]: line for line in lines}
    return {wrong for wrong in found if not by_a_lead(known[wrong.line], plans[wrong.line])}


def by_a_lead(line: Line, plan: Plan) -> bool:
    """Whether a lead of age gives a reason in the line."""
    lead = plan.crew.get(line.get("by", ""), {})
    reason = line.get("despite", "") or (line["kind"] == "taken back" and line.get("why", ""))
    return bool(reason) and bool(lead.get("lead")) and is_of_age(lead, line["at"].date())


def wrong_closings(lines: list[Line], plans: dict[str, Plan]) -> Iterator[Wrong]:
    """Days closed, and people gone who were to stay, inside a clock that keeps the shop open."""
    for line in lines:
        if line["kind"] not in ("day closed", "sign-out") or line["id"] not in plans:
            continue
        moment = Moment(lines, line, plans)
        before = moment.without(line)
        running = [name for name, _, _, guards in moment.clocks() if guards == "closing"]
        running += [name for name, sheet, _ in before.dangers() if sheet.watch and sheet.clocks]
        if not running:
            continue
        if line["kind"] == "day closed":
            yield Wrong(line["id"], f"closed inside the clock of {running[0]}")
        elif line["who"] in {e.get("stays") for e in moment.today("day closed")}:
            yield Wrong(line["id"], f"{line['who']} left inside the clock of {running[0]}")


def badly_closed(lines: list[Line], plans: dict[str, Plan]) -> Iterator[Wrong]:
    """Days closed inside a clock by a lead's reason, where nobody of age who is here stays."""
    for wrong in wrong_closings(lines, plans):
        line = next(e for e in lines if e["id"] == wrong.line)
        if line["kind"] == "day closed" and by_a_lead(line, plans[line["id"]]):
            moment = Moment(lines, line, plans)
            here = moment.here() | {
                e["who"] for e in moment.today("sign-out") if e["at"] == line["at"]
            }
            if line.get("stays") not in moment.adults(here) or line["by"] not in here:
                yield Wrong(line["id"], "nobody of age stays")


def wrong_begins(lines: list[Line], plans: dict[str, Plan]) -> Iterator[Wrong]:
    """Everything that should not be, of every line that began something dangerous."""
    for line in lines:
        if line["kind"] == "begun" and line["id"] in plans:
            moment = Moment(lines, line, plans)
            what = [*_of_the_moment(moment), *_of_the_people(moment)]
            yield from (Wrong(line["id"], text) for text in dict.fromkeys(what))


def sheets_of(moment: Moment, people: set[str]) -> list[Sheet]:
    """The sheets of the work begun, with those for under-18s and for one person alone."""
    plan, names = moment.plan, list(moment.plan.tasks[moment.line["task"]].get("hazards", ()))
    here = moment.here()
    for sheet in plan.sheets.values():
        young = sheet.concerns == "minors" and moment.minors(people)
        alone = sheet.concerns == "alone" and len(here) == 1 and here & people
        if (young or alone) and sheet.id not in names:
            names.append(sheet.id)
    return [plan.sheets[name] for name in names if name in plan.sheets]


# --- what is signed, what is near ----------------------------------------------------------------


def _of_the_moment(moment: Moment) -> Iterator[str]:
    line, task = moment.line, moment.line["task"]
    place = moment.plan.tasks[task].get("place", "")
    people = moment.party(task)[0] | named(line)
    sheets = sheets_of(moment, people)
    yield from _closed_places(moment, place)
    yield from _nobody_named(moment)
    if not sheets:
        return
    yield from (f"not to be used by anybody: {s.id}" for s in sheets if s.do_not_use)
    yield from _unsigned(moment, sheets, people)
    yield from _apart(moment, sheets, place)
    yield from _unanswered(moment, place)
    if moment.today("day closed"):
        yield "begun after the day was closed"
    yield from _ends_late(moment, sheets)


def _nobody_named(moment: Moment) -> Iterator[str]:
    """The last word of the title points to a sheet of which the task names none."""
    task = moment.plan.tasks[moment.line["task"]]
    word = task["title"].split()[-1]
    pointed = {sheet.id for sheet in moment.plan.sheets.values() if word in sheet.words}
    ruled_out = any(
        e["kind"] == "no hazard" and e["task"] == moment.line["task"] for e in moment.lines
    )
    if pointed and not pointed & set(task.get("hazards", ())) and not ruled_out:
        yield f"the title says {word}, and names no hazard"


def _unanswered(moment: Moment, place: str) -> Iterator[str]:
    """A finish here of what was never begun, after which no lead gave a reason for a begin here."""
    tasks = moment.plan.tasks
    for e in moment.lines:
        if e["kind"] != "finished" or "began" not in e or e["task"] not in tasks:
            continue
        where = tasks[e["task"]].get("place", "")
        if any(b["at"] < e["at"] for b in moment.begun(e["task"])):
            continue
        if not (e["task"] == moment.line["task"] or (place and where == place)):
            continue
        answered = any(
            b["kind"] == "begun" and b["at"] >= e["at"] and by_a_lead(b, moment.plan)
            for b in moment.lines
        )
        if not answered and tasks[e["task"]].get("hazards"):
            yield f"finished without having begun, unanswered: {e['task']}"


def named(line: Line) -> set[str]:
    return {*line.get("crew", ()), *line.get("watch", ()), *filter(None, [line.get("adult", "")])}


def _unsigned(moment: Moment, sheets: list[Sheet], people: set[str]) -> Iterator[str]:
    task = moment.line["task"]
    day = [sheet for sheet in moment.plan.sheets.values() if sheet.concerns == "day"]
    for sheet in (*day, *sheets):
        for name, check in sheet.checks.items():
            if check["when"] != "before":
                continue
            each = check.get("every", "task") in ("person a year", "person a task")
            concerned = moment.minors(people) if sheet.concerns == "minors" else people
            for who in concerned if each else {""}:
                if not any(_signs(moment, sheet, name, e, task, who) for e in moment.lines):
                    of = "shop" if sheet in day else "check"
                    yield f"{of} unsigned: {sheet.id}/{name}{' for ' + who if who else ''}"


def _signs(moment: Moment, sheet: Sheet, name: str, e: Line, task: str, who: str) -> bool:
    if e["kind"] != "check" or (e["hazard"], e["check"]) != (sheet.id, name):
        return False
    check = sheet.checks[name]
    every, day, today = check.get("every", "task"), e["at"].date(), moment.day
    reopened = [r["at"] for r in moment.lines if r["kind"] == "reopened" and r["task"] == task]
    good = {
        "day": day == today,
        "task a day": day == today and e.get("task") == task,
        "task": e.get("task") == task and all(e["at"] >= at for at in reopened),
        "person a year": e.get("concerns") == who and today - day <= timedelta(days=366),
        "person a task": e.get("concerns") == who and e.get("task") == task,
    }[every]
    return good and _may_sign(moment, check, e, who)


def _may_sign(moment: Moment, check: dict[str, object], e: Line, who: str) -> bool:
    signer, signs = moment.plan.crew.get(e["who"]), check.get("signs", "anyone")
    if signer is None or (who and e["who"] == who):
        return False
    if e.get("applies", True) is False:
        lead = bool(signer.get("lead")) and is_of_age(signer, moment.day)
        return bool(check.get("waivable", True)) and lead and bool(e.get("why"))
    if signs == "lead":
        return bool(signer.get("lead"))
    return signs == "anyone" or signs in signer.get("certificates", {})


def keeps_apart(one: Sheet, other: Sheet, beside: bool) -> bool:
    return any(
        theirs.id in mine.not_near and (beside or not mine.near_is_place)
        for mine, theirs in ((one, other), (other, one))
    )


def _apart(moment: Moment, sheets: list[Sheet], place: str) -> Iterator[str]:
    for number, one in enumerate(sheets):
        for two in sheets[number + 1 :]:
            if keeps_apart(one, two, True):
                yield f"in one task: {one.id} and {two.id}"
    task = moment.line["task"]
    for other, danger, where in moment.dangers():
        beside = not place or not where or place == where
        for sheet in sheets if other != task else ():
            if keeps_apart(sheet, danger, beside):
                yield f"near: {sheet.id} and {danger.id} of {other}"
    for other, danger, where, _ in moment.clocks():
        beside = not place or not where or place == where
        for sheet in sheets:
            if other == task and sheet.id == danger.id:
                continue
            if danger.id in sheet.not_after or keeps_apart(sheet, danger, beside):
                yield f"clock: {sheet.id} inside that of {danger.id} of {other}"


def _closed_places(moment: Moment, place: str) -> Iterator[str]:
    task = moment.line["task"]
    own = [moment.plan.sheets[n] for n in moment.plan.tasks[task].get("hazards", ())]
    going = list(moment.dangers())
    for other, danger, where in going:
        if other != task and danger.closes_place and (not place or not where or place == where):
            yield f"closed place: {danger.id} of {other}"
    for other, danger, where, guards in moment.clocks():
        shut = danger.closes_place or guards == "entry"
        if other != task and shut and (not place or not where or place == where):
            yield f"closed place: the clock of {danger.id} of {other}"
    if any(sheet.closes_place for sheet in own):
        for other in dict.fromkeys(e["task"] for e in moment.today("begun")):
            begin = moment.begun(other)[-1]
            where = moment.plans[begin["id"]].tasks[other].get("place", "")
            dangers = moment.plans[begin["id"]].tasks[other].get("hazards", ())
            goes_on = not dangers or any(going_task == other for going_task, _, _ in going)
            beside = not place or not where or place == where
            if other != task and goes_on and beside and moment.party(other)[0]:
                yield f"place taken: by {other}"


def _ends_late(moment: Moment, sheets: list[Sheet]) -> Iterator[str]:
    told = [e["until"] for e in moment.today("open until")]
    until = told[-1] if told else time.fromisoformat(moment.plan.closes)
    closes = datetime.combine(moment.day, until)
    if moment.day.weekday() not in (5, 6) and not told:
        if any(c.get("guards") == "closing" for sheet in sheets for c in sheet.clocks.values()):
            yield "nobody said when the shop closes"
        return
    party, watch, _ = moment.party(moment.line["task"])
    workers = (party | named(moment.line)) - watch
    hours = moment.plan.tasks[moment.line["task"]].get("hours", [0, 0, 0])[1]
    if any(e["kind"] in ("hours", "hours left") for e in moment.lines):
        hours = 0  # how much is left is another question
    for sheet in sheets:
        for clock in sheet.clocks.values():
            if clock.get("guards", "closing") == "closing":
                ends = moment.at + timedelta(hours=hours / max(1, len(workers)))
                if moment.at >= closes - sheet.lasts(clock):
                    yield f"too late for the clock of {sheet.id}"
                elif ends > closes - sheet.lasts(clock):
                    yield f"ends too late for the clock of {sheet.id}"


# --- who does it ---------------------------------------------------------------------------------


def _of_the_people(moment: Moment) -> Iterator[str]:
    line, task = moment.line, moment.line["task"]
    party, watch, adult = moment.party(task)
    people = party | named(line)
    sheets = sheets_of(moment, people)
    crew, day = moment.plan.crew, moment.day
    if sheets and not named(line):
        yield "nobody named"
    if sheets and named(line) - moment.here():
        yield f"not here: {sorted(named(line) - moment.here())}"
    for sheet in sheets:
        enough = sheet.people <= max(1, len(moment.adults(party)))
        if sheet.concerns != "minors" and not enough:
            yield f"too few: {sorted(moment.adults(party))} for {sheet.id}"
        if sheet.watch and not moment.adults(watch):
            yield f"nobody watches: {sheet.id}"
        if not sheet.under_18:
            for who in moment.minors(people):
                if not _learns(moment, sheet, task, who):
                    yield f"too young: {who} for {sheet.id}"
        for kind, need in sheet.papers.items():
            holders = {who for who in people if kind in crew.get(who, {}).get("certificates", {})}
            if not holders or (need == "each" and people - holders):
                yield f"certificate {kind} for {sheet.id}"
    if moment.minors(party) and not moment.adults({adult} if adult else set()):
        yield f"no adult beside {sorted(moment.minors(party))}"
    if any(sheet.concerns != "minors" for sheet in sheets):
        for who in people:
            about = crew.get(who, {})
            if "adult" not in about or about.get("left", day) < day:
                yield f"age not known, or a guest: {who}"
    yield from _taken_from_others(moment)


def _learns(moment: Moment, sheet: Sheet, task: str, who: str) -> bool:
    return sheet.training and any(
        e["kind"] == "training"
        and e["who"] == who
        and moment.plan.crew[e["lead"]].get("lead")
        and e.get("hazard", sheet.id) == sheet.id
        and e.get("task", task) == task
        for e in moment.lines
    )


def _taken_from_others(moment: Moment) -> Iterator[str]:
    """Work that goes on elsewhere and is left too few, or unwatched, by this begin."""
    before = moment.without(moment.line)
    for other, sheet, _ in before.dangers():
        if other == moment.line["task"] or not named(moment.line) & before.party(other)[0]:
            continue
        enough, still = (len(m.adults(m.party(other)[0])) for m in (before, moment))
        if still < sheet.people <= enough and sheet.people > 1:
            yield f"counted twice: {other} is left with {still} for {sheet.id}"
        if sheet.watch and before.party(other)[1] and not moment.party(other)[1]:
            yield f"counted twice: nobody watches {other}"
