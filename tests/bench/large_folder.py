"""A made-up folder of any size: components, tasks and years of work days, to measure with."""

from __future__ import annotations

import random
from datetime import date, datetime, time, timedelta
from pathlib import Path

from crewboard.folder.read.day_file import entry_fields
from crewboard.folder.toml.append import entry_line, new_day, new_id
from crewboard.logbook.acts import (
    Act,
    Begun,
    CheckSigned,
    Finished,
    HoursWorked,
    Reading,
    SignIn,
    SignOut,
)
from crewboard.logbook.entry import Entry

PEOPLE = 20
FIRST_DAY = date(2020, 1, 4)


def large_folder(
    root: Path, tasks: int, days: int = 0, entries: int = 0, seed: int = 1
) -> datetime:
    """Write the folder; the moment after its last day. Fifty tasks stand in each component."""
    dice = random.Random(seed)
    root.mkdir(parents=True, exist_ok=True)
    (root / "vehicle.toml").write_text(
        'format = 1\nname = "Large"\n[work_days]\nevery = ["saturday", "wednesday"]\n'
    )
    people = (f'[people.p{n}]\nname = "Person {n}"\n' for n in range(PEOPLE))
    (root / "crew.toml").write_text("\n".join(people))
    (root / "components").mkdir(exist_ok=True)
    names = [f"c{n // 50}/t{n}" for n in range(tasks)]
    for component in range(0, tasks, 50):
        _component(root, component // 50, names[component : component + 50], dice)
    for number in range(days):
        day = FIRST_DAY + timedelta(days=number * 3)
        count = entries * (number + 1) // days - entries * number // days
        finished = names[tasks * number // (2 * days) : tasks * (number + 1) // (2 * days)]
        _day(root, day, count, finished, names, dice)
    return datetime.combine(FIRST_DAY + timedelta(days=days * 3 + 1), time(9))


def _component(root: Path, number: int, names: list[str], dice: random.Random) -> None:
    text = f'name = "Component {number}"\n'
    if number:
        text += f'after = ["c{dice.randrange(number)}"]\n'
    for place, name in enumerate(names):
        short = name.partition("/")[2]
        text += f'\n[tasks.{short}]\ntitle = "Task {short}"\nhours = [2, 4, 8]\npeople = [1, 3]\n'
        text += 'method = "As the drawing says; look at the old piece first."\n'
        if place:
            earlier = names[dice.randrange(max(0, place - 8), place)].partition("/")[2]
            text += f'after = ["{earlier}"]\n'
        if place % 5 == 0:
            text += 'hold = { kind = "dry", lasts = "36 hours" }\n'
    (root / f"components/c{number}.toml").write_text(text)


def _day(
    root: Path, day: date, count: int, finished: list[str], names: list[str], dice: random.Random
) -> None:
    acts: list[Act] = []
    for task in finished:
        acts += [Begun(task, ("p1",)), Finished(task)]
    while len(acts) < count:
        who, task = f"p{dice.randrange(PEOPLE)}", dice.choice(names)
        acts += [
            SignIn(who),
            HoursWorked(who, dice.randrange(2, 13) / 2, task, "as drawn"),
            HoursWorked(who, 1.5, task),
            CheckSigned("wood-dust", "extraction", who, task),
            Reading(15.0, 60.0),
            SignOut(who),
        ]
    taken: set[str] = set()
    lines = []
    for number, act in enumerate(acts[:count]):
        taken.add(entry_id := new_id(dice, taken))
        at = datetime.combine(day, time(9)) + timedelta(minutes=number * 420 // count)
        lines.append(entry_line(entry_id, entry_fields(Entry(entry_id, at, act, "p0"))))
    path = root / f"days/{day.year}/{day}.toml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(new_day(day) + "".join(line + "\n" for line in lines).encode())
