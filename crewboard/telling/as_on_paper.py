"""Names and hours as a hand writes them on a sheet: "Ada 2.5, Ben 2 watch", read."""

import re
from collections.abc import Mapping
from typing import NamedTuple

from crewboard.logbook.acts import Begun, GuestHours, HoursWorked
from crewboard.order.said import component_name, listed
from crewboard.plan import as_typed
from crewboard.plan.as_typed import Unread
from crewboard.plan.plan import Plan

_SHOWN = 3  # names that fit, said where several do
_ROLES = {"watch": "watch", "watches": "watch", "beside": "beside"}


class OnJob(NamedTuple):
    """Somebody beside a job: of the crew, or a guest by name; `role` is "watch" of who only watched
    over it, "beside" of the adult beside the under-18s."""

    who: str = ""
    guest: str = ""
    hours: float | None = None
    role: str = ""


def whom(plan: Plan, typed: str) -> str:
    """The id of somebody of the crew, by the beginnings of their names. Raises Unread."""
    return _one("person of the crew", typed, {who: v.name for who, v in plan.crew.items()})


def task_of(plan: Plan, typed: str) -> str:
    """The id of a task, by the beginnings of words of its title and component. Raises Unread."""
    titles = {one.id: one.title for one in plan.tasks.values()}
    exact = [task for task, title in titles.items() if title.casefold() == typed.casefold()]
    if len(exact) == 1:
        return exact[0]
    named = {
        task: f"{title} ({component_name(plan, plan.tasks[task].component)})"
        for task, title in titles.items()
    }
    return _one("task", typed, named)


def _one(thing: str, typed: str, names: Mapping[str, str]) -> str:
    words = _words(typed)
    of = {one: {*_words(name), one.casefold()} for one, name in names.items()}
    whole = [one for one in names if words and words <= of[one]]
    begins = [
        one for one in names if words and all(any(n.startswith(w) for n in of[one]) for w in words)
    ]
    fitting = whole if len(whole) == 1 else begins
    if len(fitting) == 1:
        return fitting[0]
    if not fitting:
        raise Unread(f'there is no {thing} "{typed.strip()}"')
    more = f" and {len(fitting) - _SHOWN} more" if len(fitting) > _SHOWN else ""
    shown = ", ".join(names[one] for one in fitting[:_SHOWN])
    raise Unread(f'"{typed.strip()}" could be {shown}{more}', "write more of the name")


def _words(text: str) -> set[str]:
    return set(re.findall(r"[^\s(),/]+", text.casefold()))


def on_job(plan: Plan, guests: Mapping[str, str], typed: str) -> tuple[OnJob, ...]:
    """ "Ada 2.5, Ben 2:30 watch, Ines Bratt 1,5". Raises Unread."""
    # A comma between two figures is a decimal one.
    several = re.split(r"\s*(?:;|\+|,(?!\d)|(?<!\d),)\s*", typed.strip())
    people = tuple(_on_job(plan, guests, one) for one in several if one)
    names = [one.who or one.guest for one in people]
    twice = [name for name in dict.fromkeys(names) if names.count(name) > 1]
    if twice:
        called = listed(plan.crew[one].name if one in plan.crew else one for one in twice)
        raise Unread(f"{called} stands there twice")
    return people


def _on_job(plan: Plan, guests: Mapping[str, str], typed: str) -> OnJob:
    words = typed.split()
    role = _ROLES.get(words[-1].casefold(), "") if len(words) > 1 else ""
    both = re.fullmatch(r"(\D*?)\s*(\d.*)?", " ".join(words[:-1] if role else words))
    name = both[1].strip() if both else ""
    if both is None or not name:
        raise Unread(f'"{typed}" says not who', "write a name and the hours: Ada 2.5")
    hours = as_typed.hours(both[2]) if both[2] else None
    if name.casefold() in (known.casefold() for known in guests):
        guest = next(known for known in guests.values() if known.casefold() == name.casefold())
        return OnJob(guest=guest, hours=hours, role=role)
    return OnJob(whom(plan, name), hours=hours, role=role)


def begin_of(task: str, people: tuple[OnJob, ...]) -> Begun:
    """The begin of a task with these people, each in their part."""
    crew = tuple(one.who for one in people if one.who and one.role != "watch")
    watch = tuple(one.who for one in people if one.who and one.role == "watch")
    adult = next((one.who for one in people if one.role == "beside"), "")
    return Begun(task, crew, watch=watch, adult=adult)


def hours_of(task: str, one: OnJob) -> HoursWorked | GuestHours:
    """The hours of one of them on the task."""
    assert one.hours is not None
    return (
        HoursWorked(one.who, one.hours, task) if one.who else GuestHours(one.guest, one.hours, task)
    )
