"""What an entry of the logbook says, in a line."""

from __future__ import annotations

from crewboard.logbook import acts
from crewboard.logbook.acts import Act
from crewboard.logbook.entry import Entry
from crewboard.order.said import day_and_time, day_in_words, how_many, listed, person
from crewboard.plan.plan import Plan


def entry_in_words(plan: Plan, entry: Entry) -> str:
    """ "Tom Reed worked 3.5 h on Lay the deck boards (dry run)"."""
    return _Saying(plan).of(entry.act)


class _Saying:
    """Puts acts in words, with the plan's names."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan

    def who(self, who: str) -> str:
        return person(self.plan, who)

    def task(self, task_id: str) -> str:
        task = self.plan.tasks.get(task_id)
        return f'"{task.title}"' if task else task_id

    def on(self, act: Act) -> str:
        """What the act is about: its task, or its component."""
        task, component = getattr(act, "task", ""), getattr(act, "component", "")
        if task:
            return self.task(task)
        known = self.plan.components.get(component)
        return known.name if known else component

    def of(self, act: Act) -> str:
        says = self._core(act)
        tail = getattr(act, "note", "") or getattr(act, "why", "")
        despite = getattr(act, "despite", "")
        if despite:
            says += f", all the same: {despite}"
        return f"{says} ({tail})" if tail else says

    def _core(self, act: Act) -> str:
        match act:
            case acts.SignIn():
                return f"{self.who(act.who)} came"
            case acts.SignOut():
                return f"{self.who(act.who)} left"
            case acts.Expected():
                return f"{self.who(act.who)} {'will come' if act.coming else 'will not come'}"
            case acts.HoursWorked():
                return f"{self.who(act.who)} worked {act.hours:g} h" + _tail(" on ", self.on(act))
            case acts.Begun():
                by = f" by {listed(self.who(who) for who in act.crew)}" if act.crew else ""
                return f"{self.task(act.task)} begun{by}"
            case acts.Finished():
                clock = f", clock from {day_and_time(act.clock)}" if act.clock else ""
                return f"{self.task(act.task)} finished{clock}"
            case acts.Reopened():
                return f"{self.task(act.task)} reopened"
            case acts.HoursLeft():
                return f"{self.task(act.task)}: {act.hours:g} h left"
            case acts.SetAside():
                return f"{self.task(act.task)} {'taken up again' if act.back else 'set aside'}"
            case _:
                return self._of_holds_and_shop(act)

    def _of_holds_and_shop(self, act: Act) -> str:
        match act:
            case acts.HoldStarted():
                lasts = f" for {act.lasts}" if act.lasts else ""
                return f"hold started: {act.hold}{lasts} on {self.on(act)}"
            case acts.Extended():
                until = f" to {day_and_time(act.until)}" if act.until else f" by {act.lasts}"
                return f"hold {act.hold} extended{until}"
            case acts.Released():
                return f"hold {act.hold} released"
            case acts.CheckSigned():
                found = "signed" if act.applies else "found not to apply"
                check = f"check {act.hazard}/{act.check} {found} by {self.who(act.who)}"
                return check + _tail(" for ", self.on(act))
            case acts.Reading():
                degrees = f"{act.celsius:g} °C" if act.celsius is not None else ""
                damp = f"{act.humidity:g} % humidity" if act.humidity is not None else ""
                return f"shop reading: {', '.join(filter(None, (degrees, damp)))}"
            case acts.Arrived():
                return f"{self.supply(act.supply)} arrived"
            case acts.Ordered():
                due = f", promised for {day_in_words(act.due)}" if act.due else ""
                return f"{self.supply(act.supply)} ordered{due}"
            case _:
                return self._of_the_day(act)

    def _of_the_day(self, act: Act) -> str:
        match act:
            case acts.Noted():
                return f"note: {act.text}" + _tail(" on ", self.on(act))
            case acts.Incident():
                concerned = f" to {listed(self.who(who) for who in act.who)}" if act.who else ""
                kind = f"injury{concerned}" if act.injury else "near miss"
                seen = f"; seen by {how_many(len(act.seen_by), 'person')}" if act.seen_by else ""
                return f"{kind}: {act.what}{_tail(' at ', act.place)}{seen}"
            case acts.ClosedDay():
                return "the day closed"
            case acts.TakenBack():
                return f"entry {act.entry} taken back"
            case _:
                raise AssertionError(act)

    def supply(self, supply_id: str) -> str:
        known = self.plan.supplies.get(supply_id)
        return known.name if known else supply_id


def _tail(joint: str, text: str) -> str:
    return f"{joint}{text}" if text else ""
