"""What may be written into the logbook at a moment, and what is refused and why."""

from collections.abc import Collection, Iterable
from datetime import datetime, time

from crewboard.logbook.acts import (
    Act,
    Begun,
    CheckSigned,
    ClosedDay,
    Expected,
    Extended,
    Finished,
    GuestCame,
    GuestHours,
    GuestLeft,
    HazardRuledOut,
    HoldStarted,
    HoursLeft,
    HoursWorked,
    LetGo,
    Noted,
    OpenUntil,
    PieceFailed,
    Planned,
    Reading,
    Released,
    Reopened,
    SetAside,
    SignIn,
    SignOut,
    Steamed,
    Stopped,
    TakenBack,
    Temporary,
    TookPlace,
    Training,
    Undone,
)
from crewboard.logbook.fields import fields_of, named_by
from crewboard.logbook.kinds import kind_of
from crewboard.order.admit.hours import hours_refusals, of_the_crew
from crewboard.order.admit.refusal import Refusal
from crewboard.order.board import Board
from crewboard.order.holds.running import StandingHold
from crewboard.order.presence import never_left
from crewboard.order.reasons.why import hold_in_words
from crewboard.order.said import day_and_time, day_in_words, person, quoted_title
from crewboard.plan.hold import KINDS


def refusals(board: Board, act: Act, by: str = "", now: datetime | None = None) -> list[Refusal]:
    """What stands against the act at the board's moment; empty when it may be written.

    `by` is who writes it, `now` what the shop's clock shows where that is later. Names that the
    plan does not know are refused here; hours are always taken.
    """
    unknown = _unknown_names(board, act)
    if unknown:
        return unknown
    if kind_of(act).of_record:
        from crewboard.order.admit.record import record_refusals

        return record_refusals(board, act, by)
    match act:
        case SignIn():
            return _sign_in(board, act)
        case SignOut() if act.who not in {v.who for v in board.present}:
            return [_not_here(board, act.who)]
        case SignOut():
            from crewboard.order.safety.closing import leave_refusals

            return leave_refusals(board, act.who)
        case GuestCame() | GuestLeft():
            return _guest(board, act)
        case Begun():
            return _begin(board, act)
        case CheckSigned():
            from crewboard.order.safety.signing import sign_refusals

            return sign_refusals(board, act, by)
        case HazardRuledOut():
            from crewboard.order.safety.unnamed import rule_out_refusals

            return rule_out_refusals(board, act)
        case ClosedDay():
            from crewboard.order.safety.closing import close_refusals

            past = now is not None and board.at.date() < now.date()
            return close_refusals(board, by=by, stays=act.stays, past=past)
        case Finished():
            return _finish(board, act)
        case Stopped():
            return _stop(board, act)
        case Steamed():
            from crewboard.order.admit.steam import steam_refusals

            return steam_refusals(board, act)
        case Reopened() if not board[act.task].work_done:
            return [
                Refusal("not-finished", f"{quoted_title(board.plan, act.task)} is not finished")
            ]
        case HoldStarted():
            return _start_hold(act)
        case PieceFailed() | TookPlace():
            from crewboard.order.admit.pieces import piece_refusals

            return piece_refusals(board, act)
        case Temporary() | Undone():
            from crewboard.order.admit.temporary import temporary_refusals

            return temporary_refusals(board, act)
        case Extended() | Released():
            return _change_hold(board, act, by)
        case Expected(arrives=time() as arrives, leaves=time() as leaves) if leaves <= arrives:
            sentence = f"they would sign out at {leaves:%H:%M} and sign in only at {arrives:%H:%M}"
            return [Refusal("times", sentence, "write both right")]
        case Planned():
            return _planned(act)
        case OpenUntil() if act.until is None or datetime.combine(board.at, act.until) < board.at:
            sentence = "say until when the shop is open: a time that is still to come"
            return [Refusal("until", sentence, "write a time such as 17:00")]
        case OpenUntil():
            return _open_longer(board, act, by)
        case HoursWorked() | GuestHours():
            return hours_refusals(board, act)
        case HoursLeft() if act.hours < 0:
            return [Refusal("hours", "hours left cannot be less than nought")]
        case Reading() if act.celsius is None and act.humidity is None:
            return [Refusal("empty", "a reading needs a temperature or a humidity")]
        case Reading():
            return _reading(act)
        case Noted() if not act.text.strip():
            return [Refusal("empty", "the note is empty", "write what is to be noted")]
        case SetAside() if not act.back and not act.why.strip():
            return [Refusal("why", "say why the task is set aside", "add a reason")]
        case Training():
            from crewboard.order.may.training import training_refusals

            return training_refusals(board, act)
        case TakenBack():
            return _take_back(board, act)
        case LetGo():
            return _let_go(board, act, by)
        case _:
            return []


def _unknown_names(board: Board, act: Act) -> list[Refusal]:
    plan = board.plan
    known: dict[str, Collection[str]] = {
        "task": plan.tasks,
        "component": plan.components,
        "supply": plan.supplies,
        "person": plan.crew,
        "piece": plan.pieces,
        "kind of other work": plan.vehicle.other_work,
    }
    unknown = [
        Refusal(f"unknown-{thing}", f'there is no {thing} "{name}"', _near(name, known[thing]))
        for _, thing, name in named_by(act)
        if thing in known and name not in known[thing]
    ]
    empty = [
        Refusal("empty", f"say which {field.names}")
        for field in fields_of(type(act))
        if field.needed and field.names in known and not getattr(act, field.name)
    ]
    return [*unknown, *empty]


def _near(name: str, known: Iterable[str]) -> str:
    from difflib import get_close_matches  # only once a name is wrong

    near = get_close_matches(name, sorted(known), 3, 0.5)
    return f"did you mean {' or '.join(near)}?" if near else "look up its short name"


def _planned(act: Planned) -> list[Refusal]:
    if act.begins is None or act.ends is None:
        return [Refusal("times", "say from when until when it is planned", "write 10:30 to 14:00")]
    if act.ends <= act.begins:
        sentence = f"it would end at {act.ends:%H:%M} and begin only at {act.begins:%H:%M}"
        return [Refusal("times", sentence, "write both right")]
    if bool(act.task) == bool(act.what.strip()):
        return [Refusal("empty", "say which task is planned, or which small job", "one of them")]
    return []


def _open_longer(board: Board, act: OpenUntil, by: str) -> list[Refusal]:
    """Hot work rests on when the shop closes: only a lead keeps it open for longer than known."""
    known, lead = board.opening, board.plan.crew.get(by)
    longer = known is not None and act.until is not None and act.until > known.closes
    if not longer or (lead is not None and lead.leads_on(board.at.date())):
        return []
    assert known is not None
    sentence = f"the shop closes at {known.closes:%H:%M}: a lead says that it stays open longer"
    return [Refusal("lead", sentence, "write --by and the lead's name")]


def _sign_in(board: Board, act: SignIn) -> list[Refusal]:
    here = next((v for v in board.present if v.who == act.who), None)
    if here is None:
        return []
    name = person(board.plan, act.who)
    return [Refusal("here", f"{name} is here already, since {here.since:%H:%M}")]


def _guest(board: Board, act: GuestCame | GuestLeft) -> list[Refusal]:
    """A guest is somebody by name who is not of the crew now."""
    if not act.name.strip():
        return [Refusal("empty", "say the guest's name")]
    here = [visit for visit in board.guests if visit.is_called(act.name)]
    if isinstance(act, GuestLeft):
        names = ", ".join(visit.name for visit in board.guests)
        mend = f"guests here: {names}" if names else "no guest is here"
        return [] if here else [Refusal("not-here", f"{act.name} is not here as a guest", mend)]
    if here:
        sentence = f"{here[0].name} is here already, since {here[0].since:%H:%M}"
        return [Refusal("here", sentence)]
    volunteer = of_the_crew(board, act.name)
    if volunteer is None:
        return []
    mend = "sign them in as one: crewboard sign-in"
    return [Refusal("crew", f"{volunteer.name} is in the crew", mend)]


def _not_here(board: Board, who: str) -> Refusal:
    sentence = f"{person(board.plan, who)} is not signed in"
    before = [day for day in board.logbook.days if day < board.at.date()]
    for day in reversed(before):
        if who in never_left(board.logbook.days[day]):
            sentence += f", and never signed out on {day_in_words(day)}"
            return Refusal("not-here", sentence, f"write --at {day}T16:00, or when it was")
    return Refusal("not-here", sentence, "sign in first")


def _begin(board: Board, act: Begun) -> list[Refusal]:
    """What stands against it; the rules are loaded only when something is begun."""
    from crewboard.order.may.ask import against_beginning
    from crewboard.order.may.words import as_refusals

    against = against_beginning(board, act.task, act.crew, act.watch, act.adult)
    return as_refusals(board, act.task, against)


def _since(moment: datetime | None) -> str:
    return day_and_time(moment) if moment else "before"


def _finish(board: Board, act: Finished) -> list[Refusal]:
    standing, title = board[act.task], quoted_title(board.plan, act.task)
    if standing.work_done:
        when = _since(standing.finished)
        return [Refusal("finished", f"{title} was finished {when}", "reopen it first")]
    if act.clock is not None and act.clock > board.at:
        return [Refusal("clock", "the clock of a hold cannot start later than it is now")]
    if act.began is not None and act.began > board.at:
        return [Refusal("began", "it cannot have begun later than it was finished")]
    if standing.begun is None and not (act.crew and act.began) and not standing.hours:
        asked = [] if act.crew else ["who did it"]
        asked += [] if act.began else ["when it began"]
        sentence = f"nobody wrote that {title} was begun: say {' and '.join(asked)}"
        return [Refusal("never-begun", sentence, "or say why that is not known", True)]
    return []


def _stop(board: Board, act: Stopped) -> list[Refusal]:
    """Only what was begun and is not done can go on another day."""
    standing, title = board[act.task], quoted_title(board.plan, act.task)
    if standing.work_done:
        return [Refusal("finished", f"{title} was finished {_since(standing.finished)}")]
    if standing.begun is None:
        return [Refusal("not-begun", f"{title} is not under way", "begin it first")]
    if standing.stopped is not None:
        sentence = f"{title} was stopped {day_and_time(standing.stopped)}, and nobody is on it"
        return [Refusal("stopped", sentence, "who goes on with it begins it again")]
    return []


def _let_go(board: Board, act: LetGo, by: str) -> list[Refusal]:
    """What is gone may have held work back: who leads says that it may be gone, where anybody
    leads."""
    if any(one.kind == "crew" for one in board.unreadable):
        sentence = "nobody is known as a lead while crew.toml cannot be read"
        return [Refusal("lead", sentence, "bring crew.toml back first")]
    day = board.at.date()
    leads = [who for who in board.plan.crew.values() if who.leads_on(day)]
    if not by:
        return [Refusal("who", "say who says so", "a person of the crew answers for it")]
    if not act.why.strip():
        return [Refusal("why", "say why it may be gone", "add a reason")]
    if leads and by not in {who.id for who in leads}:
        named = " or ".join(who.name for who in leads)
        return [Refusal("lead", "only a lead says that it may be gone", f"let {named} say so")]
    return []


def _start_hold(act: HoldStarted) -> list[Refusal]:
    if act.hold not in KINDS:
        return [Refusal("kind", f'there is no hold "{act.hold}"', f"kinds are {', '.join(KINDS)}")]
    on = [name for name in (act.task, act.component, act.piece) if name]
    if not on:
        return [Refusal("empty", "say which task, component or piece the hold is on")]
    if len(on) > 1:
        mend = "name one of them; start a second hold for the other"
        return [Refusal("both", "a hold is on a task, on a component or on a piece", mend)]
    return []


def _change_hold(board: Board, act: Extended | Released, by: str) -> list[Refusal]:
    hold = board.holds.get(act.hold)
    if hold is None:
        return [Refusal("no-hold", f'no hold "{act.hold}" was started', "look at the holds")]
    if not by:
        does = "releases the hold" if isinstance(act, Released) else "makes the hold longer"
        return [Refusal("who", f"say who {does}", "a person of the crew answers for it")]
    if isinstance(act, Released):
        return _release(board, act, hold)
    if hold.released_at is not None:
        by = f" by {person(board.plan, hold.released_by)}" if hold.released_by else ""
        sentence = f"that hold was released {day_and_time(hold.released_at)}{by}, and stays so"
        return [Refusal("over", sentence, "start a new hold on it")]
    if (act.lasts is None) == (act.until is None):
        return [Refusal("empty", "say by how long, or until when")]
    end = hold.until or hold.not_before or board.at
    if act.until is not None and act.until <= max(board.at, end):
        mend = "give a later end, or release it with the reason"
        return [Refusal("earlier", "that would not make the hold longer", mend)]
    if not act.why.strip():
        return [Refusal("why", "say why the hold is made longer", "add a reason")]
    return []


def _release(board: Board, act: Released, hold: StandingHold) -> list[Refusal]:
    if act.refused and hold.kind != "approval":
        return [Refusal("refused", "only an approval is refused", "make the hold longer")]
    if act.refused and not act.why.strip():
        return [Refusal("why", "say why it was refused", "add the reason")]
    if hold.stage == "over":
        return [Refusal("over", "that hold is over already")]
    early = hold.stage == "running" and (hold.until is not None or bool(hold.unread))
    if early and not act.why.strip():
        sentence = f"it is early: {hold_in_words(board, hold)}"
        return [Refusal("why", sentence, "add the reason for releasing it early")]
    return []


def _reading(act: Reading) -> list[Refusal]:
    """The lowest and highest since the last reading lie around what is read now."""
    degrees = (act.lowest_c, act.celsius, act.highest_c)
    for low, now, high in (degrees, (act.lowest_humidity, act.humidity, act.highest_humidity)):
        known = [value for value in (low, now, high) if value is not None]
        if known != sorted(known):
            sentence = "what is read now does not lie between the lowest and the highest"
            return [Refusal("reading", sentence, "look at the thermometer again")]
    return []


def _take_back(board: Board, act: TakenBack) -> list[Refusal]:
    place = board.logbook.find(act.entry)
    if place is None:
        return [Refusal("no-entry", f'there is no entry "{act.entry}" on that day')]
    day, _ = place
    fate = day.fate().get(act.entry)
    lines = {entry.id: entry for entry in day.entries}
    if fate is not None and isinstance(lines[fate].act, TakenBack):
        return [Refusal("taken-back", f'"{act.entry}" was taken back already')]
    return []
