"""`components/NAME.toml`: one main component, its parts and tasks, names as written."""

from collections.abc import Mapping
from typing import Any, NamedTuple, cast, get_args

from crewboard.folder.read.fault import Misfit
from crewboard.folder.read.piece_tables import component_of, decode_pieces
from crewboard.folder.read.table import Table, spoken_type
from crewboard.folder.read.vehicle_file import decode_conditions
from crewboard.plan.component import Component
from crewboard.plan.duration import Duration
from crewboard.plan.hold import KINDS, Conditions, Hold, Release
from crewboard.plan.piece import MOST_OF_A_KIND, Piece
from crewboard.plan.task import Changes, Estimate, Faces, Task

CHANGES, FACES = get_args(Changes), get_args(Faces)

# Conditions of a hold, or of a task, may be the shop's own: conditions = "shop". They are put in
# when the files come together, since they stand in another file.
SHOP = Conditions(at_least_c=float("nan"))


# A name that no file can give a task: ids begin with a letter or a digit.
UNREADABLE = "-unreadable"


class ComponentFile(NamedTuple):
    """What one file says. Ids are full ("deck/lay-boards"), but the names in `after`, `during`
    and `part_of` stand as they were written."""

    components: dict[str, Component]
    tasks: dict[str, Task]
    pieces: Mapping[str, Piece] = {}
    several: Mapping[str, tuple[str, ...]] = {}


def unreadable(stem: str, named: Mapping[str, Task]) -> ComponentFile:
    """What stands in for a file that cannot be read, so that nothing behind it seems ready. `named`
    are those of its tasks that are known otherwise, by their ids."""
    task = Task(
        id=f"{stem}/{UNREADABLE}",
        title=f"components/{stem}.toml cannot be read",
        component=stem,
        set_aside="mend that file first",
    )
    return ComponentFile({stem: Component(id=stem, name=stem)}, {**named, task.id: task})


def decode_component(stem: str, values: dict[str, Any]) -> tuple[ComponentFile, list[Misfit]]:
    """The component whose file is called `stem`, and every mistake."""
    misfits: list[Misfit] = []
    table = Table(values, (), misfits)
    main = Component(
        id=stem,
        name=table.text("name", stem, needed=True),
        after=table.names("after"),
        about=table.text("about"),
        pictures=table.names("pictures"),
        standard=table.text("standard"),
    )
    components = {stem: main}
    for name, part in table.tables("parts"):
        if part.well_named():
            components[f"{stem}/{name}"] = _part(stem, name, part)
    tasks = {}
    for name, task in table.tables("tasks"):
        if f"{stem}/{name}" in components:
            sentence = f'"{name}" is already the name of a part of this component'
            task.tell(None, "twice", sentence, "give the task another name")
        elif task.well_named():
            tasks[f"{stem}/{name}"] = _task(stem, name, task, components)
    pieces, several = decode_pieces(stem, table, components)
    table.done()
    return ComponentFile(components, tasks, pieces, several), misfits


def _part(stem: str, name: str, table: Table) -> Component:
    part = Component(
        id=f"{stem}/{name}",
        name=table.text("name", name, needed=True),
        after=table.names("after"),
        part_of=table.text("part_of", stem),
        about=table.text("about"),
        pictures=table.names("pictures"),
        standard=table.text("standard"),
    )
    table.done()
    return part


def _task(stem: str, name: str, table: Table, components: dict[str, Component]) -> Task:
    least, most = _people(table)
    task = Task(
        id=f"{stem}/{name}",
        title=table.text("title", name, needed=True),
        component=component_of(stem, table, components),
        method=table.text("method"),
        after=table.names("after"),
        during=table.names("during"),
        estimate=_estimate(table),
        least_people=least,
        most_people=most,
        skills=table.names("skills"),
        hazards=table.names("hazards"),
        supplies=table.names("supplies"),
        amounts=_amounts(table),
        place=table.text("place"),
        pictures=table.names("pictures"),
        hold=_hold(table.any("hold"), table),
        conditions=_conditions(table),
        not_before=table.day("not_before"),
        due=table.day("due"),
        finished=table.day("finished"),
        set_aside=table.text("set_aside"),
        each=table.names("each"),
        pieces=table.names("pieces"),
        spares=table.flag("spares"),
        enough=_enough(table),
        within=_within(table),
        uses=table.names("uses"),
        in_one_go=table.flag("in_one_go"),
        changes=cast("Changes | None", table.one_of("changes", CHANGES, "") or None),
        faces=cast("Faces | None", table.one_of("faces", FACES, "") or None),
        finding=table.text("finding"),
        added=table.day("added"),
    )
    if task.each and task.pieces:
        hint = "remove one of the two"
        table.tell("pieces", "both", "a task is done for each piece, or once to all of them", hint)
        task = task._replace(pieces=())
    table.done()
    return task


def _amounts(table: Table) -> dict[str, float]:
    """amounts = { bolts = 8 }: how much of its supplies the task needs."""
    value = table.any("amounts")
    if value is None:
        return {}
    if not isinstance(value, dict) or not all(_is_amount(amount) for amount in value.values()):
        hint = "write how much of each, such as amounts = { bolts = 8 }"
        table.tell("amounts", "wrong-type", '"amounts" does not say how much', hint)
        return {}
    known = table.values.get("supplies", ())
    for name in value:
        if name not in known:
            hint = "write its short name into supplies too"
            sentence = f'"{name}" is none of the supplies of this task'
            table.tell("amounts", "unknown-name", sentence, hint)
    return {name: float(amount) for name, amount in value.items() if name in known}


def _is_amount(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value < 1e9


def _enough(table: Table) -> dict[str, int]:
    """enough = { glaze = 2 }: two of the pieces that it is done to are enough before this task."""
    inner = table.table("enough")
    if inner is None:
        return {}
    return {name: inner.whole(name, 1, least=1, most=MOST_OF_A_KIND) for name in inner.values}


def _within(table: Table) -> dict[str, Duration]:
    """within = { blast = "8 hours" }: begun at most so long after that task was finished."""
    inner = table.table("within")
    spans = {name: inner.span(name) for name in inner.values} if inner is not None else {}
    return {name: span for name, span in spans.items() if span is not None}


def _people(table: Table) -> tuple[int, int | None]:
    """people = 2 (that many), or [2, 4] (least and most)."""
    value = table.any("people")
    if value is None:
        return 1, None
    counts = [value, value] if isinstance(value, int) else value
    if (
        isinstance(counts, list)
        and len(counts) == 2
        and all(type(count) is int for count in counts)
        and 1 <= counts[0] <= counts[1] <= 1000
    ):
        return counts[0], counts[1]
    table.tell(
        "people",
        "wrong-type",
        '"people" is not the least and the most people for the task',
        "write people = [1, 3], or people = 2",
    )
    return 1, None


def _estimate(table: Table) -> Estimate | None:
    """hours = [low, likely, high] in person-hours, or one number for all three."""
    value = table.any("hours")
    if value is None:
        return None
    hours = [value] * 3 if isinstance(value, int | float) else value
    if (
        isinstance(hours, list)
        and len(hours) == 3
        and all(isinstance(h, int | float) and not isinstance(h, bool) for h in hours)
        and 0 <= hours[0] <= hours[1] <= hours[2] <= 100_000
        and hours[2] > 0
    ):
        return Estimate(*map(float, hours))
    table.tell(
        "hours",
        "wrong-type",
        '"hours" is not a low, a likely and a high estimate',
        "write person-hours from low to high, such as hours = [4, 6, 12]",
    )
    return None


def _hold(value: object, task: Table) -> Hold | None:
    if value is None:
        return None
    if not isinstance(value, dict):
        sentence = f'"hold" is {spoken_type(value)}'
        hint = 'write hold = { kind = "glue", lasts = "24 hours" }'
        task.tell("hold", "wrong-type", sentence, hint)
        return None
    table = Table(value, (*task.path, "hold"), task.misfits)
    kind = table.one_of("kind", KINDS)
    if not kind:
        if "kind" not in table:
            table.tell(None, "missing", '"kind" is missing here', f"kinds are {', '.join(KINDS)}")
        return None
    lasts = table.span("lasts")
    asked = table.one_of("release", ("time", "look"), KINDS[kind].release)
    if lasts is None and asked == "time" and "lasts" not in table:
        # A kind that usually ends by the clock, with no time given: only a person can end it.
        if "release" in table:
            sentence = "a hold that ends by time has no time"
            table.tell("release", "missing", sentence, 'add lasts = "24 hours"')
        asked = "look"
    hold = Hold(
        kind=kind,
        lasts=lasts,
        release=cast("Release", asked),
        leave_alone=table.flag("leave_alone"),
        conditions=_conditions(table),
        note=table.text("note"),
        source=table.text("source"),
    )
    table.done()
    return hold


def _conditions(table: Table) -> Conditions:
    if table.values.get("conditions") == "shop":
        table.any("conditions")
        return SHOP
    return decode_conditions(table.table("conditions"))
