"""Guests who joined the crew: names that no guest ever bore, and those that two people claim."""

from __future__ import annotations

from collections.abc import Iterator

from crewboard.folder.read.fault import Remark, nearest
from crewboard.folder.read.files import CREW, DAYS
from crewboard.folder.read.folder import Folder
from crewboard.logbook.visits import same_name
from crewboard.order.hours.guests import claims, guest_names
from crewboard.order.said import listed, person


def claimed_twice(folder: Folder) -> Iterator[Remark]:
    """A guest cannot have become two people: their hours stay a guest's until one is named."""
    for name, people in claims(folder.plan).items():
        if len(people) > 1:
            names = listed(person(folder.plan, who) for who in people)
            sentence = f'{names} both say that they were the guest "{name}"'
            path = ("people", people[-1], "was_guest")
            yield Remark(CREW, path, "was-guest", sentence, "leave it with one of them")


def guests_who_never_came(folder: Folder) -> Iterator[Remark]:
    """A name under `was_guest` that no guest of the logbook bore."""
    if not any(volunteer.was_guest for volunteer in folder.plan.crew.values()):
        return
    known = guest_names(folder.logbook)
    for volunteer in folder.plan.crew.values():
        for name in volunteer.was_guest:
            if same_name(name) not in known:
                sentence = f'no guest "{name}" ever came: {volunteer.name} has no hours from it'
                path, hint = ("people", volunteer.id, "was_guest"), nearest(name, known.values())
                yield Remark(CREW, path, "was-guest", sentence, hint, rests_on=(DAYS,))
