"""What is typed into the table of a component's tasks, read: each row makes or changes a task."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from typing import Any, NamedTuple

from crewboard.folder.edit.plan_edits import Add, Change, Key
from crewboard.folder.read.files import id_from
from crewboard.order.said import component_name, listed
from crewboard.plan.hold import KINDS
from crewboard.plan.plan import Plan
from crewboard.plan.task import Task
from crewboard.terminal.forms.reading import (
    Wrong,
    estimate,
    needed,
    people,
    span,
    typed_estimate,
    typed_people,
)
from crewboard.terminal.planning.written import names_taken, written_order

TITLE, HOURS, AFTER, PEOPLE, HOLD = range(5)
NAMES = ("title", "hours", "after", "people", "hold")
HINTS = (
    "what is done, in a few words",
    "person-hours: 3, or 2-4, or low likely high: 2 3 6",
    "numbers of rows, or the first letters of a title: 1, 3 or prime",
    "how many: 2, or 2-3",
    "glue 24 hours, dry 2d, bend set 1 month",
)


class WrongCell(Exception):
    """A cell that cannot be read, or a row that is refused: where, and the sentence."""

    def __init__(self, row: int, column: int, sentence: str) -> None:
        super().__init__(f"row {row + 1}, {NAMES[column]}: {sentence}")
        self.row, self.column, self.sentence = row, column, sentence


class InTable(NamedTuple):
    """A task that stands in the table already: its table as written, its cells as shown."""

    task: Task
    table: dict[str, Any]
    cells: tuple[str, ...]


class RowEdit(NamedTuple):
    """An edit, and the row that asks for it."""

    row: int
    edit: Add | Change


def shown_cells(
    task: Task, table: dict[str, Any], numbers: dict[str, int], plan: Plan
) -> tuple[str, ...]:
    """The cells of a task that is in the plan; `numbers` are the rows by the tasks' ids."""
    after = (
        str(numbers[name] + 1) if name in numbers else _name(name, plan)
        for name in written_order(table, "after", task.id, plan)
    )
    hold = task.hold
    return (
        task.title,
        typed_estimate(task.estimate),
        ", ".join(after),
        typed_people(task.least_people, task.most_people),
        f"{hold.kind} {hold.lasts or ''}".strip() if hold else "",
    )


def _name(some_id: str, plan: Plan) -> str:
    task = plan.written(some_id)
    if task is not None:
        return task.title
    return component_name(plan, some_id) if some_id in plan.components else some_id


class TypedRows:
    """The rows as they are typed now: the first of them are the tasks that `stand` in the plan."""

    def __init__(
        self, rows: Sequence[Sequence[str]], stand: Sequence[InTable], component: str, plan: Plan
    ) -> None:
        self.rows, self.stand = rows, stand
        self.stem, _, self.part = component.partition("/")
        self.plan = plan

    def edits(self) -> list[RowEdit]:
        """What makes the plan say what the rows say. Raises WrongCell, for the first cell that
        cannot be read."""
        ids = self._ids()
        there = {standing.task.id for standing in self.stand}
        made, later = list[RowEdit](), list[RowEdit]()
        for row, some_id in ids.items():
            values = self._values(row)
            after = values.get("after")
            if after is not None:
                values["after"] = tuple(ids.get(one, one) for one in after)
                if not there.issuperset(name for name in values["after"] if name in ids.values()):
                    # A row further down is made first; then this one can come after it.
                    later.append(
                        RowEdit(row, Change("task", some_id, {"after": values.pop("after")}))
                    )
            if row >= len(self.stand):
                part: dict[Key, object] = {"part": self.part} if self.part else {}
                made.append(RowEdit(row, Add("task", some_id, {**values, **part})))
                there.add(some_id)
            elif values:
                made.append(RowEdit(row, Change("task", some_id, values)))
        return [*made, *later]

    def _ids(self) -> dict[int, str]:
        """The id of each row's task, new ones made from their titles."""
        taken, ids = names_taken(self.stem, self.plan), dict[int, str]()
        for row, cells in enumerate(self.rows):
            if row < len(self.stand):
                ids[row] = self.stand[row].task.id
            elif any(map(str.strip, cells)):
                name = id_from(self._read(row, TITLE, needed), taken)
                taken.add(name)
                ids[row] = f"{self.stem}/{name}"
        return ids

    def _values(self, row: int) -> dict[Key, Any]:
        """The keys that the row sets; of a task that stands there, those of cells that changed."""
        readers: tuple[Callable[[str], Any], ...] = (
            needed,
            estimate,
            lambda typed: self.meant(row, typed),
            people,
            self._hold_of(row),
        )
        values: dict[Key, Any] = {}
        for column, (name, read) in enumerate(zip(NAMES, readers, strict=True)):
            typed = self.rows[row][column].strip()
            if row < len(self.stand):
                if typed != self.stand[row].cells[column].strip():
                    values[name] = self._read(row, column, read)
            elif typed:
                values[name] = self._read(row, column, read)
        return values

    def _read(self, row: int, column: int, read: Callable[[str], Any]) -> Any:
        try:
            return read(self.rows[row][column])
        except Wrong as wrong:
            raise WrongCell(row, column, str(wrong)) from None

    def _hold_of(self, row: int) -> Callable[[str], Any]:
        """What else the file says of a hold stays."""
        written = self.stand[row].table.get("hold") if row < len(self.stand) else None

        def read(typed: str) -> dict[str, Any] | None:
            hold = read_hold(typed)
            if hold is None or not isinstance(written, dict):
                return hold
            return {k: v for k, v in written.items() if k not in ("kind", "lasts")} | hold

        return read

    # --- what it comes after -------------------------------------------------------------------

    def meant(self, row: int, typed: str) -> tuple[Any, ...]:
        """What a row comes after: numbers of other rows, counted from 0, and ids. Raises Wrong."""
        words = (word.strip() for word in typed.split(","))
        return tuple(dict.fromkeys(one for w in words if w for one in self._one(row, w)))

    def in_words(self, row: int, typed: str) -> str:
        """The titles of what a row comes after. Raises Wrong."""
        names = (
            self.rows[one][TITLE] if isinstance(one, int) else _name(one, self.plan)
            for one in self.meant(row, typed)
        )
        return listed(names)

    def _one(self, row: int, word: str) -> Iterator[Any]:
        if match := re.fullmatch(r"(\d+)(?:\s*(?:-|–|to)\s*(\d+))?", word, re.ASCII):
            first, last = int(match[1]), int(match[2] or match[1])
            if first > last:
                raise Wrong(f'"{word}": write the lower number first')
            yield from (self._row(row, number) for number in range(first, min(last, 999) + 1))
            return
        yield self._titled(row, word)

    def _row(self, row: int, number: int) -> int:
        if number == row + 1:
            raise Wrong("a task cannot come after itself")
        if not 1 <= number <= len(self.rows) or not self.rows[number - 1][TITLE].strip():
            raise Wrong(f"there is no task in row {number}")
        return number - 1

    def _titled(self, row: int, word: str) -> Any:
        """The one task whose title is, begins with or holds the letters; here before elsewhere."""
        letters = word.casefold()
        here = [(n, cells[TITLE]) for n, cells in enumerate(self.rows) if n != row]
        standing = {one.task.id for one in self.stand}
        tasks = self.plan.all_written().values()
        others = [(t.id, t.title) for t in tasks if t.id not in standing]
        others += [(c.id, c.name) for c in self.plan.components.values()]
        if word in dict(others):  # an id, as the files have it
            return word
        for fits in (_same, _begins, _has_word, _holds):
            for among in (here, others):
                fitting = [one for one in among if fits(one[1].casefold().strip(), letters)]
                if len(fitting) == 1:
                    return fitting[0][0]
                if fitting:
                    titles = listed(f'"{title}"' for _, title in fitting[:3])
                    raise Wrong(f'"{word}" may be {titles}: write more of it')
        raise Wrong(f'no task or component has "{word}" in its title')


def _same(title: str, letters: str) -> bool:
    return title == letters


def _begins(title: str, letters: str) -> bool:
    return title.startswith(letters)


def _has_word(title: str, letters: str) -> bool:
    return f" {letters}" in title


def _holds(title: str, letters: str) -> bool:
    return letters in title


def proposed(stand: int, row: int, column: int, above: Sequence[str]) -> str:
    """What a new row has where nobody typed: it comes after the row `above`, and takes as long as
    that where that is new too. `stand` is how many rows stand in the plan already.

    People are only asked for where they are typed: their number holds work up."""
    if column == AFTER:
        return str(row)
    return above[HOURS] if column == HOURS and row > stand else ""


def read_hold(typed: str) -> dict[str, Any] | None:
    """ "glue 24 hours" or "2d cure": the kind, or its first letters, and how long it lasts, which
    may be left out. None where nothing is typed. Raises Wrong."""
    words = " ".join(typed.casefold().split())
    if not words:
        return None
    kind, lasts = _kind_and_span(words)
    kinds = _kinds(kind)
    if len(kinds) != 1:
        raise Wrong(f'"{kind}" is no kind of hold: write one of {", ".join(kinds or KINDS)}')
    return {"kind": kinds[0]} | ({"lasts": span(lasts)} if lasts else {})


def _kind_and_span(words: str) -> tuple[str, str]:
    """The two as typed, whichever stands first."""
    split = words.split()
    for place in range(1, len(split) if words[0].isdigit() else 0):
        lasts, kind = " ".join(split[:place]), " ".join(split[place:])
        if lasts[-1].isalpha() and len(_kinds(kind)) == 1:
            return kind, lasts
    kind = re.split(r"\s*(?=\d)", words, maxsplit=1)[0]
    return kind or words, words.removeprefix(kind).strip()


def _kinds(letters: str) -> list[str]:
    if letters in KINDS:
        return [letters]
    return [known for known in KINDS if letters and known.startswith(letters)]
