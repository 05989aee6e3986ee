"""Folders that grow in one way each: so many tasks, links, holds or lines, and what else they need.

A shape gives the texts of the files for a size `n`. Twice the size is twice as much to read; what
takes four times as long then would take an evening in a folder of twenty years.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Mapping
from datetime import datetime, timedelta

AT = datetime(2026, 5, 2, 9)
Texts = dict[str, str]
_EACH = 20  # tasks in a component


def _vehicle() -> Texts:
    people = "\n".join(f'[people.p{n}]\nname = "Person {n}"\n' for n in range(10))
    return {
        "vehicle.toml": 'name = "Growing"\n[work_days]\nevery = ["saturday"]\n',
        "crew.toml": people,
    }


def _names(n: int, each: int = _EACH) -> list[str]:
    return [f"c{number // each}/t{number}" for number in range(n)]


def _tasks(
    n: int, says: Callable[[int, list[str]], str], each: int = _EACH, head: Mapping[int, str] = {}
) -> Texts:
    """Component files; `says` gives the lines of a task by its number and all names."""
    names, texts = _names(n, each), {}
    for component in range(-(-n // each)):
        lines = [head.get(component, f'name = "Component {component}"\n')]
        for number in range(component * each, min(n, (component + 1) * each)):
            lines.append(f'[tasks.t{number}]\ntitle = "Task {number}"\nhours = [2, 4, 8]\n')
            lines.append(says(number, names))
        texts[f"components/c{component}.toml"] = "".join(lines)
    return _vehicle() | texts


def _list(names: Iterable[str]) -> str:
    return "[" + ", ".join(f'"{name}"' for name in names) + "]"


def _dice(number: int) -> random.Random:
    return random.Random(number)


def _three_near(number: int, names: list[str]) -> str:
    earlier = range(max(0, number - 8), number)
    some = sorted(_dice(number).sample(earlier, min(3, len(earlier))))
    return f"after = {_list(names[one] for one in some)}\n" if some else ""


def _three_far(number: int, names: list[str]) -> str:
    some = sorted(_dice(number).sample(range(number), min(3, number)))
    return f"after = {_list(names[one] for one in some)}\n" if some else ""


def _heads(n: int, before: Callable[[int], Iterable[int]]) -> dict[int, str]:
    return {
        number: f'name = "Component {number}"\n'
        f"after = {_list(f'c{one}' for one in before(number))}\n"
        for number in range(-(-n // _EACH))
    }


def three_links(n: int) -> Texts:
    return _tasks(n, _three_far)


def links_nearby(n: int) -> Texts:
    return _tasks(n, _three_near)


def links_around(n: int) -> Texts:
    """Three links of each task to any others: hundreds of loops."""

    def says(number: int, names: list[str]) -> str:
        some = sorted(_dice(number).sample(range(n), 3))
        return f"after = {_list(names[one] for one in some if one != number)}\n"

    return _tasks(n, says)


def links_to_components(n: int) -> Texts:
    """Three links of each task to components before its own."""

    def says(number: int, names: list[str]) -> str:
        own = number // _EACH
        some = sorted(_dice(number).sample(range(own), min(3, own)))
        return f"after = {_list(f'c{one}' for one in some)}\n"

    return _tasks(n, says)


def components_in_a_row(n: int) -> Texts:
    return _tasks(n, _three_near, head=_heads(n, lambda c: range(max(0, c - 1), c)))


def components_after_three(n: int) -> Texts:
    def before(c: int) -> list[int]:
        return sorted(_dice(c).sample(range(c), min(3, c)))

    return _tasks(n, lambda *_: "", head=_heads(n, before))


def components_without_work(n: int) -> Texts:
    """Each component has one task; between any two stand ten that have none."""
    texts = _vehicle()
    for c in range(n):
        after = f'after = ["c{c - 1}"]\n' if c else ""
        work = f'[tasks.t{c}]\ntitle = "Task {c}"\n' if c % 10 == 0 else ""
        texts[f"components/c{c}.toml"] = f'name = "Component {c}"\n{after}{work}'
    return texts


def _parts(n: int, part_of: Callable[[int], str]) -> Texts:
    lines = ['name = "Frame"\n']
    for number in range(n):
        lines.append(f'[parts.p{number}]\nname = "Part {number}"\n{part_of(number)}')
        lines.append(f'[tasks.t{number}]\ntitle = "Task {number}"\npart = "p{number}"\n')
        lines.append(f'after = ["t{number - 1}"]\n' if number else "")
        lines.append('hold = { kind = "glue", lasts = "2 days", leave_alone = true }\n')
    return _vehicle() | {"components/frame.toml": "".join(lines)}


def parts_side_by_side(n: int) -> Texts:
    return _parts(n, lambda _: "")


def parts_within_parts(n: int) -> Texts:
    return _parts(n, lambda number: f'part_of = "p{number - 1}"\n' if number else "")


def work_during_holds(n: int) -> Texts:
    def says(number: int, names: list[str]) -> str:
        during = f'during = ["{names[number - 1]}"]\n' if number % 2 else _three_near(number, names)
        return during + 'hold = { kind = "dry", lasts = "2 days" }\n'

    return _tasks(n, says)


def components_left_alone(n: int) -> Texts:
    leave = 'hold = { kind = "glue", lasts = "2 days", leave_alone = true }\n'
    return _tasks(n, lambda number, names: _three_near(number, names) + leave)


def one_component_left_alone(n: int) -> Texts:
    leave = 'hold = { kind = "glue", lasts = "2 days", leave_alone = true }\n'
    return _tasks(n, lambda number, names: leave if number % 10 == 0 else "", each=n)


def set_aside(n: int) -> Texts:
    return _tasks(n, lambda k, names: _three_near(k, names) + 'set_aside = "no wood"\n')


def dates_to_keep(n: int) -> Texts:
    return _tasks(n, lambda k, names: _three_near(k, names) + "due = 2026-06-01\n")


def supplies_of_their_own(n: int) -> Texts:
    shelf = "".join(
        f'[supplies.s{k}]\nname = "Supply {k}"\nunit = "kg"\nin_stock = 1\nlead_time = "3 weeks"\n'
        if k % 2
        else f'[supplies.s{k}]\nname = "Supply {k}"\n'
        for k in range(n)
    )
    tasks = _tasks(n, lambda k, names: _three_near(k, names) + f'supplies = ["s{k}", "s0"]\n')
    return tasks | {"supplies.toml": shelf}


def hazards_each(n: int) -> Texts:
    named = 'hazards = ["wood-dust", "hot-work"]\nskills = ["welding", "joinery"]\n'
    return _tasks(n, lambda k, names: named)


def unknown_names(n: int) -> Texts:
    return _tasks(n, lambda k, _: f'after = ["nowhere-{k}"]\nsupplies = ["nothing-{k}"]\n')


def people(n: int) -> Texts:
    crew = "".join(
        f'[people.p{k}]\nname = "Person {k}"\nskills = ["joinery"]\n'
        f'certificates = {{ "first aid" = {{ until = 2026-06-0{k % 9 + 1} }} }}\n'
        for k in range(n)
    )
    return _tasks(40, _three_near) | {"crew.toml": crew}


# --- logbooks ------------------------------------------------------------------------------------


def _days(lines: Iterable[tuple[datetime, str]]) -> Texts:
    """Day files of (moment, what the line says behind it)."""
    texts: Texts = {}
    for number, (at, says) in enumerate(lines):
        path = f"days/{at:%Y}/{at:%Y-%m-%d}.toml"
        before = texts.get(path, f"date = {at:%Y-%m-%d}\n\n[entries]\n")
        line = f'e{number:07} = {{ at = {at:%Y-%m-%dT%H:%M:%S}, by = "p1", {says} }}\n'
        texts[path] = before + line
    return texts


def _weeks(n: int) -> list[datetime]:
    """As many days as wanted, a week apart, the last a week before the moment of the board."""
    return [AT - timedelta(days=7 * (n - number)) for number in range(n)]


def _one_of_each(n: int, says: Callable[[int, str], str], a_day: int = 20) -> Texts:
    """A line for each task, so many a day."""
    names, days = _names(n), _weeks(-(-n // a_day))
    return _days(
        (days[k // a_day] + timedelta(minutes=k % a_day * 15), says(k, name))
        for k, name in enumerate(names)
    )


def begun(n: int) -> Texts:
    return links_nearby(n) | _one_of_each(
        n, lambda _, name: f'kind = "begun", task = "{name}", crew = ["p1"], despite = "so"'
    )


def finished(n: int) -> Texts:
    return work_during_holds(n) | _one_of_each(
        n, lambda _, name: f'kind = "finished", task = "{name}"'
    )


def finished_half(n: int) -> Texts:
    return three_links(n) | _one_of_each(
        n // 2, lambda _, name: f'kind = "finished", task = "{name}"'
    )


def reopened(n: int) -> Texts:
    """Every task finished, and every tenth opened again."""
    once = _one_of_each(n, lambda _, name: f'kind = "finished", task = "{name}"')
    again = AT - timedelta(days=2)
    names = _names(n)[:: n // 10]
    return (
        links_nearby(n)
        | once
        | _days(
            (again + timedelta(minutes=k), f'kind = "reopened", task = "{name}", why = "split"')
            for k, name in enumerate(names)
        )
    )


def holds_by_hand(n: int) -> Texts:
    """A hold on each task that runs or is due, made longer once."""
    names, lines = _names(n), []
    for k, name in enumerate(names):
        at = AT - timedelta(days=1 + k // 40, minutes=k % 40)
        says = f'kind = "hold", hold = "glue", task = "{name}", lasts = "2 days", why = "wet"'
        lines.append((at, says))
    return links_nearby(n) | _days(lines)


def holds_on_one_task(n: int) -> Texts:
    says = 'kind = "hold", hold = "glue", task = "c0/t0", lasts = "200 years", why = "wet"'
    return links_nearby(40) | _days((day, says) for day in _weeks(n))


def cold_holds(n: int) -> Texts:
    """Holds with conditions behind each task, and a reading of the shop for each."""
    hold = 'hold = { kind = "cure", lasts = "90 days", at_least_c = 10 }\n'
    plan = _tasks(n, lambda k, names: _three_near(k, names) + hold)
    lines = []
    for k, (name, day) in enumerate(zip(_names(n), _weeks(n), strict=True)):
        lines.append((day, f'kind = "reading", celsius = {5 + k % 12}'))
        lines.append((day + timedelta(hours=1), f'kind = "finished", task = "{name}"'))
    return plan | _days(lines)


def long_logbook(n: int) -> Texts:
    """Days with people, hours, checks and notes."""
    lines = []
    for k, day in enumerate(_weeks(n // 10)):
        for person in range(4):
            came = day + timedelta(minutes=person)
            lines.append((came, f'kind = "sign-in", who = "p{person}"'))
            task = _names(40)[(k + person) % 40]
            lines.append(
                (
                    came + timedelta(hours=6),
                    f'kind = "hours", who = "p{person}", hours = 5.5, task = "{task}"',
                )
            )
        lines.append((day + timedelta(hours=2), f'kind = "note", text = "Day {k}"'))
    return links_nearby(40) | _days(lines)


def days_left_open(n: int) -> Texts:
    """Days that nobody closed, each with somebody who never left, and a dangerous task begun."""
    plan = _tasks(40, lambda k, _: 'hazards = ["hot-work"]\n')
    lines = []
    for k, day in enumerate(_weeks(n // 2)):
        lines.append((day, 'kind = "sign-in", who = "p1"'))
        lines.append((day, f'kind = "begun", task = "{_names(40)[k % 40]}", crew = ["p1"]'))
    return plan | _days(lines)


def corrections(n: int) -> Texts:
    """One day with a line that was corrected again and again."""
    day = AT - timedelta(days=7)
    says = 'kind = "hours", who = "p1", hours = 2, task = "c0/t0"'
    return links_nearby(40) | _days(
        (day + timedelta(seconds=k), f'{says}, replaces = "e{k - 1:07}"' if k else says)
        for k in range(n)
    )


def one_long_day(n: int) -> Texts:
    day = AT - timedelta(days=7)
    kinds = [
        'kind = "sign-in", who = "p{p}"',
        'kind = "hours", who = "p{p}", hours = 0.01, task = "c0/t1"',
        'kind = "sign-out", who = "p{p}"',
    ]
    return links_nearby(40) | _days(
        (day + timedelta(seconds=k), kinds[k % 3].replace("{p}", str(k // 3 % 10)))
        for k in range(n)
    )


def supplies_used(n: int) -> Texts:
    shelf = '[supplies.glue]\nname = "Glue"\nunit = "kg"\nin_stock = 1\n'
    kinds = [
        'kind = "ordered", supply = "glue", due = 2026-06-01, amount = 2',
        'kind = "arrived", supply = "glue", amount = 2',
        'kind = "used", supply = "glue", amount = 1',
    ]
    lines = ((day, kinds[k % 3]) for k, day in enumerate(_weeks(n)))
    plan = _tasks(40, lambda k, _: 'supplies = ["glue"]\n')
    return plan | {"supplies.toml": shelf} | _days(lines)


def promises(n: int) -> Texts:
    """People who said that they come, for days to come."""
    lines = []
    for k in range(n):
        day = AT + timedelta(days=7 * (k // 10))
        lines.append((AT - timedelta(days=2, minutes=k), day, k % 10))
    texts: Texts = {}
    for number, (at, day, who) in enumerate(lines):
        path = f"days/{day:%Y}/{day:%Y-%m-%d}.toml"
        before = texts.get(path, f"date = {day:%Y-%m-%d}\n\n[entries]\n")
        texts[path] = (
            before + f"e{number:07} = {{ at = {at:%Y-%m-%dT%H:%M:%S}, "
            f'kind = "expected", who = "p{who}", coming = true }}\n'
        )
    return links_nearby(40) | texts


SHAPES: tuple[Callable[[int], Texts], ...] = (
    three_links,
    links_nearby,
    links_around,
    links_to_components,
    components_in_a_row,
    components_after_three,
    components_without_work,
    parts_side_by_side,
    parts_within_parts,
    work_during_holds,
    components_left_alone,
    one_component_left_alone,
    set_aside,
    dates_to_keep,
    supplies_of_their_own,
    hazards_each,
    unknown_names,
    people,
    begun,
    finished,
    finished_half,
    reopened,
    holds_by_hand,
    holds_on_one_task,
    cold_holds,
    long_logbook,
    days_left_open,
    corrections,
    one_long_day,
    supplies_used,
    promises,
)
